"""Stacks of fronts of one carcass, the drawers behind them and within, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from oddleg.job import Front, FrontIs, HungOn, Job, OpenUnit, Stack

from .carcass_box import CarcassBox, Space
from .drawer_boxes import front_drawer, inner_drawers
from .figure import text_mm
from .finding import Finding, Severity
from .fitted_out import DrawerBox, PlacedFront, StackFilled
from .front_places import edges_mm, front_of_stack, leaves, stands_mm, weight_kg
from .hardware import Hardware
from .hinge_places import hinge_findings, hung
from .sightings import counted
from .stack_heights import StackHeights, height_findings, stack_heights


@dataclass(frozen=True)
class FilledFronts:
    """`stacks`, `fronts` from left to right and from the top down; `drawers`: those of a stack, then inner ones."""

    stacks: tuple[StackFilled, ...] = ()
    fronts: tuple[PlacedFront, ...] = ()
    drawers: tuple[DrawerBox, ...] = ()
    findings: tuple[Finding, ...] = ()


def filled(job: Job, box: CarcassBox, known: Hardware) -> FilledFronts:
    """What every compartment's stack comes to. A front that comes out without a width or height is left out, and a
    finding tells; an open unit has no fronts."""
    stacks: list[StackFilled] = []
    fronts: list[PlacedFront] = []
    drawers: list[DrawerBox] = []
    findings: list[Finding] = []
    front = front_of_stack(box)
    for space in box.spaces:
        stack = space.compartment.stack
        here: list[PlacedFront] = []
        if stack is not None and isinstance(box.item, OpenUnit):
            findings.append(_open_unit(box, space))
        elif stack is not None and stack.members:
            heights = stack_heights(box, stack, front.fit)
            findings += height_findings(job, box, _place(box, space), stack, heights)
            here = list(_fronts(box, space, stack, front, heights, known))
            stacks.append(_filled(job, space, stack, heights))
        for one in here:
            if one.hung in (HungOn.LEFT, HungOn.RIGHT):
                given = next(each.cups_mm for each in stack.members if each.id == one.member) if stack else ()
                findings += hinge_findings(job, box, known, one, given)
        fronts += here
        made = [drawer for one in here if (drawer := front_drawer(space, known, one)) is not None]
        drawers += [*made, *inner_drawers(box, space, known)]
    return FilledFronts(tuple(stacks), tuple(fronts), tuple(drawers), tuple(findings))


def _fronts(
    box: CarcassBox, space: Space, stack: Stack, front: Front, heights: StackHeights, known: Hardware
) -> Iterator[PlacedFront]:
    left_mm, right_mm = edges_mm(box, space, stack, front.fit)
    for member, foot_mm, height_mm in zip(heights.members, heights.feet_mm, heights.heights_mm, strict=True):
        for end, side, from_mm, to_mm in leaves(member, stack, left_mm, right_mm):
            if min(height_mm, to_mm - from_mm) <= 0:
                continue
            no_board = member.front is FrontIs.SPACE
            made = PlacedFront(
                id=f"{member.id}-{end}" if end else member.id,
                member=member.id,
                name=f"{member.name}, {end} leaf" if end else member.name,
                compartment=space.compartment.id,
                front=member.front,
                left_mm=from_mm,
                foot_mm=foot_mm,
                width_mm=to_mm - from_mm,
                height_mm=height_mm,
                thickness_mm=0.0 if no_board else front.thickness_mm,
                stands_mm=stands_mm(front),
                hung=side,
                runner=member.runner,
                hinge=member.hinge,
                plate=member.plate,
                pull_out=member.pull_out,
                weight_kg=0.0 if no_board else weight_kg(front, to_mm - from_mm, height_mm),
            )
            yield made if side is None else hung(box, space, known, made, member.cups_mm)


def _filled(job: Job, space: Space, stack: Stack, heights: StackHeights) -> StackFilled:
    step_mm = job.holes.shop_mm
    told = " + ".join(text_mm(mm, step_mm) for mm in heights.heights_mm)
    gaps = len(heights.members) - 1 + (2 if heights.end_mm > 0 else 0)
    with_gaps = f", and {counted(gaps, 'gap')} of {text_mm(stack.gap_mm, step_mm)}" if gaps else ""
    words = f"{space.compartment.name}, from the top down: {told}{with_gaps}"
    return StackFilled(space.compartment.id, heights.opening_mm, heights.sum_mm, words)


def _place(box: CarcassBox, space: Space) -> str:
    return box.item.name if len(box.spaces) == 1 else f"{box.item.name}, {space.compartment.name}"


def _open_unit(box: CarcassBox, space: Space) -> Finding:
    return Finding(
        "stack.open_unit",
        Severity.STOP,
        _place(box, space),
        "Fronts are told for an open unit, and it has none to hang them on.",
        "Take the stack out, or make the unit a carcass.",
        "",
        None,
        (box.item.id,),
    )
