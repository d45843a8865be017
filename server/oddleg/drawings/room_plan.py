"""What every plan of a room shows: walls, doorways, items with their numbers, steps, bench marks; seen from above."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from oddleg.job import ApplianceBay, BenchMark, Carcass, Doorway, EndPanel, OpenUnit, Point, Room, Station
from oddleg.plan.rod import Placed

from .lettering import CROSSES, SMALL_MM, Area, Page, shortened, text_width_mm
from .primitives import Circle, Group, Line, Mark, Polygon, Polyline, RoomAxes, Text

PHONE_WIDTH_MM = 90.0
# The survey plan carries every station's name: it is wider than a phone, and is moved about under the finger.
LARGE_WIDTH_MM = 150.0
LARGE_HEIGHT_MM = 260.0
GREATEST_HEIGHT_MM = 170.0
MARGIN_MM = 6.0
SPOT_MM = 1.5
HIT_MM = 5.5
LEAST_HIT_MM = 3.2
LEAST_NAME = 6
# A bay has a station in its middle, so its word stands above that.
BAY_WORD_UP_MM = 3.4


@dataclass(frozen=True)
class Sight:
    """From room axes to the paper: the room's `left_mm`, `top_mm` lies at the margin; `scale` is paper mm a room mm."""

    left_mm: float
    top_mm: float
    scale: float
    width_mm: float
    height_mm: float
    margin_mm: float

    def at(self, point: Point) -> tuple[float, float]:
        x_mm, y_mm = (point.x_mm - self.left_mm) * self.scale, (point.y_mm - self.top_mm) * self.scale
        return self.margin_mm + x_mm, self.margin_mm + y_mm

    def axes(self, room: Room) -> RoomAxes:
        return RoomAxes(room.id, *self.at(Point(0.0, 0.0)), self.scale)


def sight_of(
    room: Room,
    placed: Sequence[Placed],
    stations: Sequence[Station],
    width_mm: float,
    greatest_height_mm: float,
    margin_mm: float = MARGIN_MM,
    beside_mm: float = MARGIN_MM,
) -> Sight:
    """The sight that shows the whole room on paper `width_mm` wide and at most `greatest_height_mm` high, with
    `margin_mm` left above and below it and `beside_mm` or more at its sides.
    """
    points = [point for wall in room.walls for point in wall.points]
    points += [
        Point(mark.x_mm, mark.y_mm) for mark in room.bench_marks if mark.x_mm is not None and mark.y_mm is not None
    ]
    points += [Point(one.x_mm, one.y_mm) for one in stations]
    points += [end for door in room.doorways for end in (door.from_point, door.to_point)]
    points += [corner for one in placed for corner in one.corners() or ()]
    points = points or [Point(0.0, 0.0)]
    left_mm, right_mm = min(p.x_mm for p in points), max(p.x_mm for p in points)
    top_mm, bottom_mm = min(p.y_mm for p in points), max(p.y_mm for p in points)
    room_width_mm, room_height_mm = max(right_mm - left_mm, 500.0), max(bottom_mm - top_mm, 500.0)
    scale = min((width_mm - 2 * beside_mm) / room_width_mm, (greatest_height_mm - 2 * margin_mm) / room_height_mm)
    spare_mm = (width_mm - 2 * margin_mm) / scale - room_width_mm
    return Sight(left_mm - spare_mm / 2, top_mm, scale, width_mm, room_height_mm * scale + 2 * margin_mm, margin_mm)


def shell(room: Room, sight: Sight, page: Page) -> list[Mark]:
    """Floor, walls, doorways, steps of the floor."""
    outline = [sight.at(point) for wall in room.walls for point in wall.points]
    marks: list[Mark] = [Polygon(tuple(outline), "floor-of-room")] if len(outline) > 2 else []
    for wall in room.walls:
        points = tuple(sight.at(point) for point in wall.points)
        marks.append(Polyline(points, "wall"))
        page.keep_clear(area for a, b in pairwise(points) for area in _along(a, b))
    for door in room.doorways:
        marks += _doorway(door, sight)
        x_mm, y_mm = _word_at(door, sight)
        page.keep_clear([Area(x_mm - 3.6, y_mm - 2.6, x_mm + 3.6, y_mm + 0.6)])
    for step in room.break_lines:
        points = tuple(sight.at(point) for point in step.points)
        marks.append(Group((Polyline(points, "dotted"),), "step", title=f"step in the floor: {step.name}"))
        if points:
            marks.append(Text(*points[0], f"step: {step.name}", SMALL_MM, halo=True))
    return marks


