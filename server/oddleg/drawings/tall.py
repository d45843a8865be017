"""Tall and wall units from the side: heights over the datum line, and how a tall unit is stood up."""

from __future__ import annotations

import math
from dataclasses import dataclass

from oddleg.job import Carcass, Job, OpenUnit
from oddleg.plan import RoomPlan
from oddleg.plan.figure import Figure, figure
from oddleg.plan.heights import worktop_over_datum_mm
from oddleg.plan.tall_wall import TallWall, TiltUp

from .lettering import LINE_MM, SMALL_MM, paragraph, spread, wrapped
from .primitives import Drawing, Line, Mark, Polygon, Polyline, Text, rectangle
from .room_plan import PHONE_WIDTH_MM

MARGIN_MM = 3.0
HEIGHTS_MM = 104.0
COLUMN_MM, COLUMNS = 11.0, 4
TILT_HEIGHT_MM = 72.0
# Degrees that a unit is drawn leaning beyond where it is highest, so that the arc is seen to fall again.
BEYOND_DEG = 14.0


@dataclass(frozen=True)
class _Level:
    """A height over the datum line with its words; `css` of its line."""

    over_mm: float
    words: str
    css: str = "thin"
    bold: bool = False


@dataclass(frozen=True)
class _Column:
    """A wall unit or a tall one, as a box from bottom to top over the datum line."""

    bottom_mm: float
    top_mm: float
    tall: bool


def tall_drawings(job: Job, room: RoomPlan, width_mm: float = PHONE_WIDTH_MM) -> dict[str, Drawing]:
    """`drawing`: the heights; `tilt-1` and so on: each tall unit stood up, in the order of `tilt_ups`. None of them for
    a room without tall and wall units."""
    found = room.tall_wall
    if found is None:
        return {}
    drawn = {"drawing": heights_drawing(job, room, found, width_mm)}
    sizes = {one.item.id: one.item for one in room.placed}
    for number, one in enumerate(found.tilt_ups, 1):
        item = sizes.get(one.item)
        if isinstance(item, Carcass | OpenUnit):
            drawn[f"tilt-{number}"] = tilt_drawing(one, item, width_mm)
    return drawn


def heights_drawing(job: Job, room: RoomPlan, found: TallWall, width_mm: float = PHONE_WIDTH_MM) -> Drawing:
    """From the floor to the ceiling, to one scale of heights: a base unit with its worktop under each height at which
    wall units hang, then the tall units; widths stand for nothing. Every height that is told is over the datum line."""
    decided = room.datum.decided
    # At the underside of a base carcass tall ones stand.
    base_carcass_mm = job.base_carcass_height_mm
    columns = _columns(room, found, base_carcass_mm)
    shown = columns[:COLUMNS]
    levels = _levels(room, found, job.rounding_mm)
    worktop_mm = worktop_over_datum_mm(room.room, 0.0)
    least_mm = min([-base_carcass_mm - 60.0, *(one.over_mm for one in levels)])
    greatest_mm = max([worktop_mm, *(one.over_mm for one in levels), *(one.top_mm for one in shown)]) + 40.0
    label_mm = MARGIN_MM + COLUMN_MM * max(len(shown), 1) + 5.0
    room_mm = width_mm - label_mm - 2.0
    lines = {one: wrapped(one.words, room_mm, SMALL_MM, one.bold) for one in levels}
    height_mm = max(HEIGHTS_MM, sum(len(one) * LINE_MM + 1.6 for one in lines.values()) + 4.0)
    top_mm = 2.0
    bottom_mm = top_mm + height_mm

    def down(over_mm: float) -> float:
        return top_mm + (greatest_mm - over_mm) / (greatest_mm - least_mm) * height_mm

    marks: list[Mark] = []
    for number, column in enumerate(shown):
        left_mm, right_mm = MARGIN_MM + number * COLUMN_MM + 0.8, MARGIN_MM + (number + 1) * COLUMN_MM - 0.8
        if not column.tall:
            marks.append(rectangle(left_mm, down(0.0), right_mm, down(-base_carcass_mm), "item"))
            slab_mm = worktop_mm - room.room.worktop.thickness_mm
            marks.append(rectangle(left_mm - 0.4, down(worktop_mm), right_mm + 0.4, down(slab_mm), "tint"))
        marks.append(rectangle(left_mm, down(column.top_mm), right_mm, down(column.bottom_mm), "item"))
    ordered = sorted(levels, key=lambda one: -one.over_mm)
    tops = spread([(down(one.over_mm), len(lines[one]) * LINE_MM) for one in ordered], top_mm, bottom_mm)
    for one, label_top_mm in zip(ordered, tops, strict=True):
        y_mm = down(one.over_mm)
        marks.append(Line(MARGIN_MM - 1.0, y_mm, label_mm - 3.6, y_mm, one.css))
        marks.append(Line(label_mm - 3.6, y_mm, label_mm - 0.6, label_top_mm + LINE_MM / 2, "hair"))
        text, _ = paragraph(label_mm, label_top_mm + 0.4, one.words, room_mm, bold=one.bold)
        marks += text
    words = ["Heights to scale and over the datum line; widths are not."]
    if decided is None:
        words.append("No datum is decided: floor and ceiling are left out.")
    if len(columns) > len(shown):
        words.append(f"{len(columns) - len(shown)} more heights stand in the list only.")
    below, height = paragraph(MARGIN_MM, bottom_mm + 1.5, " ".join(words), width_mm - 2 * MARGIN_MM)
    title = f"Heights of tall and wall units, {room.room.name}"
    return Drawing(title, _heights_words(room, levels, found), width_mm, height + 1.0, (*marks, *below))


