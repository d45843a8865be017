"""The triangle of a corner, its walls drawn further out of square than they are, and what they do at the far ends."""

from __future__ import annotations

import math

from oddleg.plan.corner import Corner

from .lettering import Page, paragraph
from .primitives import Circle, Line, Mark, Polygon

MARGIN_MM = 3.0
WALL_MM = 3.0
# How far down the paper the right-hand leg may come, and how far out of square a wall's end may stand on it.
DOWN_MM, OUT_MM = 50.0, 8.0
FACTORS = (1, 2, 5, 10, 20, 50, 100, 200)
SKETCH_LEGS_MM = (4000.0, 3000.0)


def triangle_marks(corner: Corner, top_mm: float, width_mm: float) -> tuple[list[Mark], float]:
    """Marks, and the y below them. Both legs to scale; the right-hand wall turned by what the corner is off square,
    `factor` times; where it is not measured, which three sides to measure."""
    head = "The corner as measured" if corner.angle is not None else "Three sides to measure"
    marks, y_mm = paragraph(MARGIN_MM, top_mm, head, width_mm - 2 * MARGIN_MM, bold=True)
    known = corner.angle is not None and len(corner.sides) == 3
    legs = tuple(side.mm for _, side in corner.sides[:2]) if known else SKETCH_LEGS_MM
    off_deg = corner.angle.mm - 90.0 if known and corner.angle is not None else 0.0
    room_mm = width_mm - 2 * MARGIN_MM - WALL_MM - OUT_MM
    scale = min(room_mm / legs[0], DOWN_MM / legs[1])
    # Out of square for each mm along the right-hand wall, away from the room.
    turn = math.sin(math.radians(off_deg))
    factor = next((one for one in reversed(FACTORS) if abs(turn) * one * legs[1] * scale <= OUT_MM), 1)
    corner_x, corner_y = width_mm - MARGIN_MM - WALL_MM - OUT_MM, y_mm + WALL_MM + 4.0
    across_mm, down_mm = legs[0] * scale, legs[1] * scale
    mark_a = (corner_x - across_mm, corner_y)
    mark_b = (corner_x + turn * factor * down_mm, corner_y + down_mm)
    bottom_mm = mark_b[1] + 5.0
    page = Page(width_mm, bottom_mm)
    behind = (
        (mark_a[0], corner_y - WALL_MM),
        (corner_x + WALL_MM, corner_y - WALL_MM),
        (mark_b[0] + WALL_MM, mark_b[1]),
    )
    marks += [
        Polygon((mark_a, (corner_x, corner_y), mark_b, behind[2], behind[1], behind[0]), "tint"),
        Line(corner_x, corner_y, corner_x, corner_y + down_mm, "dashed"),
        Line(*mark_a, corner_x, corner_y, "wall"),
        Line(corner_x, corner_y, *mark_b, "wall"),
        Line(*mark_a, *mark_b, "accent-line"),
        Circle(*mark_a, 1.0, "spot-read"),
        Circle(*mark_b, 1.0, "spot-read"),
    ]
    labels = [side.text for _, side in corner.sides] if known else ["1", "2", "3"]
    spots = (
        ((mark_a[0] + corner_x) / 2, corner_y),
        ((corner_x + mark_b[0]) / 2, (corner_y + mark_b[1]) / 2),
        ((mark_a[0] + mark_b[0]) / 2, (mark_a[1] + mark_b[1]) / 2),
    )
    for (x, y), words in zip(spots, labels, strict=True):
        marks += page.label(x, y, 0.8, [(words, True)], 4.2)
    if known and corner.angle is not None:
        marks += page.label(corner_x, corner_y, 5.0, [(f"{corner.angle.text}°", True)], 4.2, "accent")
    y_mm = bottom_mm
    for words in _words(corner, known, factor):
        more, y_mm = paragraph(MARGIN_MM, y_mm, words, width_mm - 2 * MARGIN_MM)
        marks += more
        y_mm += 0.6
    return marks, y_mm


def _words(corner: Corner, known: bool, factor: int) -> list[str]:
    left, right = corner.left_run.name, corner.right_run.name
    if not known:
        return [
            f"1: along the wall of {left} from where the walls meet; 2: along the wall of {right}; 3: across between "
            "the two marks. The longest legs that fit, all at one height.",
        ]
    lines = [
        f"At {one.length.text} along {one.name}: {one.deviation.text}, give or take {one.give_or_take.text}."
        for one in corner.far_ends
    ]
    if lines:
        lines.append("Out into the room is +. Dashed: square to the wall at the top.")
    if factor > 1:
        lines.append(f"Drawn {factor} times further out of square than it is.")
    return lines
