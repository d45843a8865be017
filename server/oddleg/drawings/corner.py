"""A corner from above, the left run's wall at the top and the right run's at the right hand: what stands in it and how
it opens, and the triangle that was measured, its walls drawn out of square many times further than they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from oddleg.job import ApplianceBay, Gap
from oddleg.plan import RoomPlan
from oddleg.plan.corner import BlindUnit, Corner, OpeningFront
from oddleg.plan.corner_arms import arms
from oddleg.plan.corner_post import first_front
from oddleg.plan.figure import text_mm
from oddleg.plan.front_paths import blind_mm, takes_up
from oddleg.plan.legs import unit_numbers
from oddleg.plan.meeting_runs import Arm
from oddleg.plan.rod import Placed

from .corner_fronts import Sight, closed_front, opened_front
from .corner_triangle import triangle_marks
from .lettering import CROSSES, SMALL_MM, Area, Page, lines_at_most, paragraph, text_width_mm, wrapped
from .primitives import Drawing, Group, Line, Mark, Polygon, Polyline, Text
from .room_plan import PHONE_WIDTH_MM

MARGIN_MM = 3.0
WALL_MM = 3.0
# How far from the corner is shown, and how far down the paper.
LEAST_SHOWN_MM, MOST_SHOWN_MM, PAST_MM = 1000.0, 1900.0, 60.0
GREATEST_DOWN_MM = 84.0
# A post or filler is drawn as a strip so deep, flush with the fronts beside it.
STRIP_MM = 80.0
# In less than this no word of a name can be read.
LEAST_WORDS_MM = 12.0
KEY = "To scale. Dashed: as the fronts beside the corner stand open. Blue: the lines of backs."


@dataclass(frozen=True)
class Beside:
    """What the plan says of this corner: fronts that open beside it, and blind units in it."""

    fronts: tuple[OpeningFront, ...]
    blind: tuple[BlindUnit, ...]

    def of(self, one: Placed, front: Placed | None) -> list[tuple[str, str]]:
        """What is said of a unit, and in which look. `front`: the first that opens."""
        said = [
            (f"{unit.stands.text} off the wall, least {unit.offset.text}", "ink")
            for unit in self.blind
            if unit.item == one.item.id
        ]
        for told in self.fronts:
            if front is not None and told.item == one.item.id == front.item.id:
                words = f"needs {told.needs.text}, has {told.has.text}"
                said.append((words, "ink") if told.opens else (f"{words}: does not open", "alarm"))
        return said


def corner_drawing(
    corner: Corner, number: int, room_plan: RoomPlan, rounding_mm: float = 0.5, width_mm: float = PHONE_WIDTH_MM
) -> Drawing:
    """What stands in the corner to scale, the first front on either side also as it stands open; below it the triangle.
    The numbers are those of the units."""
    out = room_plan.setting_out
    sides = {corner.left_run.id: "right", corner.right_run.id: "left"}
    met = next(
        (
            pair
            for pair in arms(room_plan.room, [one.rod for one in out.runs])
            if (pair[0].run.id, pair[0].side, pair[1].run.id) == (corner.left_run.id, "right", corner.right_run.id)
        ),
        None,
    )
    here = {one.item.id for arm in met or () for one in arm.placed if blind_mm(one, arm.side) > 0}
    beside = Beside(
        tuple(one for one in out.fronts if sides.get(one.run) == one.side),
        tuple(one for one in out.blind if one.item in here),
    )
    marks: list[Mark] = []
    y_mm = 1.0
    if met is not None and any(arm.row(hangs=False) for arm in met):
        marks, y_mm = _plan(met, beside, unit_numbers(room_plan.placed), rounding_mm, y_mm, width_mm)
        more, y_mm = paragraph(MARGIN_MM, y_mm, KEY, width_mm - 2 * MARGIN_MM)
        marks += more
        y_mm += 2.5
    more, y_mm = triangle_marks(corner, y_mm, width_mm)
    title = f"Corner {number}, {corner.left_run.name} and {corner.right_run.name}"
    return Drawing(title, _alt(corner, beside), width_mm, y_mm + 1.0, (*marks, *more))


def _plan(
    met: tuple[Arm, Arm],
    beside: Beside,
    numbers: Mapping[str, int],
    rounding_mm: float,
    y_mm: float,
    width_mm: float,
) -> tuple[list[Mark], float]:
    left, right = met
    shown = {"right": _shown_mm(left, right), "left": _shown_mm(right, left)}
    scale = min(
        (width_mm - 2 * MARGIN_MM - WALL_MM) / (shown["right"] + right.run.void_mm),
        (GREATEST_DOWN_MM - WALL_MM) / (shown["left"] + left.run.void_mm),
    )
    at_x_mm = width_mm - MARGIN_MM - WALL_MM - right.run.void_mm * scale
    sight = Sight(at_x_mm, y_mm + WALL_MM + left.run.void_mm * scale, scale, shown)
    bottom_mm = sight.y_mm + shown["left"] * scale
    page = Page(width_mm, bottom_mm + 1.0)
    marks = _walls(sight, left, right)
    opened: list[Mark] = []
    strips: list[tuple[tuple[float, float], str]] = []
    for arm, other in ((left, right), (right, left)):
        row = arm.row(hangs=False)
        _, front = first_front(row)
        for one in row:
            near_mm, far_mm = arm.near_far_mm(one)
            if takes_up(one.item) and far_mm > other.deepest_mm() and near_mm < shown[arm.side]:
                shape, spot = _strip(sight, arm, one, row)
                marks += shape
                wide = text_mm(one.right_mm - one.left_mm, rounding_mm)
                strips.append((spot, f"{one.item.name} {wide}"))
            elif not takes_up(one.item):
                number = str(numbers[one.item.id]) if one.item.id in numbers else ""
                marks += _unit(sight, arm, one, number, beside.of(one, front), page)
        told = next((each for each in beside.fronts if front is not None and each.item == front.item.id), None)
        if front is not None and told is not None:
            opened += opened_front(sight, arm, front, "dashed" if told.opens else "alarm-hair")
    page.keep_clear(_along(opened))
    marks += opened
    for arm in met:
        marks.append(Line(*sight.at(arm, 0.0, 0.0), *sight.at(arm, shown[arm.side], 0.0), "accent-line"))
    for (x_mm, spot_y_mm), words in strips:
        marks += page.label(x_mm, spot_y_mm, 0.8, [(words, False)], SMALL_MM, backed=True)
    return marks, bottom_mm + 2.0


def _shown_mm(arm: Arm, other: Arm) -> float:
    """As far as the first front beside the corner, and what comes past it from the other run."""
    _, front = first_front(arm.row(hangs=False))
    far_mm = arm.near_far_mm(front)[1] if front is not None else 0.0
    return min(max(far_mm, other.deepest_mm() + PAST_MM, LEAST_SHOWN_MM - PAST_MM) + PAST_MM, MOST_SHOWN_MM)


def _walls(sight: Sight, left: Arm, right: Arm) -> list[Mark]:
    """Faces of both walls, and what lies behind them tinted."""
    x_mm, y_mm = sight.x_mm + right.run.void_mm * sight.scale, sight.y_mm - left.run.void_mm * sight.scale
    far_x_mm = sight.x_mm - sight.shown_mm["right"] * sight.scale
    far_y_mm = sight.y_mm + sight.shown_mm["left"] * sight.scale
    out = (
        (far_x_mm, y_mm), (x_mm, y_mm), (x_mm, far_y_mm), (x_mm + WALL_MM, far_y_mm), (x_mm + WALL_MM, y_mm - WALL_MM),
        (far_x_mm, y_mm - WALL_MM),
    )  # fmt: skip
    return [
        Polygon(out, "tint"),
        Line(far_x_mm, y_mm, x_mm, y_mm, "wall"),
        Line(x_mm, y_mm, x_mm, far_y_mm, "wall"),
    ]


def _strip_front_mm(arm: Arm, one: Placed, row: Sequence[Placed]) -> float:
    """Where a strip's face lies: as far out as the front edge of the nearest carcass."""
    deep = [other for other in row if arm.front_mm(other) is not None]
    if not deep:
        return STRIP_MM
    nearest = min(deep, key=lambda other: abs(other.left_mm + other.right_mm - one.left_mm - one.right_mm))
    return arm.front_mm(nearest) or STRIP_MM


