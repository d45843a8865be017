"""The floor as it was read: levels at the stations, lines of equal level, the high spot and the low spot in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from oddleg.job import Point, Room
from oddleg.plan.figure import text_mm
from oddleg.plan.rod import Placed
from oddleg.plan.stations import PlannedStation, StationList
from oddleg.plan.surfaces import Spot, Surface

from .lettering import SMALL_MM, Area, Page, paragraph
from .primitives import Circle, Drawing, Group, Line, Mark, Polygon, Text
from .room_plan import GREATEST_HEIGHT_MM, PHONE_WIDTH_MM, SPOT_MM, Sight, bench_marks, items, shell, sight_of
from .survey import hatched_disc

STEPS_MM = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
MOST_LINES = 8
CELL_MM = 3.0


def floor_drawing(
    room: Room,
    placed: Sequence[Placed],
    station_list: StationList,
    surface: Surface,
    numbers: Mapping[str, int],
    width_mm: float = PHONE_WIDTH_MM,
    greatest_height_mm: float = GREATEST_HEIGHT_MM,
) -> Drawing:
    """`surface` is the floor as read. Where a station is open the floor is not known: a hatched ring, "not known"."""
    stations = [one for one in station_list.stations if one.station.surface == "floor"]
    sight = sight_of(room, placed, [one.station for one in stations], width_mm, greatest_height_mm)
    page = Page(width_mm, sight.height_mm)
    marks = shell(room, sight, page)
    marks += items(placed, numbers, sight, page)
    contours, step_mm, seen = _contours(room, surface, sight)
    marks += contours
    known = [one for one in stations if one.level is not None or one.state == "open"]
    page.keep_clear(_area(one, sight) for one in known)
    marks += bench_marks(room, sight, page)
    texts = {one.station.id: one.level.text for one in stations if one.level is not None}
    ends = {surface.highest.id: "high spot", surface.lowest.id: "low spot"} if len(surface.spots) > 1 else {}
    first = [one for one in known if one.station.id in ends or one.state == "open"]
    for one in (*first, *(one for one in known if one not in first)):
        marks.append(_station(one, ends.get(one.station.id, ""), sight, page))
    marks += _named(seen, sight, page)
    height_mm = sight.height_mm
    if seen:
        words = f"Thin lines: equal level, {text_mm(step_mm)} mm apart. Levels in mm over the bench mark."
    elif known:
        words = "Levels in mm over the bench mark."
    else:
        words = "No level yet: nothing has been read here."
    below, height_mm = paragraph(4.0, height_mm - 1.5, words, width_mm - 6.0)
    marks += below
    alt = _alt(room, known, surface, texts)
    return Drawing(f"Floor, {room.name}", alt, width_mm, height_mm, tuple(marks), sight.axes(room))


def _station(one: PlannedStation, end: str, sight: Sight, page: Page) -> Mark:
    x_mm, y_mm = sight.at(Point(one.station.x_mm, one.station.y_mm))
    if one.level is None:
        marks: list[Mark] = [Circle(x_mm, y_mm, 2.4, "spot-open"), *hatched_disc(x_mm, y_mm, 2.4)]
        marks += page.label(x_mm, y_mm, 2.4, [("not known", True)], SMALL_MM, "alarm")
        return Group(tuple(marks), "station open", title=f"{one.station.name}: readings differ, no level")
    lines = [(one.level.text, True)]
    if end:
        up = -1 if end == "high spot" else 1
        side = SPOT_MM * 1.35
        shape = (
            (x_mm, y_mm + up * side * 1.1),
            (x_mm + side, y_mm - up * side * 0.8),
            (x_mm - side, y_mm - up * side * 0.8),
        )
        marks = [Polygon(shape, "spot-read")]
        lines = [(end, True), *lines]
    else:
        marks = [Circle(x_mm, y_mm, 0.8, "ink")]
    marks += page.label(x_mm, y_mm, SPOT_MM * (1.2 if end else 0.6), lines, SMALL_MM + (0.6 if end else 0.0))
    return Group(tuple(marks), f"level {end}".strip(), title=f"{one.station.name} {one.level.text}")


def _contours(
    room: Room, surface: Surface, sight: Sight
) -> tuple[list[Mark], float, dict[float, list[tuple[float, float]]]]:
    """Lines of equal level from the surface on a grid; their step; and the middles of their pieces by level."""
    if len(surface.spots) < 3:
        return [], 0.0, {}
    range_mm = surface.highest.level_mm - surface.lowest.level_mm
    step_mm = next((step for step in STEPS_MM if range_mm / step <= MOST_LINES), STEPS_MM[-1])
    first = int(surface.lowest.level_mm // step_mm) + 1
    levels_mm = [i * step_mm for i in range(first, int(surface.highest.level_mm // step_mm) + 1)]
    grid = _grid(room, surface, sight)
    marks: list[Mark] = []
    seen: dict[float, list[tuple[float, float]]] = {}
    for level_mm in levels_mm:
        for (x1, y1), (x2, y2) in _pieces(grid, level_mm):
            marks.append(Line(x1, y1, x2, y2, "contour"))
            seen.setdefault(level_mm, []).append(((x1 + x2) / 2, (y1 + y2) / 2))
    return [Group(tuple(marks), "contours")] if marks else [], step_mm, seen


Grid = dict[tuple[int, int], tuple[float, float, float]]


def _grid(room: Room, surface: Surface, sight: Sight) -> Grid:
    """Column and row to paper x, y and level, on the room's floor within the rectangle round the stations."""
    outline = [point for wall in room.walls for point in wall.points]
    xs, ys = [one.x_mm for one in surface.spots], [one.y_mm for one in surface.spots]
    cell_mm = CELL_MM / sight.scale
    columns = int((max(xs) - min(xs)) / cell_mm) + 1
    rows = int((max(ys) - min(ys)) / cell_mm) + 1
    grid: Grid = {}
    for column in range(columns + 1):
        for row in range(rows + 1):
            x_mm = min(xs) + (max(xs) - min(xs)) * column / columns
            y_mm = min(ys) + (max(ys) - min(ys)) * row / rows
            if len(outline) > 2 and not _inside(x_mm, y_mm, outline):
                continue
            level = surface.at(x_mm, y_mm)
            if level is not None:
                grid[column, row] = (*sight.at(Point(x_mm, y_mm)), level.level_mm)
    return grid