def items(placed: Sequence[Placed], numbers: Mapping[str, int], sight: Sight, page: Page) -> list[Mark]:
    """Footprints of what stands on the floor, each with its number in the middle; bays with dashed sides and a word."""
    marks: list[Mark] = []
    for one in placed:
        corners = one.corners()
        if corners is None or not one.stands:
            continue
        points = tuple(sight.at(corner) for corner in corners)
        page.keep_clear((edge for a, b in pairwise((*points, points[0])) for edge in _along(a, b, 0.3)), CROSSES)
        shape: Mark
        if isinstance(one.item, ApplianceBay):
            shape = Polygon(points, "bay")
        else:
            shape = Polygon(points, "item")
        inside: list[Mark] = [shape]
        number = numbers.get(one.item.id)
        middle_x = sum(x for x, _ in points) / 4
        middle_y = sum(y for _, y in points) / 4
        room_mm = max(abs(points[1][0] - points[0][0]), abs(points[2][0] - points[1][0])) - 1.2
        if number is not None:
            words, size_mm, bold = str(number), 4.2, True
        elif isinstance(one.item, Carcass | OpenUnit | ApplianceBay):
            name = one.item.appliance.name if isinstance(one.item, ApplianceBay) else one.item.name
            fits = shortened(name, room_mm, SMALL_MM)
            words, size_mm, bold = fits if fits == name or len(fits) > LEAST_NAME else "", SMALL_MM, False
        else:
            words = ""
        if isinstance(one.item, ApplianceBay):
            middle_y -= BAY_WORD_UP_MM
        if words:
            wide_mm = text_width_mm(words, size_mm, bold) / 2
            page.keep_clear(
                [Area(middle_x - wide_mm, middle_y - size_mm / 2, middle_x + wide_mm, middle_y + size_mm / 2)]
            )
            inside.append(Text(middle_x, middle_y + size_mm / 3, words, size_mm, "middle", bold))
        title = f"{number}, {one.item.name}" if number is not None else one.item.name
        css = "panel" if isinstance(one.item, EndPanel) else "unit"
        marks.append(Group(tuple(inside), css, (("item", one.item.id),), title))
    return marks


def bench_marks(room: Room, sight: Sight, page: Page, can_focus: bool = False) -> list[Mark]:
    """The surveyor's sign for a bench mark: a level line over an arrow head that points up to it."""
    marks: list[Mark] = []
    for one in _with_place(room.bench_marks):
        x_mm, y_mm = sight.at(Point(one.x_mm or 0.0, one.y_mm or 0.0))
        page.keep_clear([_around(x_mm, y_mm, 2.2)])
        sign: list[Mark] = [
            Line(x_mm - 2.2, y_mm - 1.6, x_mm + 2.2, y_mm - 1.6, "line"),
            Polygon(((x_mm, y_mm - 1.4), (x_mm + 1.7, y_mm + 1.6), (x_mm - 1.7, y_mm + 1.6)), "ink"),
        ]
        if can_focus:
            sign.append(Circle(x_mm, y_mm, HIT_MM, "hit"))
        sign += page.label(x_mm, y_mm, 2.2, [("bench mark", True)], SMALL_MM)
        title = f"bench mark: {one.name}"
        marks.append(Group(tuple(sign), "bench-mark", (("station", one.id),) if can_focus else (), title, can_focus))
    return marks


def _with_place(marks: Sequence[BenchMark]) -> list[BenchMark]:
    return [mark for mark in marks if mark.x_mm is not None and mark.y_mm is not None]


def _doorway(door: Doorway, sight: Sight) -> list[Mark]:
    """A gap in the wall with its two jambs and the word."""
    (x1, y1), (x2, y2) = sight.at(door.from_point), sight.at(door.to_point)
    length_mm = max(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5, 1e-9)
    across = (-(y2 - y1) / length_mm * 1.3, (x2 - x1) / length_mm * 1.3)
    marks: list[Mark] = [Line(x1, y1, x2, y2, "opening")]
    for x_mm, y_mm in ((x1, y1), (x2, y2)):
        marks.append(Line(x_mm - across[0], y_mm - across[1], x_mm + across[0], y_mm + across[1], "line"))
    marks.append(Text(*_word_at(door, sight), "door", SMALL_MM, "middle", halo=True))
    return [Group(tuple(marks), "doorway", title=door.name)]


def _word_at(door: Doorway, sight: Sight) -> tuple[float, float]:
    """Middle and baseline of the doorway's word: outside the room above and below, on the line at the sides."""
    (x1, y1), (x2, y2) = sight.at(door.from_point), sight.at(door.to_point)
    middle_x, middle_y = _middle(door, sight)
    if abs(y2 - y1) > abs(x2 - x1):
        return middle_x, middle_y + 1.0
    return middle_x, middle_y + 4.2 if middle_y > sight.height_mm / 2 else middle_y - 2.2


def _middle(door: Doorway, sight: Sight) -> tuple[float, float]:
    (x1, y1), (x2, y2) = sight.at(door.from_point), sight.at(door.to_point)
    return (x1 + x2) / 2, (y1 + y2) / 2


def _along(a: tuple[float, float], b: tuple[float, float], half_mm: float = 0.7) -> Iterator[Area]:
    """Areas that cover a line: one where it runs straight across or down the page, else one about every 4 mm."""
    across_mm, down_mm = b[0] - a[0], b[1] - a[1]
    count = max(1, min(40, int(min(abs(across_mm), abs(down_mm)) / 1.5)))
    for i in range(count):
        x1, x2 = sorted((a[0] + across_mm * i / count, a[0] + across_mm * (i + 1) / count))
        y1, y2 = sorted((a[1] + down_mm * i / count, a[1] + down_mm * (i + 1) / count))
        yield Area(x1 - half_mm, y1 - half_mm, x2 + half_mm, y2 + half_mm)


def _around(x_mm: float, y_mm: float, radius_mm: float) -> Area:
    return Area(x_mm - radius_mm, y_mm - radius_mm, x_mm + radius_mm, y_mm + radius_mm)
