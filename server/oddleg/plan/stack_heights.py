"""How high the fronts of one stack are: fixed heights, shares of what is left, the rest. Carcass axes, mm."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from oddleg.job import FrontFit, Job, Stack, StackMember

from .carcass_box import CarcassBox
from .figure import figure, text_mm
from .finding import Finding, Severity
from .sightings import counted, listed

# Heights sum to the opening to this; shop work holds no less.
EXACT_MM = 0.1
SAME_MM = 1e-6


@dataclass(frozen=True)
class StackHeights:
    """`feet_mm`, `heights_mm`: of each member's lower edge and of itself, from the top down, as told. `opening_mm`:
    what fronts and gaps have to fill, `sum_mm` what they come to. `end_mm`: the gap kept at either end of it."""

    members: tuple[StackMember, ...]
    feet_mm: tuple[float, ...]
    heights_mm: tuple[float, ...]
    opening_mm: float
    sum_mm: float
    foot_mm: float
    end_mm: float


def stack_heights(box: CarcassBox, stack: Stack, fit: FrontFit) -> StackHeights:
    """An overlay stack fills the outside height, an inset or framed one the inside height with a gap at both ends, each
    less what is left at top and bottom. A member with neither height nor share takes one share. A height of nought or
    less is given back as it comes out; `height_findings` tells."""
    overlay = fit is FrontFit.OVERLAY
    low_mm, high_mm = (0.0, box.height_mm) if overlay else (box.floor_mm, box.roof_mm)
    low_mm, high_mm = low_mm + stack.bottom_mm, high_mm - stack.top_mm
    end_mm = 0.0 if overlay else stack.gap_mm
    gaps_mm = stack.gap_mm * (len(stack.members) - 1) + 2 * end_mm
    left_mm = high_mm - low_mm - gaps_mm - sum(one.height_mm or 0.0 for one in stack.members)
    shares = sum(_share(one) for one in stack.members)
    heights = tuple(left_mm * _share(one) / shares if one.height_mm is None else one.height_mm for one in stack.members)
    return placed(stack, heights, high_mm - low_mm, low_mm, end_mm)


def placed(
    stack: Stack, heights_mm: tuple[float, ...], opening_mm: float, foot_mm: float, end_mm: float
) -> StackHeights:
    """The fronts of these heights one below the other, from the opening's top."""
    at_mm, feet = foot_mm + opening_mm - end_mm, []
    for height_mm in heights_mm:
        at_mm -= height_mm
        feet.append(at_mm)
        at_mm -= stack.gap_mm
    gaps_mm = stack.gap_mm * (len(heights_mm) - 1) + 2 * end_mm
    sum_mm = sum(heights_mm) + gaps_mm
    return StackHeights(stack.members, tuple(feet), heights_mm, opening_mm, sum_mm, foot_mm, end_mm)


def _share(member: StackMember) -> float:
    if member.height_mm is not None:
        return 0.0
    return 1.0 if member.share is None else member.share


def height_findings(job: Job, box: CarcassBox, place: str, found: StackHeights) -> Iterator[Finding]:
    step_mm = job.holes.shop_mm
    concerns = (box.item.id,)
    over_mm = found.sum_mm - found.opening_mm
    takers = [
        one for one, mm in zip(found.members, found.heights_mm, strict=True) if one.height_mm is None and mm <= SAME_MM
    ]
    wrong = [one for one in found.members if one.height_mm is not None and one.height_mm <= SAME_MM]
    if takers:
        short_mm = -min(mm for one, mm in zip(found.members, found.heights_mm, strict=True) if one in takers)
        names = listed([one.name for one in takers])
        yield Finding(
            "stack.nothing_left",
            Severity.STOP,
            place,
            f"Nothing is left for {names}: fixed heights and gaps take up the {text_mm(found.opening_mm, step_mm)} "
            "that there is.",
            "Make a fixed front or a gap smaller, or leave a front out.",
            "fronts and gaps sum to the opening",
            figure(short_mm, step_mm),
            concerns,
        )
    if wrong:
        yield Finding(
            "stack.no_height",
            Severity.STOP,
            place,
            f"{listed([one.name for one in wrong])} has no height above nought.",
            "Give it a height, or leave the height out so that it takes what is left.",
            "",
            None,
            concerns,
        )
    if abs(over_mm) > EXACT_MM + SAME_MM and not takers:
        gaps = len(found.members) - 1 + (2 if found.end_mm > 0 else 0)
        way = "smaller" if over_mm > 0 else "larger"
        each = f", or all {len(found.members)} by {text_mm(abs(over_mm) / len(found.members), step_mm)} each"
        yield Finding(
            "stack.does_not_fill",
            Severity.STOP,
            place,
            f"Fronts and {counted(gaps, 'gap')} come to {text_mm(found.sum_mm, step_mm)}; there are "
            f"{text_mm(found.opening_mm, step_mm)} to fill: {text_mm(abs(over_mm), step_mm)} too "
            f"{'much' if over_mm > 0 else 'little'}.",
            f"Make one front {text_mm(abs(over_mm), step_mm)} {way}{each if len(found.members) > 1 else ''}; or leave "
            "one height out, and that front takes what is left.",
            "fronts and gaps sum to the opening, to 0.1",
            figure(abs(over_mm), step_mm),
            concerns,
        )
