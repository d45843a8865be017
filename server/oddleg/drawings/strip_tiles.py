"""The rod at full size, in tiles for paper: each is laid to its own start figure on a steel tape and checked by a bar.

Tiles are never laid one against another: an error of a quarter of a millimetre in each 100 mm bar would be 10 in 4 m.
"""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.plan.figure import text_mm
from oddleg.plan.packing import Fixing
from oddleg.plan.set_out import RodMark
from oddleg.plan.setting_out import RunSetOut

from .lettering import SMALL_MM, shortened, text_width_mm
from .primitives import Drawing, Line, Mark, Polygon, Text
from .tape_tiles import EDGE_MM, FIGURE_MM, PAPERS, Entry, TilePaper, check_bar, edge, labelled, marked, scale_figures

HEAD_MM = 5.0
MIDDLE_MM = 29.0


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
    over, over_mm = labelled(wall, of, at)
    under, under_mm = labelled(base, of, at)
    middle_mm = EDGE_MM + over_mm
    height_mm = middle_mm + MIDDLE_MM + under_mm + EDGE_MM
    right_mm = of.start_mm + of.step_mm
    marks: list[Mark] = [
        Line(of.start_mm, 0.0, of.start_mm, height_mm, "thin"),
        Line(right_mm, 0.0, right_mm, height_mm, "tile-end"),
        *edge(of, start_mm, 0.0, 1),
        *edge(of, start_mm, height_mm, -1),
    ]
    for entry, label in over:
        marks.append(marked(entry, label, at(entry.x_mm), 0.0, 1))
    for entry, label in under:
        marks.append(marked(entry, label, at(entry.x_mm), height_mm, -1))
    if rod.left_mm - 1e-6 <= rod.anchor_mm and reach_mm[0] <= rod.anchor_mm - rod.left_mm <= reach_mm[1]:
        x_mm = at(rod.anchor_mm - rod.left_mm)
        marks.append(
            Polygon(((x_mm - 2.0, height_mm - 4.0), (x_mm + 2.0, height_mm - 4.0), (x_mm, height_mm)), "accent")
        )
    # Over the marks, so that no line strikes a figure through.
    marks += [*scale_figures(of, start_mm, 0.0, 1), *scale_figures(of, start_mm, height_mm, -1)]
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
) -> list[Entry]:
    """Marks and batten fixings within a tile's reach, in order along it, by their distance from the zero."""
    found = []
    for one in marks:
        x_mm = one.x_mm - left_mm
        if reach_mm[0] <= x_mm <= reach_mm[1]:
            css = "accent-line" if one.kind in ("zero", "end", "anchor") else "line"
            css = "dashed" if one.row == "wall" else css
            found.append(Entry(x_mm, one.from_left.text, one.name, css, one.order, one.name))
    for fixing in fixings:
        x_mm = fixing.x_mm - left_mm
        if reach_mm[0] <= x_mm <= reach_mm[1]:
            found.append(
                Entry(
                    x_mm, f"F{fixing.number} {fixing.at.text}", _packed(fixing), "dotted", 0, f"fixing {fixing.number}"
                )
            )
    return sorted(found, key=lambda one: one.x_mm)


def _packed(fixing: Fixing) -> str:
    words = "packing not known" if fixing.packing is None else f"packing {fixing.packing.text}"
    if fixing.packing is not None and "+" in fixing.packs:
        words += f" ({fixing.packs})"
    return f"{words}. {fixing.zone}" if fixing.zone else words


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
        check_bar(of, bar_mm),
        Text(left_mm, bar_mm + 5.6, " ".join(words), 3.4),
        Text(left_mm, bar_mm + 10.2, edges, 3.4),
    ]
