"""A rebated board in section: both ends that are rebated, the middle broken out, with thickness, depth and lip."""

from __future__ import annotations

from oddleg.job import RebateFace
from oddleg.plan.figure import text_mm
from oddleg.plan.fitted_out import DrawerPart, PartIs, Rebate

from .lettering import SMALL_MM, paragraph
from .primitives import Drawing, Line, Mark, Polygon, Text

MARGIN_MM = 3.0
# How much larger than it is a board is drawn at most; a thick one smaller, so that it stays this high on paper.
SCALE, GREATEST_MM = 1.4, 30.0
FIGURE_MM = 3.8
# The pairs of edges that one section goes across, with what its two ends are called.
ACROSS = {
    PartIs.BASE: (("left", "right"), ("front", "back")),
    PartIs.BACK: (("left", "right"), ("bottom", "top")),
    PartIs.SPACER: (),
}
UP_WORDS = {PartIs.BASE: ("upper face", "underside"), PartIs.BACK: ("face that looks into the drawer", "rear face")}
NAMES = {PartIs.BASE: "Base", PartIs.BACK: "Back", PartIs.SPACER: "Spacer"}


def rebate_drawing(part: DrawerPart, rebate: Rebate, width_mm: float) -> Drawing:
    """One section for each pair of edges that has a rebate. Figures are the same on either end, so they stand once."""
    title = f"{NAMES[part.part]} of {_shown(part.thickness_mm)} board, in section"
    marks, y_mm = paragraph(MARGIN_MM, 1.0, title, width_mm - 2 * MARGIN_MM, bold=True)
    sections = [pair for pair in ACROSS[part.part] if set(pair) & set(rebate.edges)]
    for pair in sections:
        more, y_mm = _section(part, rebate, pair, y_mm + 2.0, width_mm)
        marks += more
    more, y_mm = paragraph(MARGIN_MM, y_mm + 1.0, f"{_capital(rebate.words)}.", width_mm - 2 * MARGIN_MM)
    return Drawing(title, f"{title}. {_capital(rebate.words)}.", width_mm, y_mm + 1.5, (*marks, *more))


def _section(
    part: DrawerPart, rebate: Rebate, pair: tuple[str, str], top_mm: float, width_mm: float
) -> tuple[list[Mark], float]:
    """The board lies flat, its upper face (of a back: the one that looks into the drawer) up."""
    half_mm = width_mm / 2 - MARGIN_MM - 3.0
    scale = min(SCALE, GREATEST_MM / part.thickness_mm, (half_mm - 14.0) / max(rebate.lip_mm, 1.0))
    thick_mm, deep_mm, lip_mm = (scale * one for one in (part.thickness_mm, rebate.depth_mm, rebate.lip_mm))
    from_top = rebate.face is RebateFace.ABOVE
    over, under = UP_WORDS[part.part]
    upper_mm = top_mm + SMALL_MM * 2.6 + FIGURE_MM
    lower_mm = upper_mm + thick_mm
    cut_mm = upper_mm + deep_mm if from_top else lower_mm - deep_mm
    marks: list[Mark] = [Text(width_mm / 2, upper_mm - FIGURE_MM - 1.6, over, SMALL_MM, "middle")]
    for edge, sign, end_mm in ((pair[0], 1, MARGIN_MM + 10.0), (pair[1], -1, width_mm - MARGIN_MM - 10.0)):
        break_mm = width_mm / 2 - sign * 2.0
        rebated = edge in rebate.edges
        step_mm = end_mm + sign * lip_mm if rebated else end_mm
        if not rebated:
            outline = ((end_mm, upper_mm), (break_mm, upper_mm), (break_mm, lower_mm), (end_mm, lower_mm))
        elif from_top:
            outline = (
                (end_mm, cut_mm), (step_mm, cut_mm), (step_mm, upper_mm), (break_mm, upper_mm),
                (break_mm, lower_mm), (end_mm, lower_mm),
            )  # fmt: skip
        else:
            outline = (
                (end_mm, upper_mm), (break_mm, upper_mm), (break_mm, lower_mm), (step_mm, lower_mm),
                (step_mm, cut_mm), (end_mm, cut_mm),
            )  # fmt: skip
        marks += [Polygon(outline, "part"), Polygon(outline, "line")]
        marks.append(Line(break_mm, upper_mm - 2.0, break_mm, lower_mm + 2.0, "dashed"))
        anchor = "start" if sign > 0 else "end"
        names_mm = lower_mm + FIGURE_MM + SMALL_MM * 1.9
        marks.append(Text(end_mm - sign * 9.0, names_mm, f"{edge} edge", SMALL_MM, anchor, bold=True))
        if rebated:
            line_mm = upper_mm - 1.4 if from_top else lower_mm + 1.4
            figure_mm = line_mm - 1.0 if from_top else line_mm + 0.8 + FIGURE_MM * 0.7
            lip = Text((end_mm + step_mm) / 2, figure_mm, _shown(rebate.lip_mm), FIGURE_MM, "middle", True, "accent")
            marks += [
                Line(end_mm, cut_mm, end_mm, line_mm, "hair"),
                Line(end_mm, line_mm, step_mm, line_mm, "accent-line"),
                lip,
            ]
    thick_x = width_mm / 2 + 7.0
    marks += [
        Line(thick_x, upper_mm, thick_x, lower_mm, "accent-line"),
        Text(
            thick_x + 1.5, (upper_mm + lower_mm) / 2 + 1.3, _shown(part.thickness_mm), FIGURE_MM, bold=True, halo=True
        ),
        Text(width_mm / 2, lower_mm + FIGURE_MM + SMALL_MM * 1.9, under, SMALL_MM, "middle"),
    ]
    left_rebated = pair[0] in rebate.edges
    left_mm = part.thickness_mm - rebate.depth_mm
    x_mm = MARGIN_MM + 10.0 if left_rebated else width_mm - MARGIN_MM - 10.0
    away = -1 if left_rebated else 1
    middle_mm = (cut_mm + lower_mm) / 2 if from_top else (upper_mm + cut_mm) / 2
    anchor = "end" if left_rebated else "start"
    marks.append(Text(x_mm + away * 1.2, middle_mm + 1.3, _shown(left_mm), FIGURE_MM, anchor, bold=True))
    return marks, lower_mm + FIGURE_MM + SMALL_MM * 2.6


def _shown(value_mm: float) -> str:
    return text_mm(value_mm, 0.1)


def _capital(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"
