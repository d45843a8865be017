"""A panel's face at full size, in tiles for paper. Each tile is laid by its own start lines, measured from the board's
edges; bars check the printer both ways on every tile, and one control length checks all of them laid together.
"""

from __future__ import annotations

from itertools import pairwise

from oddleg.plan.figure import text_mm
from oddleg.plan.fitted_out import CutOut
from oddleg.plan.panel_views import COUNTED_FROM, NumberedHole, PanelView, letters
from oddleg.plan.panels_part import depth_words

from .lettering import BEYOND, CROSSES, SMALL_MM, Area, Page, shortened, text_width_mm
from .outlines import Place, arc, cut_outline, within
from .panel import capital
from .primitives import Circle, Drawing, Group, Line, Mark, Polygon, Polyline, Text, rectangle
from .template_paper import LAP_MM, TEMPLATE_PAPERS, TemplatePaper, Tile, Tiling, corners, crosses, tiling

HEAD_MM, STRIP_MM, SIDE_MM = 22.0, 9.0, 1.0
HEAD_SIZE_MM = 4.2
KEY_MM = 20.0
BAR_MM = 100.0
CROSS_MM, DIAMOND_MM = 4.0, 3.0
OVER_MM = 3.0
OPPOSITE = {"front edge": "rear edge", "left edge": "right edge", "lower edge": "upper edge"}


def template_tiles(view: PanelView, paper: str, step_mm: float) -> tuple[Drawing, ...]:
    """The tiles with something to mark. A hole lies, from the tile's start lines on paper, at its exact u and v less
    those of the start lines; u runs to the left on a mirrored face. `paper` is a key of TEMPLATE_PAPERS."""
    of = TEMPLATE_PAPERS[paper]
    laid = tiling(view, of)
    return tuple(_Tile(view, of, laid, tile, step_mm).drawing(number) for number, tile in enumerate(laid.tiles, 1))


def control_words(laid: Tiling, step_mm: float) -> str:
    start, end = ([text_mm(one, step_mm) for one in spot] for spot in laid.control)
    return f"from {start[0]} | {start[1]} to {end[0]} | {end[1]} it is {text_mm(laid.control_mm, step_mm)}"


def template_key(view: PanelView, paper: str, width_mm: float, greatest_height_mm: float) -> Drawing:
    """The whole face with its tiles by name: dashed and without a name are those left out."""
    of = TEMPLATE_PAPERS[paper]
    laid = tiling(view, of)
    scale = min((width_mm - 3.0) / view.panel.width_mm, (greatest_height_mm - 3.0) / view.panel.height_mm)
    marks = _map(view, laid, (1.5, 1.5), scale, None)
    holes = [
        Circle(
            1.5 + view.x_mm(one.hole.u_mm) * scale, 1.5 + (view.panel.height_mm - one.hole.v_mm) * scale, 0.35, "ink"
        )
        for one in view.holes
    ]
    names: list[Mark] = []
    for tile in laid.tiles:
        left, top, right, bottom = _on_map(view, tile, (1.5, 1.5), scale)
        if right - left > text_width_mm(tile.name, SMALL_MM, True) and bottom - top > SMALL_MM:
            at = (left + right) / 2, (top + bottom) / 2 + SMALL_MM * 0.35
            names.append(Text(*at, tile.name, SMALL_MM, "middle", bold=True, halo=True))
    alt = f"{view.panel.name}, {view.words}: {len(laid.tiles)} tiles of {of.name}, {laid.left_out} left out."
    width, height = view.panel.width_mm * scale + 3.0, view.panel.height_mm * scale + 3.0
    return Drawing(f"Tiles of {view.panel.name}", alt, width, height, (*marks, *holes, *names))