def _strip(sight: Sight, arm: Arm, one: Placed, row: Sequence[Placed]) -> tuple[list[Mark], tuple[float, float]]:
    """A post or filler, and the spot of its label. A gap is nothing to draw."""
    near_mm, far_mm = arm.near_far_mm(one)
    far_mm = min(far_mm, sight.shown_mm[arm.side])
    front_mm = _strip_front_mm(arm, one, row)
    spot = sight.at(arm, (near_mm + far_mm) / 2, front_mm - STRIP_MM / 2)
    if isinstance(one.item, Gap) or near_mm >= far_mm:
        return [], spot
    shape = sight.block(arm, (near_mm, far_mm), (front_mm - STRIP_MM, front_mm), "part")
    return [Group((shape,), "strip", (("item", one.item.id),), one.item.name)], spot


def _unit(sight: Sight, arm: Arm, one: Placed, number: str, more: Sequence[tuple[str, str]], page: Page) -> list[Mark]:
    """Footprint with number, name and what is said of it (text, look), and its front with the handle; what does not fit
    is left out, from below."""
    near_mm, far_mm = arm.near_far_mm(one)
    from_mm, to_mm = max(near_mm, 0.0), min(far_mm, sight.shown_mm[arm.side])
    front_mm = arm.front_mm(one)
    if to_mm <= from_mm or front_mm is None:
        return []
    shape = sight.block(arm, (from_mm, to_mm), (0.0, front_mm), "bay" if isinstance(one.item, ApplianceBay) else "item")
    front = closed_front(sight, arm, one)
    xs, ys = [x for x, _ in shape.points_mm], [y for _, y in shape.points_mm]
    room_mm, step_mm = max(xs) - min(xs) - 1.5, SMALL_MM * 1.25
    middle_mm = (min(xs) + max(xs)) / 2
    lines = [(number, True, "ink")] if number else []
    if room_mm >= LEAST_WORDS_MM:
        lines += [(part, False, "ink") for part in lines_at_most(one.item.name, 2, room_mm, SMALL_MM)]
        lines += [(part, True, css) for text, css in more for part in wrapped(text, room_mm, SMALL_MM, bold=True)]
    lines = lines[: max(int((max(ys) - min(ys) - 1.0) / step_mm), 0)]
    top_mm = (min(ys) + max(ys)) / 2 - len(lines) * step_mm / 2
    texts: list[Mark] = []
    for place, (text, bold, css) in enumerate(lines):
        half_mm, base_mm = text_width_mm(text, SMALL_MM, bold) / 2, top_mm + place * step_mm + SMALL_MM
        if 2 * half_mm <= room_mm:
            texts.append(Text(middle_mm, base_mm, text, SMALL_MM, "middle", bold, css))
            page.keep_clear([Area(middle_mm - half_mm, base_mm - SMALL_MM, middle_mm + half_mm, base_mm + 0.8)])
    page.keep_clear(_along([shape]))
    for mark in front:
        if isinstance(mark, Polygon):
            at_x, at_y = [x for x, _ in mark.points_mm], [y for _, y in mark.points_mm]
            page.keep_clear([Area(min(at_x), min(at_y), max(at_x), max(at_y))], CROSSES)
    return [Group((shape, *front, *texts), "unit", (("item", one.item.id),), one.item.name)]


