"""What one row of a fitting chart says, drawn to scale, so that a figure that was typed wrong is seen.

Each view (`chart_views`) is to one scale of its own, across and up. Odd figures are drawn as they are: nothing is moved
into place.
"""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.job import HardwareRow

from .chart_view import Tick, View
from .chart_views import views_of, words_of
from .lettering import SMALL_MM, paragraph, text_width_mm
from .primitives import Circle, Drawing, Line, Mark, Polygon, Text
from .running import LEADER_MM, Stretch, dimension, dimension_height_mm, kept_apart, most_ticks
from .running import Tick as Running

MARGIN_MM, GAP_MM = 2.5, 3.0
# A view is at most so high on paper for its width, and so many times as large as the thing itself.
HIGH, GREATEST_SCALE, LEAST_RADIUS_MM, LEAST_SPAN_MM = 0.62, 1.6, 0.5, 1.0
# Views so many times as high as wide, or higher, take half the width where two follow each other.
NARROW = 0.8
PITCH_MM = SMALL_MM * 1.15
CAP_MM = SMALL_MM * 0.334


def chart_row_drawing(row: HardwareRow, width_mm: float) -> Drawing:
    """The row in views one below another, `width_mm` wide, with its figures as they were typed. Views that are narrow
    for their height stand two side by side, so that the whole is seen at once and can still be read."""
    title = f"{row.name}: as the chart has it"
    marks, y_mm = paragraph(MARGIN_MM, 1.0, title, width_mm - 2 * MARGIN_MM, bold=True)
    told = []
    lines = _lines([view for view in views_of(row) if view.marks])
    halved = any(len(one) > 1 for one in lines)
    for beside in lines:
        top_mm, wide_mm = y_mm + GAP_MM, width_mm / 2 if halved and _narrow(beside[0]) else width_mm
        for number, view in enumerate(beside):
            more, end_mm = _drawn(view, top_mm, number * wide_mm, wide_mm)
            marks += more
            told.append(_told(view))
            y_mm = max(y_mm, end_mm)
    words = words_of(row)
    for line in words:
        more, y_mm = paragraph(MARGIN_MM, y_mm + 1.0, line, width_mm - 2 * MARGIN_MM)
        marks += more
    return Drawing(title, " ".join([f"{title}.", *told, *words]), width_mm, y_mm + 1.5, tuple(marks))


def _lines(views: Sequence[View]) -> list[list[View]]:
    """In order; a narrow view shares its line with the next one that is narrow too."""
    lines: list[list[View]] = []
    for view in views:
        if lines and len(lines[-1]) == 1 and _narrow(lines[-1][0]) and _narrow(view):
            lines[-1].append(view)
        else:
            lines.append([view])
    return lines


def _narrow(view: View) -> bool:
    low_x, low_y, high_x, high_y = _bounds(view)
    return high_y - low_y >= NARROW * (high_x - low_x)


def _told(view: View) -> str:
    parts = [f"{way} {', '.join(one.text for one in ticks)}" for way, ticks in _ways(view) if ticks]
    return f"{view.caption}: {'; '.join(parts)}."


def _ways(view: View) -> Sequence[tuple[str, Sequence[Tick]]]:
    return ("across", sorted(view.across, key=_at)), ("up", sorted(view.up, key=_at))


def _at(tick: Tick) -> float:
    return tick.at_mm


