"""The rod at full size, in tiles for paper: each is laid to its own start figure on a steel tape and checked by a bar.

Tiles are never laid one against another: an error of a quarter of a millimetre in each 100 mm bar would be 10 in 4 m.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from oddleg.plan.figure import text_mm
from oddleg.plan.packing import Fixing
from oddleg.plan.set_out import RodMark
from oddleg.plan.setting_out import RunSetOut

from .lettering import CAP_HEIGHT, SMALL_MM, shortened, text_width_mm, wrapped
from .primitives import Circle, Drawing, Group, Line, Mark, Polygon, Text
from .running import kept_apart
from .staircase import staircase


@dataclass(frozen=True)
class TilePaper:
    """`width_mm` of a tile as drawn, `step_mm` from its start line to the next tile's: what is over lies beyond the two
    lines, for glue and for seeing that neighbours agree."""

    name: str
    width_mm: float
    step_mm: float

    @property
    def start_mm(self) -> float:
        return (self.width_mm - self.step_mm) / 2


# ISO 216 paper laid across, less 14 mm at each side and what the title block and the foot of a sheet take.
PAPERS = {"a4": TilePaper("A4", 269.0, 250.0), "a3": TilePaper("A3", 392.0, 370.0)}

FIGURE_MM, NAME_MM, HEAD_MM = 4.4, SMALL_MM, 5.0
NAME_WIDTH_MM = 46.0
EDGE_MM = 9.0
GAP_MM = 1.6
TICK_MM, FIFTY_MM = 2.0, 3.6
MIDDLE_MM = 29.0
# Labels that would reach further in than this stand on end instead, figure and order alone.
MOST_DEEP_MM = 46.0


@dataclass(frozen=True)
class _Entry:
    """Something to mark: where, its words, and how it is drawn. `order` 0: none."""

    x_mm: float
    figure: str
    name: str
    css: str
    order: int
    title: str

    def lines(self) -> tuple[tuple[str, float, bool], ...]:
        """(text, size, bold) from the top down."""
        first = f"{self.order}: {self.figure}" if self.order else self.figure
        names = wrapped(self.name, NAME_WIDTH_MM, NAME_MM)
        return ((first, FIGURE_MM, True), *((name, NAME_MM, False) for name in names))

    @property
    def short(self) -> str:
        """On one line, for a label on end."""
        return f"{self.order}: {self.figure}" if self.order else f"{self.figure}, {self.name.split('.')[0]}"

    def wide_mm(self) -> float:
        return 0.9 + max(text_width_mm(text, size, bold) for text, size, bold in self.lines())


def strip_tiles(set_out: RunSetOut, paper: str) -> tuple[Drawing, ...]:
    """Tiles of the rod at full size, left to right; one with no mark on it is left out. `paper` is a key of PAPERS. A
    mark lies `start_mm` of the paper plus its figure less the tile's start figure from the tile's left side."""
    of, rod = PAPERS[paper], set_out.rod
    if not rod.marks:
        return ()
    fixings = set_out.batten.fixings if set_out.batten is not None else ()
    places = [*(one.x_mm - rod.left_mm for one in rod.marks), *(one.x_mm - rod.left_mm for one in fixings)]
    first, last = (int(end // of.step_mm) for end in (min(places), max(places)))
    if last > first and max(places) - last * of.step_mm < of.start_mm:
        # What lies so little beyond the last full tile is on that one.
        last -= 1
    held = {min(int(place // of.step_mm), last) for place in places}
    return tuple(_tile(set_out, of, step - first + 1, last - first + 1, step) for step in sorted(held))


def tile_start(start_mm: float) -> str:
    """Where the start line of a tile lies on the tape."""
    if start_mm < 0:
        return f"Start line: {text_mm(-start_mm)} to the left of the zero"
    return f"Start line of this tile: {text_mm(start_mm)} on the tape"


def _tile(set_out: RunSetOut, of: TilePaper, number: int, count: int, step: int) -> Drawing:
    rod, start_mm = set_out.rod, step * of.step_mm

    def at(figure_mm: float) -> float:
        return of.start_mm + figure_mm - start_mm

    reach_mm = (start_mm - of.start_mm, start_mm + of.step_mm + of.start_mm)
    wall = _entries([one for one in rod.marks if one.row == "wall"], (), rod.left_mm, reach_mm)
    fixings = set_out.batten.fixings if set_out.batten is not None else ()
    base = _entries([one for one in rod.marks if one.row == "base"], fixings, rod.left_mm, reach_mm)
    over, over_mm = _labelled(wall, of, at)
    under, under_mm = _labelled(base, of, at)
    middle_mm = EDGE_MM + over_mm
    height_mm = middle_mm + MIDDLE_MM + under_mm + EDGE_MM
    right_mm = of.start_mm + of.step_mm
    marks: list[Mark] = [
        Line(of.start_mm, 0.0, of.start_mm, height_mm, "thin"),
        Line(right_mm, 0.0, right_mm, height_mm, "tile-end"),
        *_edge(of, start_mm, 0.0, 1),
        *_edge(of, start_mm, height_mm, -1),
    ]
    for entry, label in over:
        marks.append(_marked(entry, label, at(entry.x_mm), 0.0, 1))
    for entry, label in under:
        marks.append(_marked(entry, label, at(entry.x_mm), height_mm, -1))
    if rod.left_mm - 1e-6 <= rod.anchor_mm and reach_mm[0] <= rod.anchor_mm - rod.left_mm <= reach_mm[1]:
        x_mm = at(rod.anchor_mm - rod.left_mm)
        marks.append(
            Polygon(((x_mm - 2.0, height_mm - 4.0), (x_mm + 2.0, height_mm - 4.0), (x_mm, height_mm)), "accent")
        )
    # Over the marks, so that no line strikes a figure through.
    marks += [*_scale_figures(of, start_mm, 0.0, 1), *_scale_figures(of, start_mm, height_mm, -1)]
    marks += _middle(set_out, of, number, count, start_mm, middle_mm)
    end = Text(right_mm + 3.6, middle_mm + MIDDLE_MM / 2, "end of tile", SMALL_MM, "middle", turned=True)
    marks.append(end)
    listed = [f"{one.name or one.title} at {one.figure}" for one, _ in (*over, *under)]
    alt = f"Tile {number} of {count}, full size. {tile_start(start_mm)}. Check bar {text_mm(of.step_mm)}. " + (
        f"On it: {'; '.join(listed)}." if listed else "No mark on it."
    )
    return Drawing(f"Rod of {set_out.run.name}, tile {number} of {count}", alt, of.width_mm, height_mm, tuple(marks))


def _entries(
    marks: Sequence[RodMark], fixings: Sequence[Fixing], left_mm: float, reach_mm: tuple[float, float]
) -> list[_Entry]:
    """Marks and batten fixings within a tile's reach, in order along it, by their distance from the zero."""
    found = []
    for one in marks:
        x_mm = one.x_mm - left_mm
        if reach_mm[0] <= x_mm <= reach_mm[1]:
            css = "accent-line" if one.kind in ("zero", "end", "anchor") else "line"
            css = "dashed" if one.row == "wall" else css
            found.append(_Entry(x_mm, one.from_left.text, one.name, css, one.order, one.name))
    for fixing in fixings:
        x_mm = fixing.x_mm - left_mm
        if reach_mm[0] <= x_mm <= reach_mm[1]:
            found.append(
                _Entry(
                    x_mm, f"F{fixing.number} {fixing.at.text}", _packed(fixing), "dotted", 0, f"fixing {fixing.number}"
                )
            )
    return sorted(found, key=lambda one: one.x_mm)


