"""A setting-out stick at full size, in tiles for paper: each is laid to its own start figure from the stick's foot."""

from __future__ import annotations

from oddleg.plan.figure import text_mm
from oddleg.plan.fitted_out import Stick

from .lettering import SMALL_MM, shortened, text_width_mm
from .primitives import Drawing, Line, Mark, Text
from .tape_tiles import EDGE_MM, FIGURE_MM, PAPERS, Entry, TilePaper, check_bar, edge, labelled, marked, scale_figures

HEAD_MM = 5.0
MIDDLE_MM = 29.0


def stick_tiles(stick: Stick, paper: str, step_mm: float) -> tuple[Drawing, ...]:
    """Tiles of the stick from its foot; one with no mark on it is left out. `paper` is a key of PAPERS. A mark lies
    `start_mm` of the paper plus its exact distance from the foot less the tile's start from the tile's left side."""
    of = PAPERS[paper]
    if not stick.marks:
        return ()
    furthest_mm = max(one.along_mm for one in stick.marks)
    last = int(furthest_mm // of.step_mm)
    if last > 0 and furthest_mm - last * of.step_mm < of.start_mm:
        # What lies so little beyond the last full tile is on that one.
        last -= 1
    held = sorted({min(int(one.along_mm // of.step_mm), last) for one in stick.marks})
    return tuple(_tile(stick, of, step, last + 1, step_mm) for step in held)


def _tile(stick: Stick, of: TilePaper, step: int, count: int, step_mm: float) -> Drawing:
    from_mm = step * of.step_mm

    def at(along_mm: float) -> float:
        return of.start_mm + along_mm - from_mm

    entries = [
        Entry(one.along_mm, text_mm(one.along_mm, step_mm), one.words, "line", 0, one.words)
        for one in stick.marks
        if from_mm - of.start_mm <= one.along_mm <= from_mm + of.step_mm + of.start_mm
    ]
    labels, deep_mm = labelled(entries, of, at)
    height_mm = MIDDLE_MM + deep_mm + EDGE_MM
    right_mm = of.start_mm + of.step_mm
    marks: list[Mark] = [
        Line(of.start_mm, 0.0, of.start_mm, height_mm, "thin"),
        Line(right_mm, 0.0, right_mm, height_mm, "tile-end"),
        *edge(of, from_mm, height_mm, -1),
        *(marked(entry, label, at(entry.x_mm), height_mm, -1) for entry, label in labels),
        *scale_figures(of, from_mm, height_mm, -1),
    ]
    start = f"Start line of this tile: {text_mm(from_mm)} from the stick's foot"
    name = f"tile {step + 1} of {count}"
    room_mm = of.step_mm - 3.0 - text_width_mm(start, HEAD_MM, True) - 6.0
    of_stick = shortened(stick.name, room_mm - text_width_mm(f", {name}", FIGURE_MM, True), FIGURE_MM, True)
    whole = text_mm(max(one.along_mm for one in stick.marks), step_mm)
    words = (
        f"Check bar: {text_mm(of.step_mm)} from line to line by a steel rule, or print again at 100 %. "
        f"Whole stick: foot to last mark {whole}.",
        f"The foot goes on the {stick.foot_on}. Cut along the lower edge and glue it flush with the stick's edge.",
    )
    marks += [
        Text(of.start_mm + 1.5, 7.0, start, HEAD_MM, bold=True),
        Text(right_mm - 1.5, 7.0, f"{of_stick}, {name}", FIGURE_MM, "end", bold=True),
        check_bar(of, 14.5),
        Text(of.start_mm + 1.5, 20.1, words[0], 3.4),
        Text(of.start_mm + 1.5, 24.7, words[1], 3.4),
        Text(right_mm + 3.6, MIDDLE_MM / 2, "end of tile", SMALL_MM, "middle", turned=True),
    ]
    listed = "; ".join(f"{one.name} at {one.figure}" for one, _ in labels)
    alt = f"Tile {step + 1} of {count}, full size. {start}. Check bar {text_mm(of.step_mm)}. On it: {listed}."
    return Drawing(f"{stick.name}, {name}", alt, of.width_mm, height_mm, tuple(marks))
