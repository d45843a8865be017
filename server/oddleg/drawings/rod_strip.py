"""The rod at a tenth of its size, for the phone: one stretch below another, each mark with its order and figure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from oddleg.plan.set_out import RodMark
from oddleg.plan.setting_out import RunSetOut

from .lettering import SMALL_MM, text_width_mm
from .primitives import Circle, Drawing, Group, Line, Mark, Polygon, Text, rectangle
from .run_elevation import anchors_mm, rod_ends, stretch_words
from .run_items import item_tags, on_stretch, tag_list, tag_size_mm
from .running import Stretch, stretches
from .stacked import Stack
from .staircase import staircase

SCALE = 0.1
MARGIN_MM = 5.0
FIGURE_MM = 3.8
BALL_MM = 2.6
ORDER_MM = (3.4, SMALL_MM)
ROW_MM = 5.6
DROP_MM = 2.4
HALF_MM = 7.0
BETWEEN_MM = 4.0
MOST = 24


def strip_drawing(set_out: RunSetOut, numbers: Mapping[str, int], width_mm: float) -> Drawing:
    """Every mark of the rod, the row on the wall above the strip and what stands below it. A number in a circle is its
    place in the order of marking, on a full one where it is marked already."""
    rod = set_out.rod
    title = f"Rod, {set_out.run.name}"
    words = tag_list(rod.placed, tags := item_tags(rod.placed, numbers))
    edges = [x for one in rod.placed if one.stands for x in (one.left_mm, one.right_mm)]
    paper = (MARGIN_MM, width_mm - MARGIN_MM - max([_label_mm(one) for one in rod.marks], default=0.0))
    crowds = [([one.x_mm for one in rod.marks if one.row == row], MOST) for row in ("base", "wall")]
    drawn = stretches(rod_ends(rod), edges, crowds, paper, (SCALE, SCALE))
    stack = Stack(width_mm, MARGIN_MM)
    for number, stretch in enumerate(drawn, 1):
        head = f"{number} of {len(drawn)}: {stretch_words(rod, stretch)}" if len(drawn) > 1 else ""

        def piece(y_mm: float, stretch: Stretch = stretch, head: str = head) -> tuple[list[Mark], float]:
            marks, y_mm = stack.line(y_mm, head)
            more, y_mm = _stretch(set_out, stretch, tags, y_mm, width_mm)
            return [*marks, *more], y_mm

        stack.put(piece, BETWEEN_MM)
    walled = any(one.row == "wall" for one in rod.marks)
    key = "A tenth of full size. Figures from the left; in circles the order of marking, full where marked."
    if walled:
        key += " Over the strip: the row on the wall."
    anchor = f"Anchor (arrow): {rod.anchor_words}" if rod.marks else "This run has no marks yet."
    stack.words([key, anchor, words])
    (drawing,) = stack.drawings(title, _alt(set_out, words))
    return drawing


def _label_mm(mark: RodMark) -> float:
    """From the leader: the circle, and the figure to its right."""
    ball_mm = 2 * BALL_MM + 0.4 if mark.order else 0.0
    return ball_mm + 0.8 + text_width_mm(mark.from_left.text, FIGURE_MM, bold=True)


def _stretch(
    set_out: RunSetOut, stretch: Stretch, tags: Mapping[str, str], y_mm: float, width_mm: float
) -> tuple[list[Mark], float]:
    rod = set_out.rod
    rows = {
        row: sorted((one for one in rod.marks if one.row == row and stretch.holds(one.x_mm)), key=lambda one: one.x_mm)
        for row in ("wall", "base")
    }
    over, over_mm = _labels(rows["wall"], stretch, width_mm)
    top_mm = y_mm + over_mm + 0.8
    hung = any(not one.stands for one in rod.placed)
    middle_mm = top_mm + (HALF_MM if hung else 0.0)
    bottom_mm = middle_mm + HALF_MM
    under, under_mm = _labels(rows["base"], stretch, width_mm)
    marks: list[Mark] = [rectangle(stretch.paper_mm, top_mm, stretch.right_mm, bottom_mm, "item")]
    marks.append(Line(stretch.paper_mm, middle_mm, stretch.right_mm, middle_mm, "hair"))
    for one, from_mm, to_mm in on_stretch(rod.placed, stretch):
        size_mm = tag_size_mm(tags[one.item.id], (to_mm - from_mm) * stretch.scale)
        if size_mm is not None:
            y = (middle_mm + bottom_mm) / 2 if one.stands else (top_mm + middle_mm) / 2
            x = stretch.at((from_mm + to_mm) / 2)
            marks.append(Text(x, y + size_mm / 3, tags[one.item.id], size_mm, "middle", bold=True))
    for anchor_mm in anchors_mm(rod) if rod.marks else ():
        if stretch.holds(anchor_mm):
            x_mm = stretch.at(anchor_mm)
            marks.append(Line(x_mm, top_mm, x_mm, bottom_mm, "anchor-line"))
            marks.append(Polygon(((x_mm - 1.6, top_mm), (x_mm + 1.6, top_mm), (x_mm, top_mm + 2.8)), "accent"))
    for mark, x_mm, row, css in over:
        marks.append(_mark(mark, x_mm, (middle_mm, top_mm), top_mm - DROP_MM - ROW_MM * row - BALL_MM, css))
    for mark, x_mm, row, css in under:
        marks.append(_mark(mark, x_mm, (middle_mm, bottom_mm), bottom_mm + DROP_MM + ROW_MM * row + BALL_MM, css))
    return marks, bottom_mm + under_mm


def _labels(
    marks: Sequence[RodMark], stretch: Stretch, width_mm: float
) -> tuple[list[tuple[RodMark, float, int, str]], float]:
    """Each mark with its place on paper and the row of its label, and how high the rows are together."""
    if not marks:
        return [], 0.0
    places = [stretch.at(one.x_mm) for one in marks]
    steps = staircase(places, [_label_mm(one) for one in marks], 0.8, 0.0, width_mm)
    assert steps is not None, "the margin on the right holds the widest label"
    looks = ["accent-line" if one.kind in ("zero", "end", "anchor") else "line" for one in marks]
    rows = max(step.row for step in steps)
    found = [(one, x, step.row, look) for one, x, step, look in zip(marks, places, steps, looks, strict=True)]
    return found, DROP_MM + ROW_MM * rows + 2 * BALL_MM


def _mark(mark: RodMark, x_mm: float, across: tuple[float, float], ball_mm: float, css: str) -> Mark:
    """The line over its half of the strip, the leader, and the order of marking beside the figure."""
    parts: list[Mark] = [
        Line(x_mm, across[0], x_mm, across[1], css),
        Line(x_mm, across[1], x_mm, ball_mm, "hair"),
    ]
    at_mm = x_mm + 0.8
    if mark.order:
        done, order, middle_mm = mark.marked is not None, str(mark.order), x_mm + 0.4 + BALL_MM
        size_mm = next((size for size in ORDER_MM if text_width_mm(order, size, True) <= 2 * BALL_MM - 0.8), SMALL_MM)
        parts.append(Circle(middle_mm, ball_mm, BALL_MM, "spot-read" if done else "spot"))
        css = "paper" if done else "ink"
        parts.append(Text(middle_mm, ball_mm + size_mm / 3, order, size_mm, "middle", bold=True, css=css))
        at_mm = middle_mm + BALL_MM + 0.8
    parts.append(Text(at_mm, ball_mm + FIGURE_MM / 3, mark.from_left.text, FIGURE_MM, bold=True))
    title = f"{mark.order or 'not marked'}: {mark.name}, {mark.from_left.text}"
    return Group(tuple(parts), "mark", (("mark", mark.id),), title)


def _alt(set_out: RunSetOut, tags: str) -> str:
    rod = set_out.rod
    words = [f"Rod of {set_out.run.name} at a tenth: {tags or 'no items yet'}.", rod.anchor_words]
    for one in sorted(rod.marks, key=lambda one: (one.order == 0, one.order)):
        before = f"{one.order}. " if one.order else ""
        words.append(f"{before}{one.name} at {one.from_left.text}.")
    return " ".join(words)
