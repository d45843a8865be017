"""How a panel's face is cut into tiles for paper: which of them hold something to mark, and their control length."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

from oddleg.plan.panel_views import PanelView, letters

from .lettering import Area
from .outlines import Place, cut_outline, within

# What lies beyond a tile's own lines on each side is on its neighbour too.
LAP_MM = 5.0
SAME_MM = 1e-6


@dataclass(frozen=True)
class TemplatePaper:
    """`across_mm`, `up_mm`: from a tile's start lines to the next tile's."""

    name: str
    across_mm: float
    up_mm: float


# ISO 216 paper upright, less 14 mm at each side and what title block, foot, words and check bars take; round figures.
TEMPLATE_PAPERS = {"a4": TemplatePaper("A4", 160.0, 200.0), "a3": TemplatePaper("A3", 240.0, 320.0)}


@dataclass(frozen=True)
class Tile:
    """`column` counts along u, `row` along v, both from 0 at the origin: left and right sides have the same tiles."""

    column: int
    row: int
    of: TemplatePaper

    @property
    def name(self) -> str:
        return f"{letters(self.column)}{self.row + 1}"

    @property
    def start(self) -> Place:
        """u and v of its start lines."""
        return self.column * self.of.across_mm, self.row * self.of.up_mm

    def own(self, lap_mm: float = 0.0) -> Area:
        """In u and v, with so much beyond its lines."""
        u_mm, v_mm = self.start
        return Area(u_mm - lap_mm, v_mm - lap_mm, u_mm + self.of.across_mm + lap_mm, v_mm + self.of.up_mm + lap_mm)

    def holds(self, place: Place) -> bool:
        """Whether the place is on its paper, laps included."""
        area = self.own(LAP_MM)
        return area.left_mm <= place[0] <= area.right_mm and area.top_mm <= place[1] <= area.bottom_mm


@dataclass(frozen=True)
class Tiling:
    """`tiles` with something to mark, row by row from the origin; `left_out`: how many have none. `control`: the two
    printed crosses or corners that lie furthest apart."""

    columns: int
    rows: int
    tiles: tuple[Tile, ...]
    left_out: int
    control: tuple[Place, Place]

    @property
    def control_mm(self) -> float:
        return math.dist(*self.control)


def tiling(view: PanelView, of: TemplatePaper) -> Tiling:
    """For a face that has something to mark."""
    columns, rows = _count(view.panel.width_mm, of.across_mm), _count(view.panel.height_mm, of.up_mm)
    held = {
        (_nth(one.hole.u_mm, of.across_mm, columns), _nth(one.hole.v_mm, of.up_mm, rows)) for one in view.holes
    }  # fmt: skip
    tiles = [Tile(column, row, of) for row in range(rows) for column in range(columns)]
    # The last tile of a row or a column holds what its lap does.
    ends = {one: LAP_MM if one.column == columns - 1 or one.row == rows - 1 else 0.0 for one in tiles}
    kept = tuple(
        one
        for one in tiles
        if (one.column, one.row) in held
        or any(_crosses(one.own(ends[one]), cut_outline(cut), view) for cut in view.cut_outs)
    )
    spots = [spot for tile in kept for spot in (*crosses(tile, view), *corners(tile, view))]
    control = max(combinations(spots, 2), key=lambda pair: math.dist(*pair))
    return Tiling(columns, rows, kept, len(tiles) - len(kept), control)


def crosses(tile: Tile, view: PanelView) -> list[Place]:
    """Its four registration crosses, in u and v; those beyond the board are not printed."""
    area = tile.own()
    spots = [(u_mm, v_mm) for v_mm in (area.top_mm, area.bottom_mm) for u_mm in (area.left_mm, area.right_mm)]
    width_mm, height_mm = view.panel.width_mm + SAME_MM, view.panel.height_mm + SAME_MM
    return [(u_mm, v_mm) for u_mm, v_mm in spots if u_mm <= width_mm and v_mm <= height_mm]


def corners(tile: Tile, view: PanelView) -> list[Place]:
    """The board's corners on it."""
    width_mm, height_mm = view.panel.width_mm, view.panel.height_mm
    spots = ((0.0, 0.0), (width_mm, 0.0), (0.0, height_mm), (width_mm, height_mm))
    return [one for one in spots if tile.holds(one)]


def _count(length_mm: float, step_mm: float) -> int:
    """How many tiles a length takes; what goes less than half a lap beyond the last full one is on that one's lap."""
    return max(1, math.ceil((length_mm - LAP_MM / 2) / step_mm))


def _nth(at_mm: float, step_mm: float, count: int) -> int:
    return min(max(int(at_mm // step_mm), 0), count - 1)


def _crosses(area: Area, outline: tuple[Place, ...], view: PanelView) -> bool:
    """Whether a line to saw along runs over the area; along the board's own edges nothing is sawn."""
    width_mm, height_mm = view.panel.width_mm, view.panel.height_mm
    for piece in within(outline, area, closed=True):
        us, vs = [u for u, _ in piece], [v for _, v in piece]
        on_edge = (
            max(us) <= SAME_MM or min(us) >= width_mm - SAME_MM or max(vs) <= SAME_MM or min(vs) >= height_mm - SAME_MM
        )
        if not on_edge:
            return True
    return False