def _packed(fixing: Fixing) -> str:
    words = "packing not known" if fixing.packing is None else f"packing {fixing.packing.text}"
    if fixing.packing is not None and "+" in fixing.packs:
        words += f" ({fixing.packs})"
    return f"{words}. {fixing.zone}" if fixing.zone else words


@dataclass(frozen=True)
class _Label:
    """Where a label stands: how far in from the tile's edge its near side lies, and on which side of its line; `turned`
    on end, with its middle at `turned_mm`."""

    in_mm: float
    to_left: bool
    turned_mm: float | None = None


def _labelled(
    entries: Sequence[_Entry], of: TilePaper, at: Callable[[float], float]
) -> tuple[list[tuple[_Entry, _Label]], float]:
    """Each entry with the place of its label, and how deep the labels reach in."""
    if not entries:
        return [], 0.0
    places = [at(one.x_mm) for one in entries]
    steps = staircase(places, [one.wide_mm() for one in entries], GAP_MM, 0.0, of.width_mm)
    if steps is not None:
        rows = max(step.row for step in steps) + 1
        deep = [
            max(_deep_mm(one) for one, step in zip(entries, steps, strict=True) if step.row == row)
            for row in range(rows)
        ]
        if sum(deep) <= MOST_DEEP_MM:
            labels = [_Label(GAP_MM + sum(deep[: step.row]), step.to_left) for step in steps]
            return list(zip(entries, labels, strict=True)), GAP_MM + sum(deep)
    moved = kept_apart(places, FIGURE_MM * 1.1, FIGURE_MM, of.width_mm - FIGURE_MM)
    wide_mm = max(text_width_mm(one.short, FIGURE_MM, True) for one in entries)
    turned = [_Label(5.0, False, x_mm) for x_mm in moved]
    return list(zip(entries, turned, strict=True)), 5.0 + wide_mm + 1.5


def _deep_mm(entry: _Entry) -> float:
    return sum(size * 1.15 for _, size, _ in entry.lines()) + 0.8