def _columns(room: RoomPlan, found: TallWall, base_carcass_mm: float) -> list[_Column]:
    """Wall units by the heights at which they hang, then tall ones by theirs."""
    hung = dict.fromkeys((one.underside.mm, one.top.mm) for one in found.rails)
    talls: dict[tuple[float, float], None] = {}
    items = {one.item.id: one for one in room.placed}
    for tilt in found.tilt_ups:
        one = items.get(tilt.item)
        if one is not None and isinstance(one.item, Carcass | OpenUnit):
            bottom_mm = one.run.datum_offset_mm - base_carcass_mm
            talls[bottom_mm, bottom_mm + one.item.height_mm] = None
    boxes = [_Column(bottom_mm, top_mm, False) for bottom_mm, top_mm in hung]
    return boxes + [_Column(bottom_mm, top_mm, True) for bottom_mm, top_mm in talls]


def _levels(room: RoomPlan, found: TallWall, step_mm: float) -> list[_Level]:
    """Every height over the datum line once, with all that lies at it; floor and ceiling once it is decided."""
    at: dict[float, list[str]] = {}

    def say(value: Figure, words: str) -> None:
        told = at.setdefault(round(value.mm, 6), [])
        line = f"{words} {value.text}"
        if line not in told:
            told.append(line)

    decided = room.datum.decided
    talls = {tilt.item for tilt in found.tilt_ups}
    if decided is not None:
        for top in found.tops:
            if top.item in talls:
                say(figure(top.top.mm - decided.datum.mm, step_mm), f"top of {top.name}")
    for one in found.rails:
        say(one.top, "top of wall units")
        if one.rail is not None:
            say(one.rail, "top edge of the rail")
        say(one.underside, f"{one.clear.text} clear over the worktop, underside")
    worktop = figure(worktop_over_datum_mm(room.room, 0.0), step_mm)
    say(worktop, "worktop")
    levels = [_Level(over_mm, ", ".join(words)) for over_mm, words in at.items()]
    levels.append(_Level(0.0, "datum line", "accent-heavy", bold=True))
    if decided is not None:
        read_mm = [one.ceiling.mm for one in found.tops if one.ceiling is not None]
        if read_mm:
            over = figure(min(read_mm) - decided.datum.mm, step_mm)
            levels.append(_Level(over.mm, f"lowest ceiling that was read {over.text}", "heavy"))
        if room.floor.finished.spots:
            over = figure(room.floor.finished.highest.level_mm - decided.datum.mm, step_mm)
            levels.append(_Level(over.mm, f"finished floor at its highest {over.text}", "heavy"))
    return levels


def _heights_words(room: RoomPlan, levels: list[_Level], found: TallWall) -> str:
    told = [f"Heights of tall and wall units in {room.room.name}, over the datum line, from the top down."]
    told += [f"{one.words[0].upper()}{one.words[1:]}." for one in sorted(levels, key=lambda one: -one.over_mm)]
    if found.one_line:
        told.append(found.one_line)
    return " ".join(told)


