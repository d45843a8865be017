"""A back panel with what is cut out of it, from the front and, mirrored, from behind."""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.plan.carcass_box import CarcassBox
from oddleg.plan.panel_views import letters
from oddleg.plan.room_services import BackCut, from_datum

from .lettering import SMALL_MM, Area, Page, paragraph, spread
from .primitives import Circle, Drawing, Group, Line, Mark, Polyline, Text, rectangle
from .running import Stretch, Tick, dimension, dimension_height_mm

MARGIN_MM = 4.0
# What the figures down the side take of the width.
SIDE_MM = 20.0
GREATEST_HEIGHT_MM = 110.0


def back_drawing(box: CarcassBox, cuts: Sequence[BackCut], width_mm: float, behind: bool) -> Drawing:
    """Left and right edges of each cut-out from the panel's edge on that side, upper and lower edges from its top and
    foot, the middle of a round one from all four, and how far each lies below the datum line. `behind`: as the panel
    lies with its rear face up."""
    panel_mm, high_mm = box.back_right_mm - box.back_left_mm, box.back_top_mm - box.back_foot_mm
    view = "from behind" if behind else "from the front"
    title = f"Back of {box.item.name}, {view}"
    room_mm = width_mm - 2 * MARGIN_MM - SIDE_MM
    scale = min(room_mm / panel_mm, GREATEST_HEIGHT_MM / high_mm)
    marks, y_mm = paragraph(MARGIN_MM, 1.0, title, width_mm - 2 * MARGIN_MM, bold=True)
    stretch = Stretch(0.0, panel_mm, MARGIN_MM, scale)
    placed = [(one, *_across(one, panel_mm, behind)) for one in cuts]
    over = [
        Tick(
            (left_mm + right_mm) / 2 if one.cut.round else left_mm, (one.from_behind if behind else one.from_left).text
        )
        for one, left_mm, right_mm in placed
    ]
    under = [
        Tick(
            (left_mm + right_mm) / 2 if one.cut.round else right_mm, (one.from_left if behind else one.from_right).text
        )
        for one, left_mm, right_mm in placed
    ]
    y_mm += dimension_height_mm(over, bold=True)
    limit_mm = width_mm - MARGIN_MM
    marks += dimension(
        stretch, y_mm, over, "left edges (middle of a bore), from the left", limit_mm, up=True, bold=True
    )
    top_mm, foot_mm = y_mm + 1.0, y_mm + 1.0 + high_mm * scale
    right_mm = stretch.right_mm
    page = Page(right_mm, foot_mm)
    marks.append(rectangle(MARGIN_MM, top_mm, right_mm, foot_mm, "item"))
    beside: list[tuple[float, str]] = []
    for number, (one, from_mm, to_mm) in enumerate(placed):
        upper_mm = foot_mm - (one.cut.foot_mm + _tall_mm(one)) * scale
        lower_mm = foot_mm - one.cut.foot_mm * scale
        left, right = stretch.at(from_mm), stretch.at(to_mm)
        shape = _shape(one, left, right, upper_mm, lower_mm, scale)
        page.keep_clear([Area(left, upper_mm, right, lower_mm)])
        letter, half_mm = letters(number), min(right - left, lower_mm - upper_mm) / 2
        inside = half_mm > SMALL_MM * 0.7
        x_mm, y_mm = (left + right) / 2, (upper_mm + lower_mm) / 2
        words: Sequence[Mark] = (Text(x_mm, y_mm + SMALL_MM / 3, letter, SMALL_MM, "middle", True, halo=True),)
        if not inside:
            words = page.label(x_mm, y_mm, half_mm, [(letter, True)], SMALL_MM, backed=True)
        marks.append(Group((*shape, *words), "cut-out", (("cut-out", one.cut.id),), f"{letter}: {one.cut.words}"))
        if one.cut.round:
            upper_mm = lower_mm = (upper_mm + lower_mm) / 2
        marks += [Line(right, y, right_mm + 2.0, y, "hair") for y in (upper_mm, lower_mm)]
        beside += [(upper_mm, f"{letter} {one.from_top.text} down"), (lower_mm, f"{letter} {one.from_foot.text} up")]
    marks += _side_figures(beside, right_mm + 2.0, top_mm, foot_mm)
    y_mm = foot_mm + 1.0
    marks += dimension(stretch, y_mm, under, "right edges (middle of a bore), from the right", limit_mm, bold=True)
    y_mm += dimension_height_mm(under, bold=True)
    for words_of in _words(cuts):
        more, y_mm = paragraph(MARGIN_MM, y_mm, words_of, width_mm - 2 * MARGIN_MM)
        marks += more
    return Drawing(title, " ".join((f"{title}.", *_said(cuts, behind))), width_mm, y_mm + 1.0, tuple(marks))