def _marked(entry: _Entry, label: _Label, x_mm: float, edge_mm: float, way: int) -> Mark:
    """The mark from the tile's edge in, and its label. `way` 1: the upper edge, so that in is down the page."""
    start_mm = edge_mm + way * EDGE_MM
    if label.turned_mm is not None:
        knee_mm, half_mm = start_mm + way * 4.0, FIGURE_MM * CAP_HEIGHT / 2
        text = Text(
            label.turned_mm + half_mm, knee_mm + way * 0.8, entry.short, FIGURE_MM, "end" if way > 0 else "start",
            bold=True, turned=True,
        )  # fmt: skip
        parts: list[Mark] = [
            Line(x_mm, edge_mm, x_mm, start_mm, entry.css), Line(x_mm, start_mm, label.turned_mm, knee_mm, "hair"), text
        ]  # fmt: skip
        return Group(tuple(parts), "mark", title=f"{entry.title}, {entry.figure}")
    deep_mm = _deep_mm(entry)
    near_mm = start_mm + way * label.in_mm
    top_mm = near_mm if way > 0 else near_mm - deep_mm
    parts = [Line(x_mm, edge_mm, x_mm, near_mm + way * deep_mm, entry.css)]
    if entry.css == "dotted":
        parts.append(Circle(x_mm, edge_mm + way * EDGE_MM, 1.2, "spot"))
    base_mm = top_mm
    for words, size_mm, bold in entry.lines():
        base_mm += size_mm * 0.9
        at_mm, side = (x_mm - 0.9, "end") if label.to_left else (x_mm + 0.9, "start")
        parts.append(Text(at_mm, base_mm, words, size_mm, side, bold, halo=True))
        base_mm += size_mm * 0.25
    return Group(tuple(parts), "mark", title=f"{entry.title}, {entry.figure}")


def _edge(of: TilePaper, start_mm: float, edge_mm: float, way: int) -> list[Mark]:
    """An edge to lay the tape along: a line and a tick every 10, longer every 50."""
    marks: list[Mark] = [Line(0.0, edge_mm, of.width_mm, edge_mm, "line")]
    for along in range(0, int(of.step_mm) + 1, 10):
        x_mm = of.start_mm + along
        fifty = (start_mm + along) % 50 == 0
        marks.append(Line(x_mm, edge_mm, x_mm, edge_mm + way * (FIFTY_MM if fifty else TICK_MM), "thin"))
    return marks


def _scale_figures(of: TilePaper, start_mm: float, edge_mm: float, way: int) -> list[Mark]:
    """The tape's figure every 50."""
    base_mm = edge_mm + way * (FIFTY_MM + 0.8) + (SMALL_MM * CAP_HEIGHT if way > 0 else 0.0)
    return [
        Text(of.start_mm + along, base_mm, text_mm(start_mm + along), SMALL_MM, "middle", halo=True)
        for along in range(0, int(of.step_mm) + 1, 10)
        if (start_mm + along) % 50 == 0
    ]


def _middle(set_out: RunSetOut, of: TilePaper, number: int, count: int, start_mm: float, top_mm: float) -> list[Mark]:
    """Start figure, name, check bar and the rod's whole length."""
    rod = set_out.rod
    left_mm, right_mm = of.start_mm + 1.5, of.start_mm + of.step_mm - 1.5
    head_mm, bar_mm = top_mm + 7.0, top_mm + 14.5
    name = f"tile {number} of {count}"
    start = tile_start(start_mm)
    room_mm = right_mm - left_mm - text_width_mm(start, HEAD_MM, True) - 6.0
    of_run = shortened(set_out.run.name, room_mm - text_width_mm(f", {name}", FIGURE_MM, True), FIGURE_MM, True)
    ends_mm = next((one.from_left.text for one in rod.marks if one.kind == "end"), None)
    words = [f"Check bar: {text_mm(of.step_mm)} from line to line by a steel rule, or print again at 100 %."]
    if ends_mm is not None:
        words.append(f"Whole rod: zero to end mark {ends_mm} on the tape.")
    edges = "Upper edge: the row on the wall. Lower edge: what stands. Cut along both and lay the tape to them."
    if all(one.row == "base" for one in rod.marks):
        edges = "Cut along the lower edge and lay the tape to it."
    return [
        Text(left_mm, head_mm, start, HEAD_MM, bold=True),
        Text(right_mm, head_mm, f"{of_run}, {name}", FIGURE_MM, "end", bold=True),
        Group(
            (
                Line(of.start_mm, bar_mm, of.start_mm + of.step_mm, bar_mm, "line"),
                Line(of.start_mm, bar_mm - 2.0, of.start_mm, bar_mm + 2.0, "line"),
                Line(of.start_mm + of.step_mm, bar_mm - 2.0, of.start_mm + of.step_mm, bar_mm + 2.0, "line"),
            ),
            "check-bar",
            title=f"check bar, {text_mm(of.step_mm)}",
        ),
        Text(left_mm, bar_mm + 5.6, " ".join(words), 3.4),
        Text(left_mm, bar_mm + 10.2, edges, 3.4),
    ]
