"""A carcass from the front: its boards, fronts with their sizes, drawers behind them (dashed), and runner lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import FrontIs, HungOn, Job
from oddleg.plan.figure import text_mm
from oddleg.plan.fitted_out import FittedOut, PlacedFront
from oddleg.plan.panel_views import views
from oddleg.plan.sightings import listed

from .lettering import SMALL_MM, lines_at_most, paragraph, text_width_mm
from .panel import panel_drawing
from .panel_dimensions import Places, upright_dimension, upright_width_mm
from .primitives import Drawing, Group, Line, Mark, Polyline, Text, rectangle
from .room_plan import PHONE_WIDTH_MM
from .running import PITCH_MM

MARGIN_MM = 1.5
GAP_MM = 2.5
HEIGHT_MM = 120.0
NAME_LINE_MM = SMALL_MM * 1.2


@dataclass(frozen=True)
class _OnPaper:
    """Where the carcass lies on the paper: its lower left corner and the scale."""

    left_mm: float
    foot_mm: float
    scale: float

    def x(self, at_mm: float) -> float:
        return self.left_mm + at_mm * self.scale

    def y(self, over_mm: float) -> float:
        return self.foot_mm - over_mm * self.scale

    def box(self, left_mm: float, foot_mm: float, right_mm: float, top_mm: float, css: str) -> Mark:
        return rectangle(self.x(left_mm), self.y(top_mm), self.x(right_mm), self.y(foot_mm), css)


def carcass_front(
    fitted: FittedOut, step_mm: float, width_mm: float = PHONE_WIDTH_MM, greatest_height_mm: float = HEIGHT_MM
) -> Drawing:
    """At the left the edges of the fronts over the carcass's underside, at the right the runner lines over the sides'
    lower edge. `greatest_height_mm`: of the carcass as drawn."""
    box = fitted.box
    shown = [one for one in fitted.fronts if one.front is not FrontIs.SPACE]
    tops = [one.foot_mm + one.height_mm for one in shown]
    edges = _told([0.0, box.height_mm, *(one.foot_mm for one in shown), *tops], 0.0, step_mm)
    lines = _told([one.line_mm for one in fitted.drawers], box.side_foot_mm, step_mm)
    left_mm = MARGIN_MM + upright_width_mm(edges) + GAP_MM
    right_mm = MARGIN_MM + (upright_width_mm(lines) + GAP_MM if lines.told else 0.0)
    low_mm, high_mm = min([0.0, *(one.foot_mm for one in shown)]), max([box.height_mm, *tops])
    room_mm = width_mm - left_mm - right_mm
    scale = min(room_mm / box.width_mm, greatest_height_mm / (high_mm - low_mm))
    # Figures of a low carcass stand higher than it does.
    spare_mm = max(0.0, (max(len(edges.told), len(lines.told)) * PITCH_MM - (high_mm - low_mm) * scale) / 2)
    top_mm = MARGIN_MM + spare_mm
    on = _OnPaper(left_mm + (room_mm - box.width_mm * scale) / 2, top_mm + high_mm * scale, scale)
    bounds = MARGIN_MM, on.y(low_mm) + spare_mm
    marks = [*_boards(fitted, on), *_fronts(shown, on, step_mm), *_drawers(fitted, on, step_mm)]
    level = [on.y(at) for one in fitted.drawers for at in (one.low_mm, one.line_mm, one.high_mm)]
    for front in shown:
        marks += _name(front, on, step_mm, level)
    marks += upright_dimension(edges, [(one, on.y(one)) for one, _ in edges.told], on.x(0.0) - GAP_MM, True, *bounds)
    words = ["At the left: edges of the fronts over the carcass's underside."]
    if lines.told:
        ats = [(one, on.y(one)) for one, _ in lines.told]
        marks += upright_dimension(lines, ats, on.x(box.width_mm) + GAP_MM, False, *bounds)
        words.append("At the right: runner lines over the sides' lower edge. Dashed: drawers and runners behind.")
    below, end_mm = paragraph(MARGIN_MM, bounds[1] + 1.5, " ".join(words), width_mm - 2 * MARGIN_MM)
    title = f"{fitted.name} from the front"
    return Drawing(title, _alt(fitted, shown, step_mm), width_mm, end_mm + 1.0, (*marks, *below))


def _told(heights_mm: Sequence[float], from_mm: float, step_mm: float) -> Places:
    """Heights with their figures, each figure once."""
    texts = {text_mm(one - from_mm, step_mm): one for one in sorted(heights_mm)}
    return Places(tuple((one, text) for text, one in texts.items()), (), None)


def _boards(fitted: FittedOut, on: _OnPaper) -> list[Mark]:
    box = fitted.box
    width_mm, foot_mm, board_mm = box.width_mm, box.side_foot_mm, box.board_mm
    bottom_mm = board_mm if foot_mm == 0 else 0.0
    return [
        on.box(0.0, 0.0, width_mm, box.height_mm, "item"),
        on.box(0.0, foot_mm, board_mm, box.height_mm, "part"),
        on.box(width_mm - board_mm, foot_mm, width_mm, box.height_mm, "part"),
        on.box(bottom_mm, 0.0, width_mm - bottom_mm, box.floor_mm, "part"),
        on.box(board_mm, box.roof_mm, width_mm - board_mm, box.height_mm, "part"),
        *(on.box(at_mm, box.floor_mm, at_mm + box.divider_mm, box.roof_mm, "part") for at_mm in box.dividers_mm),
    ]


def _fronts(shown: Sequence[PlacedFront], on: _OnPaper, step_mm: float) -> list[Mark]:
    """Outlines; lines of a door meet at the middle of the edge that it hangs on."""
    marks: list[Mark] = []
    for front in shown:
        right_mm, top_mm = front.left_mm + front.width_mm, front.foot_mm + front.height_mm
        parts = [on.box(front.left_mm, front.foot_mm, right_mm, top_mm, "line")]
        if front.front is FrontIs.DOOR and front.hung in (HungOn.LEFT, HungOn.RIGHT):
            hinge_mm, free_mm = (front.left_mm, right_mm) if front.hung is HungOn.LEFT else (right_mm, front.left_mm)
            corners = ((free_mm, front.foot_mm), (hinge_mm, (front.foot_mm + top_mm) / 2), (free_mm, top_mm))
            parts.append(Polyline(tuple((on.x(at_mm), on.y(over_mm)) for at_mm, over_mm in corners), "hair"))
        marks.append(Group(tuple(parts), "front", (("front", front.id),), f"{front.name}, {_size(front, step_mm)}"))
    return marks


def _drawers(fitted: FittedOut, on: _OnPaper, step_mm: float) -> list[Mark]:
    marks: list[Mark] = []
    for one in fitted.drawers:
        line = text_mm(one.line_mm - fitted.box.side_foot_mm, step_mm)
        parts = (
            on.box(one.left_mm, one.low_mm, one.right_mm, one.high_mm, "bay"),
            Line(on.x(one.left_mm), on.y(one.line_mm), on.x(one.right_mm), on.y(one.line_mm), "anchor-line"),
        )
        marks.append(Group(parts, "drawer", (("drawer", one.id),), f"{one.name}, runner line {line}"))
    return marks


def _name(front: PlacedFront, on: _OnPaper, step_mm: float, level: Sequence[float]) -> list[Mark]:
    """Name and size on the front, as far as they have room: in its middle, or where no `level` line runs through."""
    room_mm, high_mm = front.width_mm * on.scale - 1.6, front.height_mm * on.scale - 1.0
    most = int(high_mm / NAME_LINE_MM)
    if most < 1:
        return []
    size = _size(front, step_mm)
    lines = [(one, True) for one in lines_at_most(front.name, max(most - 1, 1), room_mm, SMALL_MM, True)]
    if len(lines) < most and text_width_mm(size, SMALL_MM) <= room_mm:
        lines.append((size, False))
    lines = [one for one in lines if text_width_mm(one[0], SMALL_MM, one[1]) <= room_mm]
    x_mm, top_mm = on.x(front.left_mm + front.width_mm / 2), on.y(front.foot_mm + front.height_mm) + 0.5
    spare_mm = high_mm - len(lines) * NAME_LINE_MM

    def struck(from_mm: float) -> tuple[int, float]:
        """How many lines run through words that begin there, and how far that is from the middle."""
        through = sum(from_mm + 0.2 < y_mm < from_mm + len(lines) * NAME_LINE_MM for y_mm in level)
        return through, abs(from_mm - top_mm - spare_mm / 2)

    from_mm = min((top_mm + spare_mm * step / 24 for step in range(25)), key=struck)
    return [
        Text(x_mm, from_mm + NAME_LINE_MM * (n + 0.82), text, SMALL_MM, "middle", bold, halo=True)
        for n, (text, bold) in enumerate(lines)
    ]


def _size(front: PlacedFront, step_mm: float) -> str:
    return f"{text_mm(front.width_mm, step_mm)} × {text_mm(front.height_mm, step_mm)}"


def _alt(fitted: FittedOut, shown: Sequence[PlacedFront], step_mm: float) -> str:
    box = fitted.box
    size = f"{text_mm(box.width_mm, step_mm)} wide and {text_mm(box.height_mm, step_mm)} high"
    words = f"{fitted.name} from the front, {size}."
    if shown:
        words += " Fronts: " + listed([
            f"{one.name} {_size(one, step_mm)}, {text_mm(one.foot_mm, step_mm)} up" for one in shown
        ]) + "."  # fmt: skip
    if fitted.drawers:
        words += " Runner lines over the sides' lower edge: " + listed([
            f"{one.name} {text_mm(one.line_mm - box.side_foot_mm, step_mm)}" for one in fitted.drawers
        ]) + "."  # fmt: skip
    return words


def carcass_drawings(job: Job, fitted: FittedOut, width_mm: float = PHONE_WIDTH_MM) -> dict[str, Drawing]:
    """`front`: the carcass from the front; `panel-PANEL` and, where both faces are worked, `panel-PANEL-other`."""
    step_mm = job.holes.shop_mm
    found = {"front": carcass_front(fitted, step_mm, width_mm)}
    for view in (view for panel in fitted.panels for view in views(panel)):
        found[view.field] = panel_drawing(view, step_mm, width_mm)
    return found