def _across(one: BackCut, panel_mm: float, behind: bool) -> tuple[float, float]:
    """From and to along the panel as it is looked at."""
    left_mm, right_mm = one.cut.left_mm, one.cut.left_mm + one.cut.width_mm
    return (panel_mm - right_mm, panel_mm - left_mm) if behind else (left_mm, right_mm)


def _tall_mm(one: BackCut) -> float:
    return one.cut.width_mm if one.cut.round else one.cut.height_mm


def _shape(
    one: BackCut, left_mm: float, right_mm: float, top_mm: float, foot_mm: float, scale: float
) -> tuple[Mark, ...]:
    if one.cut.round:
        x_mm, y_mm, radius_mm = (left_mm + right_mm) / 2, (top_mm + foot_mm) / 2, (right_mm - left_mm) / 2
        return (
            Circle(x_mm, y_mm, radius_mm, "part"),
            Line(x_mm - radius_mm, y_mm, x_mm + radius_mm, y_mm, "hair"),
            Line(x_mm, y_mm - radius_mm, x_mm, y_mm + radius_mm, "hair"),
        )
    radius_mm = min(one.cut.radius_mm * scale, (right_mm - left_mm) / 2, (foot_mm - top_mm) / 2)
    corners = (
        (left_mm + radius_mm, top_mm), (right_mm - radius_mm, top_mm), (right_mm, top_mm + radius_mm),
        (right_mm, foot_mm - radius_mm), (right_mm - radius_mm, foot_mm), (left_mm + radius_mm, foot_mm),
        (left_mm, foot_mm - radius_mm), (left_mm, top_mm + radius_mm), (left_mm + radius_mm, top_mm),
    )  # fmt: skip
    return (rectangle(left_mm, top_mm, right_mm, foot_mm, "tint"), Polyline(corners, "line"))


def _side_figures(beside: Sequence[tuple[float, str]], x_mm: float, top_mm: float, foot_mm: float) -> list[Mark]:
    """Heights beside the panel, none over another, each at its line or led to from it."""
    shown = sorted(set(beside))
    tops = spread([(y_mm, SMALL_MM) for y_mm, _ in shown], top_mm - 2.0, foot_mm + 6.0)
    marks: list[Mark] = []
    for (y_mm, words), at_mm in zip(shown, tops, strict=True):
        middle_mm = at_mm + SMALL_MM / 2
        marks.append(Line(x_mm, y_mm, x_mm + 2.0, middle_mm, "hair"))
        marks.append(Text(x_mm + 2.4, middle_mm + SMALL_MM / 3, words, SMALL_MM, bold=True))
    return marks


def _words(cuts: Sequence[BackCut]) -> list[str]:
    return [
        f"{letters(number)}, {one.cut.words}: {_size(one)}, {'middle' if one.cut.round else 'upper edge'} "
        f"{from_datum(one.below_datum)} the datum line{_open(one)}."
        for number, one in enumerate(cuts)
    ]


def _size(one: BackCut) -> str:
    return f"{one.width.text} bore" if one.cut.round else f"{one.width.text} × {one.height.text}"


def _open(one: BackCut) -> str:
    return f", open to the {' and the '.join(one.cut.open_to)}" if one.cut.open_to else ""


def _said(cuts: Sequence[BackCut], behind: bool) -> list[str]:
    return [
        f"{one.cut.words}: {one.width.text} wide, {one.height.text} high, "
        f"{(one.from_behind if behind else one.from_left).text} from the left, {one.from_top.text} from the top, "
        f"{from_datum(one.below_datum)} the datum line."
        for one in cuts
    ]