class _Tile:
    """One tile on its paper."""

    def __init__(self, view: PanelView, of: TemplatePaper, laid: Tiling, tile: Tile, step_mm: float) -> None:
        self.view, self.of, self.laid, self.tile, self.step_mm = view, of, laid, tile, step_mm
        self.left_mm, self.top_mm = STRIP_MM + LAP_MM, HEAD_MM + LAP_MM
        self.right_mm, self.bottom_mm = self.left_mm + of.across_mm, self.top_mm + of.up_mm
        self.width_mm, self.height_mm = self.right_mm + LAP_MM + SIDE_MM, self.bottom_mm + LAP_MM + STRIP_MM
        lap = LAP_MM
        self.paper = Area(self.left_mm - lap, self.top_mm - lap, self.right_mm + lap, self.bottom_mm + lap)

    def at(self, place: Place) -> Place:
        """u and v as a place on paper."""
        away_mm = place[0] - self.tile.start[0]
        x_mm = self.right_mm - away_mm if self.view.mirrored else self.left_mm + away_mm
        return x_mm, self.bottom_mm - (place[1] - self.tile.start[1])

    def drawing(self, number: int) -> Drawing:
        view = self.view
        page = Page(self.width_mm, self.height_mm)
        paper = self.paper
        wide_mm, high_mm = self.width_mm, self.height_mm
        outside = (
            Area(0.0, 0.0, wide_mm, paper.top_mm), Area(0.0, paper.bottom_mm, wide_mm, high_mm),
            Area(0.0, 0.0, paper.left_mm, high_mm), Area(paper.right_mm, 0.0, wide_mm, high_mm),
        )  # fmt: skip
        page.keep_clear(outside, BEYOND)
        own = [(self.left_mm, self.top_mm), (self.right_mm, self.top_mm), (self.right_mm, self.bottom_mm)]
        page.keep_clear(_along([*own, (self.left_mm, self.bottom_mm), own[0]]), CROSSES)
        holes = [one for one in view.holes if self.tile.holds((one.hole.u_mm, one.hole.v_mm))]
        drawn = [self._hole(one, page) for one in holes]
        marks: list[Mark] = [
            rectangle(self.left_mm, self.top_mm, self.right_mm, self.bottom_mm, "tile-end"),
            *self._edges(page),
            *(self._cut_out(one, page) for one in view.cut_outs),
            *drawn,
        ]
        registration = [self._cross(spot, page) for spot in crosses(self.tile, view)]
        marks += [*registration, *self._control()]
        for one in holes:
            marks += self._label(one, page)
        for cut in view.cut_outs:
            marks += self._cut_labels(cut, page)
        for spot in crosses(self.tile, view):
            figures = f"{self._text(spot[0])} | {self._text(spot[1])}"
            radius_mm = DIAMOND_MM if spot in self.laid.control else 1.0
            marks += page.label(*self.at(spot), radius_mm, [(figures, False)], SMALL_MM)
        marks += [*self._bars(), *self._head(number)]
        return Drawing(self._title(), self._alt(holes), self.width_mm, self.height_mm, tuple(marks))

    def _text(self, value_mm: float) -> str:
        return text_mm(value_mm, self.step_mm)

    def _title(self) -> str:
        return f"{capital(self.view.panel.name)}, {self.view.words}, tile {self.tile.name}"

    def _hole(self, one: NumberedHole, page: Page) -> Mark:
        x_mm, y_mm = self.at((one.hole.u_mm, one.hole.v_mm))
        radius_mm = one.hole.diameter_mm / 2
        reach_mm = radius_mm + OVER_MM
        page.keep_clear([Area(x_mm - radius_mm, y_mm - radius_mm, x_mm + radius_mm, y_mm + radius_mm)])
        page.keep_clear([Area(x_mm - reach_mm, y_mm - 0.2, x_mm + reach_mm, y_mm + 0.2)])
        page.keep_clear([Area(x_mm - 0.2, y_mm - reach_mm, x_mm + 0.2, y_mm + reach_mm)])
        parts: list[Mark] = [
            *self._clipped([(x_mm - reach_mm, y_mm), (x_mm + reach_mm, y_mm)], "hair"),
            *self._clipped([(x_mm, y_mm - reach_mm), (x_mm, y_mm + reach_mm)], "hair"),
            *self._circle((x_mm, y_mm), radius_mm),
        ]
        return Group(tuple(parts), "hole", (("hole", one.hole.id),), f"{one.number}: {one.hole.words}")

    def _circle(self, middle: Place, radius_mm: float) -> list[Mark]:
        """The whole circle, or what of it lies on the paper."""
        (x_mm, y_mm), paper = middle, self.paper
        inside = (
            paper.left_mm <= x_mm - radius_mm and x_mm + radius_mm <= paper.right_mm
            and paper.top_mm <= y_mm - radius_mm and y_mm + radius_mm <= paper.bottom_mm
        )  # fmt: skip
        if inside:
            return [Circle(x_mm, y_mm, radius_mm, "thin")]
        return self._clipped(arc(middle, radius_mm, 0.0, 360.0), "thin")

    def _clipped(self, points: list[Place], css: str, closed: bool = False) -> list[Mark]:
        return [
            Line(*piece[0], *piece[1], css) if len(piece) == 2 else Polyline(tuple(piece), css)
            for piece in within(points, self.paper, closed)
        ]

    def _label(self, one: NumberedHole, page: Page) -> list[Mark]:
        hole = one.hole
        lines = [
            (f"{one.number}: Ø{self._text(hole.diameter_mm)}, {depth_words(hole, self.step_mm)}", True),
            (f"{self._text(hole.u_mm)} | {self._text(hole.v_mm)}", False),
        ]
        return page.label(*self.at((hole.u_mm, hole.v_mm)), hole.diameter_mm / 2, lines, SMALL_MM)

    def _cut_out(self, cut: CutOut, page: Page) -> Mark:
        outline = [self.at(spot) for spot in cut_outline(cut)]
        page.keep_clear(_along([*outline, outline[0]]))
        parts = self._clipped(outline, "line", closed=True)
        if cut.round:
            x_mm, y_mm = self.at((cut.left_mm + cut.width_mm / 2, cut.foot_mm + cut.height_mm / 2))
            parts += self._clipped([(x_mm - CROSS_MM, y_mm), (x_mm + CROSS_MM, y_mm)], "hair")
            parts += self._clipped([(x_mm, y_mm - CROSS_MM), (x_mm, y_mm + CROSS_MM)], "hair")
        return Group(tuple(parts), "cut-out", (("cut-out", cut.id),), cut.words)

    def _cut_labels(self, cut: CutOut, page: Page) -> list[Mark]:
        """Its size where its middle is, and the figures of its corners (or of the middle of a round one)."""
        right_mm, top_mm = cut.left_mm + cut.width_mm, cut.foot_mm + cut.height_mm
        middle = (cut.left_mm + right_mm) / 2, (cut.foot_mm + top_mm) / 2
        marks: list[Mark] = []
        called = f"{letters(self.view.cut_outs.index(cut))}, {cut.words}"
        size = f"{self._text(cut.width_mm)} × {self._text(cut.height_mm)}"
        size = f"Ø{self._text(cut.width_mm)}" if cut.round else size
        if cut.radius_mm > 0 and not cut.round:
            size += f", corners of radius {self._text(cut.radius_mm)}"
        spots = [middle] if cut.round else [(u, v) for v in (cut.foot_mm, top_mm) for u in (cut.left_mm, right_mm)]
        for spot in spots:
            if self.tile.holds(spot):
                lines = [(f"{self._text(spot[0])} | {self._text(spot[1])}", False)]
                lines = [(f"{called}: {size}", True), *lines] if spot == spots[0] else lines
                marks += page.label(*self.at(spot), 1.2, lines, SMALL_MM)
        if spots[0] != middle and not self.tile.holds(spots[0]) and self.tile.holds(middle):
            marks += page.label(*self.at(middle), 0.0, [(f"{called}: {size}", True)], SMALL_MM)
        return marks

    def _edges(self, page: Page) -> list[Mark]:
        """The board's edges on it, each with its name beyond the board."""
        panel = self.view.panel
        across, up = (one.split(" as seen")[0] for one in COUNTED_FROM[panel.kind])
        low = self.at((0.0, 0.0))
        high = self.at((panel.width_mm, panel.height_mm))
        sides = (low[0], across), (high[0], OPPOSITE[across])
        levels = (low[1], up), (high[1], OPPOSITE[up])
        marks: list[Mark] = []
        for x_mm, name in sides:
            for piece in within([(x_mm, low[1]), (x_mm, high[1])], self.paper):
                right = x_mm > (low[0] + high[0]) / 2
                base_mm = x_mm + 0.9 + SMALL_MM * 0.75 if right else x_mm - 1.4
                middle_mm = (piece[0][1] + piece[-1][1]) / 2
                text = Text(base_mm, middle_mm, name, SMALL_MM, "middle", bold=True, turned=True)
                half_mm = text_width_mm(name, SMALL_MM, True) / 2
                page.keep_clear([
                    *_along(piece), *_along([(base_mm - SMALL_MM, middle_mm - half_mm), (base_mm, middle_mm + half_mm)])
                ])  # fmt: skip
                marks += [Line(*piece[0], *piece[-1], "line"), text]
        for y_mm, name in levels:
            for piece in within([(low[0], y_mm), (high[0], y_mm)], self.paper):
                base_mm = y_mm + 0.9 + SMALL_MM * 0.75 if y_mm >= low[1] else y_mm - 1.4
                middle_mm = (piece[0][0] + piece[-1][0]) / 2
                text = Text(middle_mm, base_mm, name, SMALL_MM, "middle", bold=True)
                half_mm = text_width_mm(name, SMALL_MM, True) / 2
                page.keep_clear([
                    *_along(piece), *_along([(middle_mm - half_mm, base_mm - SMALL_MM), (middle_mm + half_mm, base_mm)])
                ])  # fmt: skip
                marks += [Line(*piece[0], *piece[-1], "line"), text]
        return marks

    def _cross(self, spot: Place, page: Page) -> Mark:
        x_mm, y_mm = self.at(spot)
        page.keep_clear([Area(x_mm - CROSS_MM, y_mm - 0.3, x_mm + CROSS_MM, y_mm + 0.3)])
        page.keep_clear([Area(x_mm - 0.3, y_mm - CROSS_MM, x_mm + 0.3, y_mm + CROSS_MM)])
        lines = (
            Line(x_mm - CROSS_MM, y_mm, x_mm + CROSS_MM, y_mm, "thin"),
            Line(x_mm, y_mm - CROSS_MM, x_mm, y_mm + CROSS_MM, "thin"),
        )
        return Group(lines, "cross", (), f"cross at {self._text(spot[0])}, {self._text(spot[1])}")

    def _control(self) -> list[Mark]:
        """A diamond round each end of the control length that is on this tile."""
        marks: list[Mark] = []
        here = {*crosses(self.tile, self.view), *corners(self.tile, self.view)}
        for spot in here & {*self.laid.control}:
            x_mm, y_mm = self.at(spot)
            off = ((-DIAMOND_MM, 0.0), (0.0, -DIAMOND_MM), (DIAMOND_MM, 0.0), (0.0, DIAMOND_MM))
            points = tuple((x_mm + across_mm, y_mm + down_mm) for across_mm, down_mm in off)
            marks.append(Group((Polygon(points, "accent-line"),), "control", title="an end of the control length"))
        return marks

    def _bars(self) -> list[Mark]:
        """In both directions a bar of 100 and one as long as the tile."""
        left, bottom = self.left_mm, self.bottom_mm
        under_mm, beside_mm = bottom + LAP_MM + 2.4, STRIP_MM - 2.4
        marks: list[Mark] = []
        for length_mm, off_mm, css in ((BAR_MM, 0.0, "check-bar"), (self.of.across_mm, 4.0, "tile-bar")):
            y_mm = under_mm + off_mm
            lines = (
                Line(left, y_mm, left + length_mm, y_mm, "line"),
                Line(left, y_mm - 1.6, left, y_mm + 1.6, "line"),
                Line(left + length_mm, y_mm - 1.6, left + length_mm, y_mm + 1.6, "line"),
                Text(left + length_mm / 2, y_mm + 1.0, text_mm(length_mm), SMALL_MM, "middle", bold=True, halo=True),
            )
            marks.append(Group(lines, css, title=f"bar across, {text_mm(length_mm)}"))
        for length_mm, off_mm, css in ((BAR_MM, 0.0, "check-bar"), (self.of.up_mm, 4.0, "tile-bar")):
            x_mm = beside_mm - off_mm
            lines = (
                Line(x_mm, bottom, x_mm, bottom - length_mm, "line"),
                Line(x_mm - 1.6, bottom, x_mm + 1.6, bottom, "line"),
                Line(x_mm - 1.6, bottom - length_mm, x_mm + 1.6, bottom - length_mm, "line"),
                Text(
                    x_mm + 1.0,
                    bottom - length_mm / 2,
                    text_mm(length_mm),
                    SMALL_MM,
                    "middle",
                    bold=True,
                    halo=True,
                    turned=True,
                ),
            )
            marks.append(Group(lines, css, title=f"bar up, {text_mm(length_mm)}"))
        return marks

    def _head(self, number: int) -> list[Mark]:
        across, up = COUNTED_FROM[self.view.panel.kind]
        u_mm, v_mm = self.tile.start
        room_mm = self.width_mm - KEY_MM - 4.0
        count = f", {number} of {len(self.laid.tiles)}"
        title = shortened(self._title(), room_mm - text_width_mm(count, HEAD_SIZE_MM, True), HEAD_SIZE_MM, True)
        start = f"Start lines: {self._text(u_mm)} from the {across}, {self._text(v_mm)} from the {up}"
        bars = f"{text_mm(BAR_MM)} both ways, {text_mm(self.of.across_mm)} across, {text_mm(self.of.up_mm)} up"
        lines = (
            (title + count, HEAD_SIZE_MM, True),
            (start, HEAD_SIZE_MM if text_width_mm(start, HEAD_SIZE_MM, True) <= room_mm else SMALL_MM, True),
            (f"Print at 100 %, not fitted to the page. Measure the bars first: {bars}.", SMALL_MM, False),
            (f"All tiles laid: {control_words(self.laid, self.step_mm)}, diamond to diamond.", SMALL_MM, False),
        )  # fmt: skip
        marks: list[Mark] = []
        y_mm = 0.0
        for words, size_mm, bold in lines:
            y_mm += size_mm * 1.12
            marks.append(Text(0.0, y_mm, words, size_mm, bold=bold))
        panel = self.view.panel
        scale = min(KEY_MM / panel.width_mm, KEY_MM / panel.height_mm)
        from_mm = self.width_mm - 0.5 - panel.width_mm * scale
        return [*marks, *_map(self.view, self.laid, (from_mm, 0.5), scale, self.tile)]

    def _alt(self, holes: list[NumberedHole]) -> str:
        told = [
            f"{one.number} at {self._text(one.hole.u_mm)}, {self._text(one.hole.v_mm)}, "
            f"{self._text(one.hole.diameter_mm)} across, {depth_words(one.hole, self.step_mm)}"
            for one in holes
        ]
        return f"{self._title()}, full size. Holes: {'; '.join(told) if told else 'none'}."


