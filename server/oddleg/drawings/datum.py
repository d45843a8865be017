"""The datum as a picture: what it may be, what sets each end, where the choices fall, what the plinth board meets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import PlinthBoard, Room
from oddleg.plan.datum import Choice, Datum
from oddleg.plan.figure import Figure, figure, text_mm
from oddleg.plan.plinth import rip_mm
from oddleg.plan.surfaces import Surface

from .lettering import LINE_MM, SMALL_MM, paragraph, spread, wrapped
from .primitives import Drawing, Group, Line, Mark, Text, rectangle
from .room_plan import PHONE_WIDTH_MM

TICKS_MM = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0)
SCALE_HEIGHT_MM = 62.0
TOP_MM = 8.0
BAR_MM = (17.0, 24.0)
LABEL_MM = 31.0
SECTION_HEIGHT_MM = 34.0


@dataclass(frozen=True)
class Note:
    """A label beside the scale: the datum that it belongs to, its words, how its tick is drawn."""

    datum_mm: float
    words: str
    css: str
    bold: bool = False


def datum_drawing(
    room: Room, datum: Datum, finished: Surface, rounding_mm: float, width_mm: float = PHONE_WIDTH_MM
) -> Drawing:
    """Top: the scale of datums (its own scale). Below: the plinth board at the high and the low spot (another)."""
    title = f"Datum, {room.name}"
    notes = _notes(datum)
    if not notes:
        marks, bottom_mm = paragraph(
            4.0, 4.0, "No datum yet: nothing has been read that a datum could rest on.", width_mm - 8
        )
        return Drawing(title, _alt(room, datum, finished, rounding_mm), width_mm, bottom_mm + 4, tuple(marks))
    marks, bottom_mm = _scale(datum, notes, width_mm)
    section, bottom_mm = _sections(room, datum, rounding_mm, bottom_mm + 5.0, width_mm)
    return Drawing(title, _alt(room, datum, finished, rounding_mm), width_mm, bottom_mm + 1.0, (*marks, *section))


def _notes(datum: Datum) -> list[Note]:
    notes = []
    if datum.greatest is not None:
        one = datum.greatest
        notes.append(Note(one.datum_mm, f"{one.datum.text} at most: {one.name}", "accent-line"))
    if datum.least is not None:
        one = datum.least
        notes.append(Note(one.datum_mm, f"{one.datum.text} at least: {one.name}", "accent-line"))
    by_text: dict[tuple[str, bool], list[Choice]] = {}
    for choice in datum.choices:
        if choice.asked is not None:
            by_text.setdefault((choice.asked.text, choice.feasible), []).append(choice)
    for (text, feasible), choices in by_text.items():
        asked = choices[0].asked
        assert asked is not None
        titles = ", ".join(choice.title.lower() for choice in choices)
        words = f"{text} {titles}" if feasible else f"{text} {titles}: not possible"
        notes.append(Note(asked.mm, words, "line" if feasible else "dashed"))
    if datum.decided is not None:
        notes.append(Note(datum.decided.datum.mm, f"{datum.decided.datum.text} DECIDED", "accent-heavy", bold=True))
    return notes


def _scale(datum: Datum, notes: Sequence[Note], width_mm: float) -> tuple[list[Mark], float]:
    least_mm, greatest_mm = min(note.datum_mm for note in notes), max(note.datum_mm for note in notes)
    pad_mm = max((greatest_mm - least_mm) * 0.08, 2.0)
    low_mm, high_mm = least_mm - pad_mm, greatest_mm + pad_mm
    room_mm = width_mm - LABEL_MM - 2.0
    lines = {note: wrapped(note.words, room_mm, SMALL_MM, note.bold) for note in notes}
    wanted_mm = sum(len(one) * LINE_MM + 1.6 for one in lines.values())
    height_mm = max(SCALE_HEIGHT_MM, wanted_mm + 4.0)
    bottom_mm = TOP_MM + height_mm

    def y_of(datum_mm: float) -> float:
        return TOP_MM + (high_mm - datum_mm) / (high_mm - low_mm) * height_mm

    left, right = BAR_MM
    marks: list[Mark] = [Text(2.0, 4.0, "Datum over the bench mark, mm", SMALL_MM, bold=True)]
    marks.append(Line(left, TOP_MM, left, bottom_mm, "thin"))
    step_mm = next((step for step in TICKS_MM if (high_mm - low_mm) / step <= 8), TICKS_MM[-1])
    for i in range(int(low_mm // step_mm) + 1, int(high_mm // step_mm) + 1):
        y_mm = y_of(i * step_mm)
        marks.append(Line(left - 1.5, y_mm, left, y_mm, "thin"))
        marks.append(Text(left - 2.4, y_mm + 1.0, text_mm(i * step_mm), SMALL_MM, "end"))
    marks += _bar(datum, y_of, bottom_mm)
    ordered = sorted(notes, key=lambda note: (-note.datum_mm, note.bold))
    tops = spread([(y_of(note.datum_mm), len(lines[note]) * LINE_MM) for note in ordered], TOP_MM, bottom_mm)
    for note, top_mm in zip(ordered, tops, strict=True):
        y_mm = y_of(note.datum_mm)
        reach = 2.6 if note.bold else 0.8
        tick: list[Mark] = [Line(left - reach, y_mm, right + reach, y_mm, note.css)]
        tick.append(Line(right + reach, y_mm, LABEL_MM - 1.0, top_mm + LINE_MM / 2, "hair"))
        text, _ = paragraph(
            LABEL_MM, top_mm + 0.4, note.words, room_mm, bold=note.bold, css="accent" if note.bold else "ink"
        )
        marks.append(Group((*tick, *text), "decided" if note.bold else "note"))
    return marks, bottom_mm


def _bar(datum: Datum, y_of, bottom_mm: float) -> list[Mark]:  # type: ignore[no-untyped-def]
    """What is possible as an open bar, what is not as a hatched one; a clash hatched over between its two ends."""
    left, right = BAR_MM
    ends = (
        TOP_MM if datum.greatest is None else y_of(datum.greatest.datum_mm),
        bottom_mm if datum.least is None else y_of(datum.least.datum_mm),
    )
    if not datum.feasible:
        return [
            *_hatched(left, TOP_MM, right, bottom_mm),
            rectangle(left, ends[1], right, ends[0], "alarm-line"),
            Text((left + right) / 2, TOP_MM - 1.2, "none possible", SMALL_MM, "start", bold=True, css="alarm"),
        ]
    marks = [*_hatched(left, TOP_MM, right, ends[0]), *_hatched(left, ends[1], right, bottom_mm)]
    marks.append(rectangle(left, ends[0], right, ends[1], "accent-line"))
    return marks


def _hatched(left_mm: float, top_mm: float, right_mm: float, bottom_mm: float, step_mm: float = 1.4) -> list[Mark]:
    """45 degree lines across a rectangle."""
    width_mm, height_mm = right_mm - left_mm, bottom_mm - top_mm
    marks: list[Mark] = []
    for i in range(1, int((width_mm + height_mm) / step_mm) + 1):
        off_mm = i * step_mm
        x1, y1 = min(off_mm, width_mm), max(off_mm - width_mm, 0.0)
        x2, y2 = max(off_mm - height_mm, 0.0), min(off_mm, height_mm)
        marks.append(Line(left_mm + x1, top_mm + y1, left_mm + x2, top_mm + y2, "hair"))
    return marks


def _used(choice: Choice) -> Figure | None:
    return choice.asked if choice.feasible else choice.nearest


def _shown_gaps(datum: Datum, rounding_mm: float) -> tuple[str, Figure, tuple[Figure, Figure]] | None:
    """The datum that the sections are drawn at, in words, and the plinth gaps there: decided, else first possible."""
    with_gaps = [one for one in datum.choices if one.gaps is not None and _used(one) is not None]
    if not with_gaps:
        return None
    if datum.decided is None:
        first = next((one for one in with_gaps if one.feasible), with_gaps[0])
        used, gaps = _used(first), first.gaps
        assert used is not None and gaps is not None
        return f"at {used.text}, {first.title.lower()}, not decided", used, gaps
    at = datum.decided.datum
    nearest = min(with_gaps, key=lambda one: abs((_used(one) or at).mm - at.mm))
    used, gaps = _used(nearest), nearest.gaps
    assert used is not None and gaps is not None
    if used.text == at.text:
        return f"at {at.text}, decided", at, gaps
    shift_mm = at.mm - used.mm
    moved = figure(gaps[0].mm + shift_mm, rounding_mm), figure(gaps[1].mm + shift_mm, rounding_mm)
    return f"at {at.text}, decided", at, moved


def _sections(room: Room, datum: Datum, rounding_mm: float, top_mm: float, width_mm: float) -> tuple[list[Mark], float]:
    shown = _shown_gaps(datum, rounding_mm)
    if shown is None:
        return [], top_mm
    words, _, gaps = shown
    marks, y_mm = paragraph(2.0, top_mm, f"Plinth board {words}", width_mm - 4, bold=True)
    scale = SECTION_HEIGHT_MM / max(gaps[1].mm, room.plinth.height_mm, 1.0)
    floor_mm = y_mm + 8.0 + SECTION_HEIGHT_MM
    half_mm = width_mm / 2
    for left_mm, where, gap in ((2.0, "at the high spot", gaps[0]), (half_mm + 1.0, "at the low spot", gaps[1])):
        marks += _section(left_mm, half_mm - 3.0, floor_mm, scale, where, gap, room.plinth, rounding_mm)
    return marks, floor_mm + 3.0 + LINE_MM * 3


def _section(
    left_mm: float,
    wide_mm: float,
    floor_mm: float,
    scale: float,
    where: str,
    gap: Figure,
    board: PlinthBoard,
    step_mm: float,
) -> list[Mark]:
    """Floor, board standing on it, carcass over it; gap and what the board does in words."""
    under_mm = floor_mm - gap.mm * scale
    board_top_mm = floor_mm - board.height_mm * scale
    board_left, board_right = left_mm + 4.0, left_mm + 9.0
    rip, open_mm = rip_mm(gap.mm, board), gap.mm - board.height_mm
    marks: list[Mark] = [
        rectangle(board_left + 3.0, under_mm - 4.5, left_mm + wide_mm, under_mm, "item"),
        Text((board_left + 3.0 + left_mm + wide_mm) / 2, under_mm - 1.3, "carcass", SMALL_MM, "middle"),
        rectangle(board_left, board_top_mm, board_right, floor_mm, "tint"),
        rectangle(board_left, board_top_mm, board_right, floor_mm, "line"),
        Line(left_mm, floor_mm, left_mm + wide_mm, floor_mm, "heavy"),
        Line(board_right + 5.0, under_mm, board_right + 5.0, floor_mm, "thin"),
        Line(board_right + 4.0, under_mm, board_right + 6.0, under_mm, "thin"),
        Line(board_right + 4.0, floor_mm, board_right + 6.0, floor_mm, "thin"),
        Text(board_right + 7.0, (under_mm + floor_mm) / 2 + 1.4, f"gap {gap.text}", 4.0, bold=True),
    ]
    if rip:
        words = f"rip {text_mm(rip, step_mm)} off the board"
    else:
        words = f"{text_mm(open_mm, step_mm)} open over the board"
    for i, line in enumerate((where, f"board {text_mm(board.height_mm, step_mm)}", words)):
        marks.append(Text(left_mm, floor_mm + 1.2 + LINE_MM * (i + 0.8), line, SMALL_MM, bold=i == 0))
    return marks


def _alt(room: Room, datum: Datum, finished: Surface, step_mm: float) -> str:
    words = [f"What the datum of {room.name} may be, in mm over the bench mark."]
    if finished.spots:
        high, low = (text_mm(one.level_mm, step_mm, signed=True) for one in (finished.highest, finished.lowest))
        words.append(f"Finished floor from {low} to {high}.")
    if datum.least is not None:
        words.append(f"At least {datum.least.datum.text}: {datum.least.name}.")
    if datum.greatest is not None:
        words.append(f"At most {datum.greatest.datum.text}: {datum.greatest.name}.")
    if not datum.feasible:
        words.append(f"No datum is possible: they clash by {text_mm(datum.clash_mm, step_mm)}.")
    for choice in datum.choices:
        if choice.asked is None:
            words.append(f"{choice.title}: {choice.why_not}.".replace("..", "."))
        elif choice.feasible:
            words.append(f"{choice.title}: {choice.asked.text}.")
        else:
            nearest = "" if choice.nearest is None else f", nearest {choice.nearest.text}"
            words.append(f"{choice.title}: {choice.asked.text}, not possible{nearest}.")
    decided = datum.decided
    words.append("Not decided yet." if decided is None else f"Decided: {decided.datum.text} by {decided.person}.")
    return " ".join(words)