def tilt_drawing(one: TiltUp, item: Carcass | OpenUnit, width_mm: float = PHONE_WIDTH_MM) -> Drawing:
    """A tall unit from its left side, back to the left, to scale: as it stands (dashed), leaning where it is highest,
    and the arc of its top front corner about the rear foot, under the lowest ceiling on its way."""
    leg_mm = one.leg.mm if one.leg is not None else 0.0
    inset_mm = item.legs.inset_back_mm if item.legs else 0.0
    front_mm, top_mm = item.depth_mm - inset_mm, item.height_mm + leg_mm
    reach_mm = math.hypot(front_mm, top_mm)
    leaning = math.atan2(front_mm, top_mm)
    ceiling_mm = one.lowest.mm if one.lowest is not None else None
    high_mm = max(reach_mm, ceiling_mm or 0.0) + 40.0
    scale = TILT_HEIGHT_MM / high_mm
    past = math.radians(BEYOND_DEG)
    left_mm = max(inset_mm, reach_mm * math.sin(past), top_mm * math.sin(leaning) + inset_mm)
    zero_mm, floor_mm = MARGIN_MM + 1.0 + left_mm * scale, 2.0 + TILT_HEIGHT_MM

    def at(x_mm: float, up_mm: float, turned: float = 0.0) -> tuple[float, float]:
        x = x_mm * math.cos(turned) - up_mm * math.sin(turned)
        up = x_mm * math.sin(turned) + up_mm * math.cos(turned)
        return zero_mm + x * scale, floor_mm - up * scale

    def outline(turned: float, css: str) -> Polyline:
        spots = ((-inset_mm, leg_mm), (front_mm, leg_mm), (front_mm, top_mm), (-inset_mm, top_mm), (-inset_mm, leg_mm))
        return Polyline(tuple(at(x_mm, up_mm, turned) for x_mm, up_mm in spots), css)

    steps = [(leaning + past) * i / 24 for i in range(25)]
    right_mm = zero_mm + front_mm * scale + 4.0
    marks: list[Mark] = [
        Polygon(tuple(outline(leaning, "").points_mm[:4]), "tint"),
        outline(0.0, "dashed"),
        outline(leaning, "line"),
        Line(*at(0.0, 0.0), *at(0.0, leg_mm, leaning), "line"),
        Polyline(tuple(at(front_mm, top_mm, turned) for turned in steps), "accent-line"),
        Line(*at(0.0, 0.0), *at(0.0, reach_mm), "hair"),
        Line(MARGIN_MM, floor_mm, right_mm, floor_mm, "heavy"),
    ]
    labels = [(floor_mm - reach_mm * scale, f"needs {one.diagonal.text}", True)]
    if ceiling_mm is not None and one.lowest is not None:
        y_mm = floor_mm - ceiling_mm * scale
        marks.append(Line(MARGIN_MM, y_mm, right_mm, y_mm, "wall" if one.goes else "alarm-line"))
        labels.append((y_mm, f"{one.lowest.text} up to the lowest ceiling on its way", False))
    room_mm = width_mm - right_mm - 4.0
    ordered = sorted(labels)
    wanted = [(y_mm, len(wrapped(words, room_mm, SMALL_MM, bold)) * LINE_MM) for y_mm, words, bold in ordered]
    for (y_mm, words, bold), label_top_mm in zip(ordered, spread(wanted, 0.6, floor_mm - 6.0), strict=True):
        marks.append(Line(right_mm, y_mm, right_mm + 2.6, label_top_mm + LINE_MM / 2, "hair"))
        text, _ = paragraph(right_mm + 3.2, label_top_mm + 0.4, words, room_mm, bold=bold)
        marks += text
    if one.leg is not None:
        marks.append(Text(right_mm + 3.2, at(0.0, leg_mm / 2)[1] + 1.0, f"leg {one.leg.text}", SMALL_MM))
    told = _tilt_words(one)
    bottom_mm = floor_mm + 1.5
    for words in told:
        below, bottom_mm = paragraph(MARGIN_MM, bottom_mm, words, width_mm - 2 * MARGIN_MM)
        marks += below
    title = f"Standing up {one.name}"
    return Drawing(title, f"{title}. {' '.join(told)}", width_mm, bottom_mm + 1.0, tuple(marks))


def _tilt_words(one: TiltUp) -> list[str]:
    answers = {
        True: "goes",
        False: "does not go",
        None: "nobody can tell before it is read",
    }
    told = [f"{words[0].upper()}{words[1:]}: needs {needed.text}, {answers[goes]}." for words, needed, goes in one.ways]
    if one.lowest is not None:
        told.append(f"From the highest floor to the lowest ceiling on its way: {one.lowest.text}.")
    return told