def _along(points: list[Place]) -> list[Area]:
    """What a line through these points covers, piece by piece."""
    return [
        Area(min(a[0], b[0]) - 0.3, min(a[1], b[1]) - 0.3, max(a[0], b[0]) + 0.3, max(a[1], b[1]) + 0.3)
        for a, b in pairwise(points)
    ]


def _on_map(view: PanelView, tile: Tile, corner: Place, scale: float) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of a tile on a map of the face, as far as the board goes."""
    area, panel = tile.own(), view.panel
    ends = sorted(view.x_mm(min(u, panel.width_mm)) for u in (area.left_mm, area.right_mm))
    high_mm, low_mm = min(area.bottom_mm, panel.height_mm), area.top_mm
    left_mm, top_mm = corner
    return (
        left_mm + ends[0] * scale,
        top_mm + (panel.height_mm - high_mm) * scale,
        left_mm + ends[1] * scale,
        top_mm + (panel.height_mm - low_mm) * scale,
    )


def _map(view: PanelView, laid: Tiling, corner: Place, scale: float, this: Tile | None) -> list[Mark]:
    """A little map of the tiles: printed ones with a full line, this one dark; the front edge thick."""
    left_mm, top_mm = corner
    right_mm, bottom_mm = left_mm + view.panel.width_mm * scale, top_mm + view.panel.height_mm * scale
    marks: list[Mark] = [rectangle(left_mm, top_mm, right_mm, bottom_mm, "bay")]
    marks += [
        rectangle(*_on_map(view, tile, corner, scale), "packing" if tile == this else "item") for tile in laid.tiles
    ]
    ends = {
        "left": (left_mm, top_mm, left_mm, bottom_mm), "right": (right_mm, top_mm, right_mm, bottom_mm),
        "bottom": (left_mm, bottom_mm, right_mm, bottom_mm), "top": (left_mm, top_mm, right_mm, top_mm),
    }  # fmt: skip
    if view.front_edge is not None:
        marks.append(Line(*ends[view.front_edge], "heavy"))
    return marks
