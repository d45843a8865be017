"""Stacks of fronts of one carcass, the drawers behind them and within, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from oddleg.job import Front, FrontIs, HungOn, Job, OpenUnit, Stack

from .box_findings import box_findings
from .carcass_box import CarcassBox, Space
from .drawer_boxes import front_drawer, inner_drawers
from .drawer_clashes import drawer_faults
from .figure import text_mm
from .finding import Finding, Severity
from .fitted_out import DrawerBox, PlacedFront, StackFilled
from .frame_packing import frame_faults, frame_packing_mm
from .front_places import (
    blind_faults,
    edges_mm,
    front_of_stack,
    leaves,
    stands_mm,
    told_otherwise,
    weight_kg,
    width_faults,
)
from .hardware import Hardware
from .hinge_checks import hinge_faults
from .hinge_clear import opening_faults, plate_faults
from .hinge_places import hung
from .inner_checks import inner_faults, pull_out_faults
from .shelf_fronts import shelf_faults
from .sightings import counted, listed
from .stack_faults import StackFault, told
from .stack_heights import StackHeights, height_findings, stack_heights
from .stack_snap import snap_words, snapped


@dataclass(frozen=True)
class FilledFronts:
    """`stacks`, `fronts` from left to right and from the top down; `drawers` of each compartment: those of its stack,
    then inner ones."""

    stacks: tuple[StackFilled, ...] = ()
    fronts: tuple[PlacedFront, ...] = ()
    drawers: tuple[DrawerBox, ...] = ()
    findings: tuple[Finding, ...] = ()


def filled(job: Job, box: CarcassBox, known: Hardware) -> FilledFronts:
    """What every compartment's stack comes to, and the findings of the box itself. A front that comes out without a
    width or height is left out, and a finding tells; an open unit has no fronts."""
    stacks: list[StackFilled] = []
    fronts: list[PlacedFront] = []
    drawers: list[DrawerBox] = []
    findings = list(box_findings(job, box))
    faults: list[StackFault] = []
    for space in box.spaces:
        stack = space.compartment.stack
        here: list[PlacedFront] = []
        if stack is not None and isinstance(box.item, OpenUnit):
            findings.append(_open_unit(box, space))
        elif stack is not None and stack.members:
            made, here, wrong = _stack(job, box, space, stack, known)
            stacks.append(made)
            findings += wrong
        packing_mm = frame_packing_mm(front_of_stack(box), stack) if stack is not None else 0.0
        inside = [drawer for one in here if (drawer := front_drawer(space, known, one, packing_mm)) is not None]
        inside += inner_drawers(box, space, known)
        faults += _faults(job, box, known, space, here, inside)
        fronts += here
        drawers += inside
    faults += told_otherwise(box, fronts, job.holes.shop_mm)
    faults += blind_faults(box, fronts, job.holes.shop_mm)
    return FilledFronts(tuple(stacks), tuple(fronts), tuple(drawers), (*findings, *told(job, box, faults)))


def _stack(
    job: Job, box: CarcassBox, space: Space, stack: Stack, known: Hardware
) -> tuple[StackFilled, list[PlacedFront], list[Finding]]:
    front = front_of_stack(box)
    heights = stack_heights(box, stack, front.fit)
    wrong = list(height_findings(job, box, _place(box, space), heights))
    moved: tuple[str, ...] = ()
    if stack.snap and not wrong:
        on_grid = snapped(box, stack, known, heights)
        heights, moved = on_grid.heights, snap_words(on_grid, job.holes.shop_mm)
    made = _filled(job, space, stack, heights, moved)
    return made, list(_fronts(job, box, space, stack, front, heights, known)), wrong


def _fronts(
    job: Job, box: CarcassBox, space: Space, stack: Stack, front: Front, heights: StackHeights, known: Hardware
) -> Iterator[PlacedFront]:
    left_mm, right_mm = edges_mm(box, space, stack, front.fit)
    packing_mm = frame_packing_mm(front, stack)
    for member, foot_mm, height_mm in zip(heights.members, heights.feet_mm, heights.heights_mm, strict=True):
        for end, side, from_mm, to_mm in leaves(member, stack, left_mm, right_mm):
            if min(height_mm, to_mm - from_mm) <= 0:
                continue
            no_board = member.front is FrontIs.SPACE
            made = PlacedFront(
                id=f"{member.id}-{end}" if end else member.id,
                member=member.id,
                name=f"{end} leaf of {member.name}" if end else member.name,
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
            if side is None:
                yield made
            else:
                yield hung(space, known, made, member.cups_mm, job.holes.shop_mm, packing_mm)


def _faults(
    job: Job,
    box: CarcassBox,
    known: Hardware,
    space: Space,
    fronts: list[PlacedFront],
    drawers: list[DrawerBox],
) -> Iterator[StackFault]:
    part, step_mm = space.compartment, job.holes.shop_mm
    given = {one.id: one.cups_mm for one in part.stack.members} if part.stack is not None else {}
    for one in fronts:
        if one.hung in (HungOn.LEFT, HungOn.RIGHT):
            yield from hinge_faults(known, one, given[one.member], step_mm)
    high_mm = {one.id: one.height_mm for one in fronts} | {one.id: one.height_mm for one in part.inner_drawers}
    yield from drawer_faults(job, box, known, space, drawers, high_mm)
    yield from inner_faults(box, known, space, drawers, fronts, step_mm)
    yield from pull_out_faults(box, known, space, drawers, fronts, step_mm)
    yield from plate_faults(box, known, space, fronts, step_mm)
    yield from shelf_faults(box, known, space, fronts, step_mm)
    yield from opening_faults(known, front_of_stack(box), fronts, drawers)
    if part.stack is not None and not isinstance(box.item, OpenUnit):
        made = front_of_stack(box)
        yield from width_faults(box, space, part.stack, made.fit, step_mm)
        yield from frame_faults(made, part.stack, fronts, step_mm)
    yield from _unnamed(fronts)


def _unnamed(fronts: list[PlacedFront]) -> Iterator[StackFault]:
    """Fronts whose hardware nobody has chosen yet."""
    wanted = (
        (FrontIs.DOOR, "hinge", "hinge and mounting plate"),
        (FrontIs.DRAWER, "runner", "runner"),
        (FrontIs.PULL_OUT, "pull_out", "pull-out frame"),
    )
    for one in fronts:
        for kind, field, words in wanted:
            if one.front is kind and getattr(one, field) is None:
                yield StackFault(
                    "stack.no_hardware",
                    (one.name,),
                    (one.member,),
                    f"No {words} is named, so no holes are set out for it.",
                    "Name the chart's row once it is chosen.",
                    severity=Severity.NOTE,
                )
        if one.front is FrontIs.FLAP and one.hinge is not None:
            yield StackFault(
                "hinge.flap",
                (one.name,),
                (one.member,),
                "Holes for the hinges and stays of a flap are not set out.",
                "Mark them by the sheet that comes with its fitting.",
                severity=Severity.WARN,
            )


def _filled(job: Job, space: Space, stack: Stack, heights: StackHeights, moved: tuple[str, ...]) -> StackFilled:
    step_mm = job.holes.shop_mm
    # Finer than it is cut, so that what is written adds up: four of 177.75, not of 177.8.
    high = " + ".join(text_mm(mm, step_mm / 10) for mm in heights.heights_mm)
    gaps = len(heights.members) - 1 + (2 if heights.end_mm > 0 else 0)
    with_gaps = f", and {counted(gaps, 'gap')} of {text_mm(stack.gap_mm, step_mm)}" if gaps else ""
    on_grid = f". On the grid: {listed(moved)}" if moved else ""
    fronts = f"from the top down: {high}" if len(heights.members) > 1 else f"one front of {high}"
    words = f"{space.compartment.name}, {fronts}{with_gaps}{on_grid}"
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