def _drawn(view: View, top_mm: float, from_mm: float, width_mm: float) -> tuple[list[Mark], float]:
    """The view from y down the page and x to the right, its figures up it on the left and across below, and where it
    ends."""
    margin_mm = from_mm + MARGIN_MM
    marks, y_mm = paragraph(margin_mm, top_mm, view.caption, width_mm - 2 * MARGIN_MM, bold=True)
    y_mm += 1.5
    low_x, low_y, high_x, high_y = _bounds(view)
    left_mm = margin_mm + max((text_width_mm(one.text, SMALL_MM) + LEADER_MM + 2.5 for one in view.up), default=0.0)
    right_mm = from_mm + width_mm - MARGIN_MM
    up = _with_room(view.up, int(width_mm * HIGH / PITCH_MM))
    least_high_mm = len(up) * PITCH_MM
    scale = min((right_mm - left_mm) / (high_x - low_x), width_mm * HIGH / (high_y - low_y), GREATEST_SCALE)
    high_mm = max((high_y - low_y) * scale, least_high_mm)
    foot_mm = y_mm + (high_mm + (high_y - low_y) * scale) / 2

    def x(at_mm: float) -> float:
        return left_mm + (at_mm - low_x) * scale

    def y(at_mm: float) -> float:
        return foot_mm - (at_mm - low_y) * scale

    for one in view.marks:
        match one:
            case Line():
                marks.append(Line(x(one.x1_mm), y(one.y1_mm), x(one.x2_mm), y(one.y2_mm), one.css))
            case Polygon():
                marks.append(Polygon(tuple((x(a), y(b)) for a, b in one.points_mm), one.css))
            case Circle():
                radius_mm = max(one.radius_mm * scale, LEAST_RADIUS_MM)
                marks.append(Circle(x(one.x_mm), y(one.y_mm), radius_mm, one.css))
            case Text():
                marks.append(Text(x(one.x_mm), y(one.y_mm) + CAP_MM, one.text, SMALL_MM, one.anchor, halo=True))
    if up:
        marks += _up(up, left_mm - 1.5, [y(one.at_mm) for one in up], y_mm, y_mm + high_mm)
    y_mm += high_mm
    across = _with_room(view.across, most_ticks((left_mm, right_mm)))
    if across:
        ticks = [Running(one.at_mm, one.text, one.origin) for one in across]
        stretch = Stretch(low_x, high_x, left_mm, scale)
        line = dimension(stretch, y_mm, ticks, "", right_mm)
        marks += [one for one in line if not (isinstance(one, Text) and not one.text)]
        return marks, y_mm + dimension_height_mm(ticks)
    return marks, y_mm + 1.5


def _up(ticks: Sequence[Tick], x_mm: float, places: Sequence[float], top_mm: float, bottom_mm: float) -> list[Mark]:
    """A running dimension up the page, its figures to the left."""
    marks: list[Mark] = [Line(x_mm, min(places), x_mm, max(places), "thin")]
    shown = sorted(zip(places, ticks, strict=True), key=lambda one: one[0])
    moved = kept_apart([at_mm for at_mm, _ in shown], PITCH_MM, top_mm + CAP_MM, bottom_mm - CAP_MM)
    for (at_mm, one), to_mm in zip(shown, moved, strict=True):
        marks += [
            Line(x_mm - 0.8, at_mm, x_mm + 0.8, at_mm, "line"),
            Line(x_mm - 0.8, at_mm, x_mm - LEADER_MM, to_mm, "hair"),
            Text(x_mm - LEADER_MM - 0.5, to_mm + CAP_MM, one.text, SMALL_MM, "end"),
        ]
        if one.origin:
            marks.append(Circle(x_mm, at_mm, 0.9, "spot"))
    return marks


def _with_room(ticks: Sequence[Tick], most: int) -> list[Tick]:
    """As many as have room, in order: what is between the ends goes first."""
    found = sorted(dict.fromkeys(ticks), key=_at)
    while len(found) > most and len(found) > 2:
        found = [found[0], *found[1:-1][1::2], found[-1]]
    return found


def _bounds(view: View) -> tuple[float, float, float, float]:
    """Least x and y, greatest x and y of all that is drawn, never without a span."""
    points: list[tuple[float, float]] = []
    for one in view.marks:
        match one:
            case Line():
                points += [(one.x1_mm, one.y1_mm), (one.x2_mm, one.y2_mm)]
            case Polygon():
                points += one.points_mm
            case Circle():
                r = one.radius_mm
                points += [(one.x_mm - r, one.y_mm - r), (one.x_mm + r, one.y_mm + r)]
    xs = [x for x, _ in points] + [one.at_mm for one in view.across]
    ys = [y for _, y in points] + [one.at_mm for one in view.up]
    return (
        min(xs),
        min(ys),
        max(max(xs), min(xs) + LEAST_SPAN_MM),
        max(max(ys), min(ys) + LEAST_SPAN_MM),
    )