def _pieces(grid: Grid, level_mm: float) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Where the level runs through each half cell of the grid, two triangles a cell, so that no case is ambiguous."""
    for column, row in grid:
        corners = [grid.get((column + i, row + j)) for i, j in ((0, 0), (1, 0), (1, 1), (0, 1))]
        for triangle in ((0, 1, 2), (0, 2, 3)):
            three = [corners[i] for i in triangle]
            crossed = [
                _crossing(a, b, level_mm)
                for a, b in zip(three, three[1:] + three[:1], strict=True)
                if a is not None and b is not None and None not in three and (a[2] < level_mm) != (b[2] < level_mm)
            ]
            if len(crossed) == 2:
                yield crossed[0], crossed[1]


def _crossing(a: tuple[float, float, float], b: tuple[float, float, float], level_mm: float) -> tuple[float, float]:
    share = (level_mm - a[2]) / (b[2] - a[2])
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def _named(seen: Mapping[float, Sequence[tuple[float, float]]], sight: Sight, page: Page) -> list[Mark]:
    """Each line's level written once on the line, where nothing else is written; not at all where there is no room."""
    marks: list[Mark] = []
    for level_mm, middles in seen.items():
        text = text_mm(level_mm, signed=True)
        half = SMALL_MM * 0.3 * len(text) + 0.4
        for x_mm, y_mm in sorted(
            middles, key=lambda at: abs(at[0] - sight.width_mm / 2) + abs(at[1] - sight.height_mm / 2)
        ):
            area = Area(x_mm - half, y_mm - 1.6, x_mm + half, y_mm + 1.6)
            if page.is_free(area):
                page.keep_clear([area])
                marks.append(Text(x_mm, y_mm + 1.0, text, SMALL_MM, "middle", css="quiet", halo=True))
                break
    return marks


def _inside(x_mm: float, y_mm: float, outline: Sequence[Point]) -> bool:
    """Even-odd rule."""
    inside = False
    for a, b in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (a.y_mm > y_mm) != (b.y_mm > y_mm):
            inside ^= x_mm < a.x_mm + (y_mm - a.y_mm) / (b.y_mm - a.y_mm) * (b.x_mm - a.x_mm)
    return inside


def _area(one: PlannedStation, sight: Sight) -> Area:
    x_mm, y_mm = sight.at(Point(one.station.x_mm, one.station.y_mm))
    return Area(x_mm - 1.4, y_mm - 1.4, x_mm + 1.4, y_mm + 1.4)


def _alt(room: Room, known: Sequence[PlannedStation], surface: Surface, texts: Mapping[str, str]) -> str:
    if not surface.spots:
        return f"The floor of {room.name} seen from above. No level is known yet."

    def spot(word: str, one: Spot) -> str:
        return f"{word} at {one.name}, {texts.get(one.id, text_mm(one.level_mm, signed=True))} mm"

    words = [f"The floor of {room.name} seen from above, levels in mm over the bench mark."]
    words.append(f"{spot('Highest', surface.highest)}; {spot('lowest', surface.lowest)}.")
    words.append("; ".join(f"{one.station.name} {one.level.text}" for one in known if one.level is not None) + ".")
    holes = [one.station.name for one in known if one.level is None]
    if holes:
        words.append(f"Not known, readings differ: {', '.join(holes)}.")
    return " ".join(words)
