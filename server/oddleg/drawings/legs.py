"""A unit's legs, twice: as it lies on the bench, and as it will stand."""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.plan.legs import LegHeight, UnitLegs

from .lettering import SMALL_MM
from .primitives import Drawing, Group, Line, Mark, Text, rectangle
from .room_plan import PHONE_WIDTH_MM

SIDE_WORDS = {"L": "LEFT", "ML": "MID LEFT", "M": "MIDDLE", "MR": "MID RIGHT", "R": "RIGHT"}
ROW_WORDS = {"B": "back", "F": "front"}
# Cap height of 1/200 of the distance is read easily (from memory: a common rule for signs): 700 mm wants 3.5 mm.
ARM_LENGTH_MM = 9.0


def bench_drawing(unit: UnitLegs, width_mm: float = PHONE_WIDTH_MM) -> Drawing:
    """Upside down, front towards you: the front edge at the bottom, the right-hand legs on your left."""
    cells = [(leg, leg.bench_column, leg.bench_row) for leg in unit.legs]
    columns = 1 + max((column for _, column, _ in cells), default=1)
    rows = 1 + max((row for _, _, row in cells), default=1)
    title = f"Unit {unit.number} on the bench"
    turned = [(leg, column, rows - 1 - row) for leg, column, row in cells]
    marks, height_mm = _box(
        turned, columns, rows, width_mm, (_behind(unit, "back"), "FRONT, towards you"), "upside down", unit
    )
    return Drawing(title, _alt(unit, "Upside down on the bench, front towards you", turned), width_mm, height_mm, marks)


def fitted_drawing(unit: UnitLegs, width_mm: float = PHONE_WIDTH_MM) -> Drawing:
    """As fitted, seen from above with the wall (or the back of a free-standing run) at the top."""
    columns = 1 + max((leg.bench_column for leg in unit.legs), default=1)
    rows = 1 + max((leg.bench_row for leg in unit.legs), default=1)
    cells = [(leg, columns - 1 - leg.bench_column, rows - 1 - leg.bench_row) for leg in unit.legs]
    behind = "wall" if unit.placed.run.wall is not None else "back"
    marks, height_mm = _box(cells, columns, rows, width_mm, (behind, "FRONT"), "as fitted, seen from above", unit)
    title = f"Unit {unit.number} as fitted"
    return Drawing(title, _alt(unit, "As fitted, seen from above, facing the wall", cells), width_mm, height_mm, marks)


Cells = Sequence[tuple[LegHeight, int, int]]


def _box(
    cells: Cells, columns: int, rows: int, width_mm: float, edges: tuple[str, str], words: str, unit: UnitLegs
) -> tuple[tuple[Mark, ...], float]:
    """The carcass's outline with a cell a leg; row 0 of `cells` at the top; the front edge, thick, at the bottom."""
    big_mm = min(ARM_LENGTH_MM, width_mm / columns / 3.4)
    small_mm = max(min(SMALL_MM, width_mm / 28, width_mm / columns / 8), 2.0)
    cell_height_mm = big_mm * 1.05 + small_mm * 3.4
    left_mm, right_mm = 1.2, width_mm - 1.2
    top_mm = small_mm * 1.6
    bottom_mm = top_mm + rows * cell_height_mm + small_mm * 1.2
    marks: list[Mark] = [rectangle(left_mm, top_mm, right_mm, bottom_mm, "line")]
    if edges[0] == "wall":
        marks.append(Line(left_mm, top_mm, right_mm, top_mm, "wall"))
    marks.append(Line(left_mm, bottom_mm, right_mm, bottom_mm, "front-edge"))
    middle_mm = width_mm / 2
    marks.append(Text(middle_mm, top_mm - small_mm * 0.5, edges[0], small_mm, "middle"))
    marks.append(Text(middle_mm, bottom_mm + small_mm * 1.35, edges[1], small_mm * 1.1, "middle", bold=True))
    for leg, column, row in cells:
        cell_mm = (right_mm - left_mm) / columns
        marks.append(
            _leg(leg, left_mm + cell_mm * (column + 0.5), top_mm + cell_height_mm * row, big_mm, small_mm, unit)
        )
    words = f"{words}, preset {unit.preset.text}"
    marks.append(Text(middle_mm, bottom_mm - small_mm * 0.55, words, small_mm, "middle", css="quiet"))
    return tuple(marks), bottom_mm + small_mm * 2.0


def _leg(leg: LegHeight, x_mm: float, top_mm: float, big_mm: float, small_mm: float, unit: UnitLegs) -> Mark:
    """One leg: its side as fitted, its height, what it differs from the preset, and what is set or to be wound."""
    row, side = leg.place.id[0], leg.place.id[1:]
    head = f"{SIDE_WORDS[side]} {ROW_WORDS[row]}"
    y_mm = top_mm + small_mm * 1.55
    marks: list[Mark] = [Text(x_mm, y_mm, head, small_mm, "middle", bold=True)]
    y_mm += big_mm * 0.86
    marks.append(Text(x_mm, y_mm, leg.height.text, big_mm, "middle", bold=True, css="figure"))
    marks.append(Text(x_mm, y_mm + small_mm * 1.35, under_words(leg, unit), small_mm, "middle"))
    title = f"{leg.place.name}: {leg.height.text} mm, {under_words(leg, unit)}"
    return Group(tuple(marks), "leg", (("leg", leg.place.id),), title)


def under_words(leg: LegHeight, unit: UnitLegs) -> str:
    """What is written under a leg's height: the difference from the preset, or what to wind where it is set already."""
    if leg.set_at is not None:
        if leg.wind is None or leg.wind.mm == 0:
            return f"set at {leg.set_at.text}"
        way = "out" if leg.wind.mm > 0 else "in"
        return f"set {leg.set_at.text}: wind {way} {leg.wind.text.lstrip('+−')}"
    return "preset" if leg.differs.mm == 0 else f"preset {leg.differs.text}"


def _behind(unit: UnitLegs, word: str) -> str:
    """The back edge in a word; and that back legs are preset exactly, since nobody reaches them later."""
    return f"{word} (set these legs exactly)" if any(leg.exact for leg in unit.legs) else word


def _alt(unit: UnitLegs, how: str, cells: Cells) -> str:
    """The legs row by row from the top of the drawing, left to right."""
    if not unit.legs:
        return f"{how}. Its legs have no height yet: no datum, or no floor under it."
    ordered = sorted(cells, key=lambda cell: (cell[2], cell[1]))
    legs = "; ".join(
        f"{SIDE_WORDS[leg.place.id[1:]]} {ROW_WORDS[leg.place.id[0]]} {leg.height.text}" for leg, _, _ in ordered
    )
    return f"{how}. From the top left of the drawing: {legs}. Preset {unit.preset.text} mm."
