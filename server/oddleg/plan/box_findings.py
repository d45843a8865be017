"""What is wrong with a carcass's box itself: boards, groove and recess that leave no inside, compartments that do not
fill it. All mm."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import BackIs, FittingOut, Job, TopIs

from .carcass_box import CarcassBox
from .figure import figure, text_mm
from .finding import Finding, Severity
from .sightings import counted, listed

SAME_MM = 1e-6


def box_findings(job: Job, box: CarcassBox) -> Iterator[Finding]:
    """Whether there is an inside at all, and whether the compartments fill it to 0.1."""
    made = box.item.box
    inside_mm, high_mm = box.width_mm - 2 * box.board_mm, box.roof_mm - box.floor_mm

    def shown(value_mm: float) -> str:
        return text_mm(value_mm, job.holes.shop_mm)

    def stop(rule: str, wrong: str, cure: str, by_mm: float) -> Finding:
        amount = figure(by_mm, job.holes.shop_mm)
        return Finding(rule, Severity.STOP, box.item.name, wrong, cure, "", amount, (box.item.id,))

    if inside_mm <= SAME_MM:
        yield stop(
            "box.no_inside_width",
            f"Two sides of {shown(box.board_mm)} leave no inside in a width of {shown(box.width_mm)}.",
            "Check the width and the board.",
            -inside_mm,
        )
    else:
        yield from _compartments(job, box, inside_mm)
    if high_mm <= SAME_MM:
        yield stop(
            "box.no_inside_height",
            f"Bottom and top of {shown(box.board_mm)} leave no inside in a height of {shown(box.height_mm)}.",
            "Check the height and the board.",
            -high_mm,
        )
    if box.inside_depth_mm <= SAME_MM:
        recess = f" and a recess of {shown(made.back_recess_mm)}" if made.back is not BackIs.ON else ""
        yield stop(
            "box.no_inside_depth",
            f"A back of {shown(made.back_mm)}{recess} leave no inside in a depth of {shown(box.depth_mm)}.",
            "Check the depth, the back and its recess.",
            -box.inside_depth_mm,
        )
    elif made.top is TopIs.RAILS and 2 * made.rail_mm > box.inside_depth_mm + SAME_MM:
        yield stop(
            "box.rails_meet",
            f"Two rails of {shown(made.rail_mm)} do not go into an inside depth of {shown(box.inside_depth_mm)}.",
            "Make the rails narrower, or choose a panel for the top.",
            2 * made.rail_mm - box.inside_depth_mm,
        )
    if made.back is BackIs.GROOVE and made.groove_mm >= box.board_mm - SAME_MM:
        yield stop(
            "box.groove_through",
            f"A groove {shown(made.groove_mm)} deep goes right through boards of {shown(box.board_mm)}.",
            "Make the groove less deep than the board is thick; half of it or less is usual.",
            made.groove_mm - box.board_mm,
        )


def _compartments(job: Job, box: CarcassBox, inside_mm: float) -> Iterator[Finding]:
    fitted = box.item.fitting_out or FittingOut()
    if not fitted.compartments:
        return
    step_mm = job.holes.shop_mm
    dividers_mm = box.divider_mm * (len(fitted.compartments) - 1)
    taken_mm = sum(one.width_mm or 0.0 for one in fitted.compartments)
    over_mm = taken_mm + dividers_mm - inside_mm
    sharing = [one for one in fitted.compartments if one.width_mm is None]
    wrong = [one.name for one in fitted.compartments if one.width_mm is not None and one.width_mm <= SAME_MM]
    with_dividers = (
        f" and {counted(len(fitted.compartments) - 1, 'divider')} of {text_mm(box.divider_mm, step_mm)}"
        if dividers_mm
        else ""
    )
    told = f"The inside is {text_mm(inside_mm, step_mm)} wide; compartments of {text_mm(taken_mm, step_mm)} in all"
    rule = wrong_words = cure = ""
    if wrong:
        rule, wrong_words = "box.compartment_width", f"{listed(wrong)} has no width above nought."
        cure = "Give it a width, or none: then it takes an equal share of what is left."
    elif sharing and over_mm >= -SAME_MM:
        rule = "box.compartments_too_wide"
        wrong_words = f"{told}{with_dividers} leave nothing for {listed([one.name for one in sharing])}."
        cure = "Make one of the others narrower."
    elif not sharing and abs(over_mm) > job.holes.shop_mm + SAME_MM:
        rule = "box.compartments_too_wide" if over_mm > 0 else "box.compartments_do_not_fill"
        by = text_mm(abs(over_mm), step_mm)
        wrong_words = f"{told}{with_dividers} are {by} {'too much' if over_mm > 0 else 'too little'}."
        cure = "Leave the width of one out: then it takes what is left."
    if rule:
        amount = None if wrong else figure(abs(over_mm), step_mm)
        yield Finding(rule, Severity.STOP, box.item.name, wrong_words, cure, "", amount, (box.item.id,))
