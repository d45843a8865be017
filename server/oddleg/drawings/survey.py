"""The survey plan: where to read, what has been read, where the laser stood."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from oddleg.job import Point, Room, SetUp
from oddleg.plan.rod import Placed
from oddleg.plan.stations import PlannedStation, StationList

from .lettering import SMALL_MM, Area, Page
from .primitives import Circle, Drawing, Group, Line, Mark, Polygon, Text
from .room_plan import (
    GREATEST_HEIGHT_MM,
    HIT_MM,
    LEAST_HIT_MM,
    MARGIN_MM,
    PHONE_WIDTH_MM,
    SPOT_MM,
    Sight,
    bench_marks,
    items,
    shell,
    sight_of,
)

STATE_WORDS = {
    "unread": "not read yet",
    "read": "read",
    "open": "open: readings differ",
    "blocked": "blocked, later",
}

# On paper names with levels stand outside the walls, above two lines of them, beside a name's width.
PAPER_MARGINS_MM = (10.0, 17.0)


def survey_drawing(
    room: Room,
    placed: Sequence[Placed],
    station_list: StationList,
    set_ups: Sequence[SetUp],
    numbers: Mapping[str, int],
    width_mm: float = PHONE_WIDTH_MM,
    greatest_height_mm: float = GREATEST_HEIGHT_MM,
    on_paper: bool = False,
) -> Drawing:
    """The room with every station as a button (`data-station`), `numbers` giving the unit number by item id.

    `on_paper` there is nothing to tap, and the level stands under the name.
    """
    stations = station_list.stations
    above_mm, beside_mm = PAPER_MARGINS_MM if on_paper else (MARGIN_MM, MARGIN_MM)
    spots = [one.station for one in stations]
    sight = sight_of(room, placed, spots, width_mm, greatest_height_mm, above_mm, beside_mm)
    legend = _legend(stations, sight.height_mm, width_mm, bool(set_ups))
    page = Page(width_mm, sight.height_mm)
    marks = shell(room, sight, page)
    marks += items(placed, numbers, sight, page)
    page.keep_clear(_spot_area(one, sight) for one in stations)
    laser_marks = [mark for one in set_ups for mark in _laser(one, sight, page)]
    marks += bench_marks(room, sight, page, can_focus=not on_paper)
    marks += laser_marks
    for one in stations:
        marks.append(_station(one, sight, page, on_paper, _hit_mm(one, stations, sight)))
    marks += legend
    height_mm = sight.height_mm + (
        _LEGEND_STEP_MM * _legend_rows(stations, width_mm, bool(set_ups)) + 1 if legend else 0
    )
    return Drawing(
        f"Survey plan, {room.name}", _alt(room, stations), width_mm, height_mm, tuple(marks), sight.axes(room)
    )


def _station(one: PlannedStation, sight: Sight, page: Page, on_paper: bool, hit_mm: float) -> Mark:
    x_mm, y_mm = sight.at(Point(one.station.x_mm, one.station.y_mm))
    lines = [(one.station.name, False)]
    if on_paper and one.level is not None:
        lines.append((one.level.text, True))
    marks = state_sign(one.state, x_mm, y_mm, one.station.surface == "overhead")
    marks += page.label(x_mm, y_mm, SPOT_MM, lines, SMALL_MM)
    if not on_paper:
        marks.append(Circle(x_mm, y_mm, hit_mm, "hit"))
    title = f"{one.station.name}, {STATE_WORDS[one.state]}"
    if one.level is not None:
        title += f", level {one.level.text} mm"
    return Group(tuple(marks), f"station {one.state}", (("station", one.station.id),), title, can_focus=not on_paper)


def _hit_mm(one: PlannedStation, stations: Sequence[PlannedStation], sight: Sight) -> float:
    """How far round a station a tap means it: half way to its nearest neighbour, within bounds."""
    here = (one.station.x_mm, one.station.y_mm)
    others = (math.dist(here, (other.station.x_mm, other.station.y_mm)) for other in stations if other is not one)
    return min(HIT_MM, max(LEAST_HIT_MM, min(others, default=math.inf) * sight.scale / 2))


def state_sign(state: str, x_mm: float, y_mm: float, overhead: bool = False) -> list[Mark]:
    """Shapes, not colours, tell states apart: empty ring, full disc, hatched broken ring, ring with a cross."""
    if state == "read":
        marks: list[Mark] = [Circle(x_mm, y_mm, SPOT_MM * 0.8, "spot-read")]
    elif state == "open":
        marks = [Circle(x_mm, y_mm, SPOT_MM, "spot-open"), *hatched_disc(x_mm, y_mm, SPOT_MM)]
    elif state == "blocked":
        arm = SPOT_MM * 0.62
        marks = [
            Circle(x_mm, y_mm, SPOT_MM, "spot"),
            Line(x_mm - arm, y_mm - arm, x_mm + arm, y_mm + arm, "line"),
            Line(x_mm - arm, y_mm + arm, x_mm + arm, y_mm - arm, "line"),
        ]
    else:
        marks = [Circle(x_mm, y_mm, SPOT_MM * 0.85, "spot")]
    if overhead:
        side = SPOT_MM * 1.15
        square = (
            (x_mm - side, y_mm - side),
            (x_mm + side, y_mm - side),
            (x_mm + side, y_mm + side),
            (x_mm - side, y_mm + side),
        )
        marks.insert(0, Polygon(square, "thin"))
    return marks


def hatched_disc(x_mm: float, y_mm: float, radius_mm: float, step_mm: float = 0.9) -> list[Mark]:
    """Chords at 45 degrees across a disc: a hole in what is known."""
    count = int(radius_mm / step_mm)
    half = 0.5**0.5
    marks: list[Mark] = []
    for i in range(-count, count + 1):
        off_mm = i * step_mm
        reach_mm = max(radius_mm**2 - off_mm**2, 0.0) ** 0.5
        mid_x, mid_y = x_mm + off_mm * half, y_mm + off_mm * half
        dx, dy = reach_mm * half, reach_mm * half
        marks.append(Line(mid_x - dx, mid_y + dy, mid_x + dx, mid_y - dy, "alarm-hair"))
    return marks


def _laser(one: SetUp, sight: Sight, page: Page) -> list[Mark]:
    """A laser's place: a tripod's triangle with a ring on top. A set-up without a place is not on the plan."""
    if one.x_mm is None or one.y_mm is None:
        return []
    x_mm, y_mm = sight.at(Point(one.x_mm, one.y_mm))
    sign = laser_sign(x_mm, y_mm)
    page.keep_clear([Area(x_mm - 2.2, y_mm - 2.2, x_mm + 2.2, y_mm + 2.2)])
    sign += page.label(x_mm, y_mm, 2.2, [(one.name, False)], SMALL_MM)
    return [Group(tuple(sign), "set-up", (("set-up", one.id),), f"laser, {one.name}")]


def laser_sign(x_mm: float, y_mm: float) -> list[Mark]:
    triangle = ((x_mm, y_mm - 2.1), (x_mm + 2.0, y_mm + 1.5), (x_mm - 2.0, y_mm + 1.5))
    return [Polygon(triangle, "thin"), Circle(x_mm, y_mm + 0.2, 0.6, "ink")]


_LEGEND_STEP_MM = 4.6


def _legend_entries(stations: Sequence[PlannedStation], lasers: bool) -> list[tuple[str, str]]:
    states = [state for state in STATE_WORDS if any(one.state == state for one in stations)]
    entries = [(state, STATE_WORDS[state]) for state in states]
    if any(one.station.surface == "overhead" for one in stations):
        entries.append(("overhead", "overhead"))
    if lasers:
        entries.append(("laser", "laser stood here"))
    return entries


def _columns(width_mm: float) -> int:
    return max(1, int(width_mm // 42))


def _legend_rows(stations: Sequence[PlannedStation], width_mm: float, lasers: bool) -> int:
    return -(-len(_legend_entries(stations, lasers)) // _columns(width_mm))


def _legend(stations: Sequence[PlannedStation], top_mm: float, width_mm: float, lasers: bool) -> list[Mark]:
    marks: list[Mark] = []
    columns = _columns(width_mm)
    for i, (state, words) in enumerate(_legend_entries(stations, lasers)):
        x_mm = 5.0 + (i % columns) * (width_mm - 4) / columns
        y_mm = top_mm + 2.0 + (i // columns) * _LEGEND_STEP_MM
        if state == "laser":
            marks += laser_sign(x_mm, y_mm)
        elif state == "overhead":
            marks += state_sign("unread", x_mm, y_mm, overhead=True)
        else:
            marks += state_sign(state, x_mm, y_mm)
        marks.append(Text(x_mm + 3.4, y_mm + 1.05, words, SMALL_MM))
    return [Group(tuple(marks), "legend")] if marks else []


def _spot_area(one: PlannedStation, sight: Sight) -> Area:
    x_mm, y_mm = sight.at(Point(one.station.x_mm, one.station.y_mm))
    return Area(x_mm - SPOT_MM, y_mm - SPOT_MM, x_mm + SPOT_MM, y_mm + SPOT_MM)


def _alt(room: Room, stations: Sequence[PlannedStation]) -> str:
    if not stations:
        return f"{room.name} seen from above. It has no stations yet."
    counts = ", ".join(
        f"{sum(one.state == state for one in stations)} {words}"
        for state, words in STATE_WORDS.items()
        if any(one.state == state for one in stations)
    )
    levels = "; ".join(f"{one.station.name} {one.level.text}" for one in stations if one.level is not None)
    shown = f" Levels in mm over the bench mark: {levels}." if levels else ""
    return f"{room.name} seen from above, from {room.corner}. {len(stations)} stations: {counts}.{shown}"