def _along(marks: Sequence[Mark]) -> list[Area]:
    """Thin areas along the edges of shapes, for labels to keep off."""
    found = []
    for mark in marks:
        if isinstance(mark, Polygon):
            ends = list(zip(mark.points_mm, (*mark.points_mm[1:], mark.points_mm[0]), strict=True))
        elif isinstance(mark, Polyline):
            ends = list(pairwise(mark.points_mm))
        elif isinstance(mark, Line):
            ends = [((mark.x1_mm, mark.y1_mm), (mark.x2_mm, mark.y2_mm))]
        else:
            continue
        for (x1, y1), (x2, y2) in ends:
            found.append(Area(min(x1, x2) - 0.3, min(y1, y2) - 0.3, max(x1, x2) + 0.3, max(y1, y2) + 0.3))
    return found


def _alt(corner: Corner, beside: Beside) -> str:
    words = [f"The corner of {corner.left_run.name} and {corner.right_run.name} from above.", corner.words]
    if corner.sides:
        words.append("Measured: " + ", ".join(f"{label} {side.text}" for label, side in corner.sides) + ".")
    if corner.post_least is not None and corner.post_has is not None:
        words.append(f"The post must be {corner.post_least.text} or more and is {corner.post_has.text}.")
    words += [f"{one.name}: {one.words}" for one in (*beside.blind, *beside.fronts)]
    return " ".join([*words, corner.joint_words])
