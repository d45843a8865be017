"""Whether drawers go in: height over what is below, length of the runner, and what else lies in their way. mm."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from oddleg.job import Job, Runner, TopIs

from .boards import shelf_foot_mm
from .carcass_box import CarcassBox, Space
from .figure import text_mm
from .fitted_out import DrawerBox
from .hardware import Hardware
from .stack_faults import StackFault

SAME_MM = 1e-6


@dataclass(frozen=True)
class Lying:
    """A shelf in a compartment: from low_mm to high_mm up, its front edge at front_u_mm."""

    id: str
    name: str
    low_mm: float
    high_mm: float
    front_u_mm: float


def lying(box: CarcassBox, known: Hardware, space: Space) -> tuple[Lying, ...]:
    """The shelves of a compartment, where their pins let them lie."""
    found = []
    for one in space.compartment.shelves:
        foot_mm = shelf_foot_mm(box, known, one)
        thick_mm = box.board_mm if one.thickness_mm is None else one.thickness_mm
        found.append(Lying(one.id, one.name, foot_mm, foot_mm + thick_mm, one.set_back_mm))
    return tuple(found)


def drawer_faults(
    job: Job, box: CarcassBox, known: Hardware, space: Space, drawers: Sequence[DrawerBox], high_mm: Mapping[str, float]
) -> Iterator[StackFault]:
    """Of the drawers of one compartment; `high_mm`: of each one's front, or of its space behind a door, by its id."""
    step_mm = job.holes.shop_mm
    shelves = lying(box, known, space)
    for drawer in drawers:
        runner = known.row(Runner, drawer.runner)
        if runner is None:
            continue
        yield from _line(box, drawer, runner, shelves, step_mm)
        yield from _front(drawer, runner, high_mm[drawer.id], step_mm)
        yield from _width(drawer, runner, step_mm)
        yield from _length(box, known, drawer, runner, step_mm)
        yield from _boards(box, drawer, shelves, step_mm)
    for one, other in combinations(drawers, 2):
        over_mm = min(one.high_mm, other.high_mm) - max(one.low_mm, other.low_mm)
        if over_mm > SAME_MM:
            yield StackFault(
                "drawer.meets_drawer",
                (one.name, other.name),
                (one.id, other.id),
                f"They need the same {text_mm(over_mm, step_mm)} of height, runners and drawers as their charts have "
                "them.",
                "Move one of them, or take a runner for a lower drawer.",
                over_mm,
            )


def _line(
    box: CarcassBox, drawer: DrawerBox, runner: Runner, shelves: Sequence[Lying], step_mm: float
) -> Iterator[StackFault]:
    below = [("bottom", box.floor_mm)]
    below += [
        (one.name, one.high_mm)
        for one in shelves
        if one.high_mm <= drawer.line_mm + SAME_MM and one.front_u_mm < drawer.rear_u_mm - SAME_MM
    ]
    name, top_mm = max(below, key=lambda one: one[1])
    up_mm = drawer.line_mm - top_mm
    if runner.least_up_mm - up_mm > SAME_MM:
        told = f"{text_mm(up_mm, step_mm)} above" if up_mm >= 0 else f"{text_mm(-up_mm, step_mm)} below"
        yield StackFault(
            "drawer.line_too_low",
            (drawer.name,),
            (drawer.id,),
            f"The runner's line is {told} the upper face of the {name}; {runner.name} needs at least "
            f"{text_mm(runner.least_up_mm, step_mm)} above it.",
            f"Raise the drawer by {text_mm(runner.least_up_mm - up_mm, step_mm)}, or take another runner.",
            runner.least_up_mm - up_mm,
            runner,
        )


def _front(drawer: DrawerBox, runner: Runner, high_mm: float, step_mm: float) -> Iterator[StackFault]:
    if runner.least_front_mm - high_mm > SAME_MM:
        what = "space behind the door" if drawer.front is None else "front"
        yield StackFault(
            "drawer.front_too_low",
            (drawer.name,),
            (drawer.id,),
            f"The {what} is {text_mm(high_mm, step_mm)} high; {runner.name} needs at least "
            f"{text_mm(runner.least_front_mm, step_mm)}.",
            "Make it higher, or take a runner for a lower drawer.",
            runner.least_front_mm - high_mm,
            runner,
        )


def _width(drawer: DrawerBox, runner: Runner, step_mm: float) -> Iterator[StackFault]:
    """Runners and drawer sides on both sides must leave something of the width between them."""
    has_mm, takes_mm = drawer.right_mm - drawer.left_mm, 2 * runner.side_mm
    if takes_mm - has_mm > -SAME_MM:
        yield StackFault(
            "drawer.too_narrow",
            (drawer.name,),
            (drawer.id,),
            f"The inside is {text_mm(has_mm, step_mm)} wide there, and {runner.name} takes "
            f"{text_mm(takes_mm, step_mm)} of it, both sides together.",
            "Make the compartment wider, the spacers thinner, or take another runner.",
            takes_mm - has_mm,
            runner,
        )


def _length(
    box: CarcassBox, known: Hardware, drawer: DrawerBox, runner: Runner, step_mm: float
) -> Iterator[StackFault]:
    over_mm = drawer.rear_u_mm - box.inside_depth_mm
    if over_mm <= SAME_MM:
        return
    start_mm = drawer.front_u_mm
    fit = [
        one
        for one in known.rows.values()
        if isinstance(one, Runner)
        and start_mm + one.front_mm + one.length_mm + one.rear_void_mm <= box.inside_depth_mm + SAME_MM
    ]
    longest = max(fit, key=lambda one: (one.length_mm, one.id), default=None)
    most_mm = box.inside_depth_mm - start_mm - runner.front_mm - runner.rear_void_mm
    if longest is not None:
        cure = f"{longest.name}, {text_mm(longest.length_mm, step_mm)} long, goes in; or make the carcass deeper."
    elif most_mm > 0:
        cure = f"Take the chart's row for a runner of {text_mm(most_mm, step_mm)} or less, or make the carcass deeper."
    else:
        cure = "Make the carcass deeper: no runner goes in."
    terms = [
        (start_mm, "of front before it"),
        (runner.front_mm, "before its front end"),
        (runner.length_mm, "of runner"),
        (runner.rear_void_mm, "free behind it"),
    ]
    told = " + ".join(f"{text_mm(mm, step_mm)} {words}" for mm, words in terms if mm > 0)
    yield StackFault(
        "drawer.runner_too_long",
        (drawer.name,),
        (drawer.id,),
        f"The inside is {text_mm(box.inside_depth_mm, step_mm)} deep, and {runner.name} does not go in: {told} is "
        f"{text_mm(over_mm, step_mm)} too much.",
        cure,
        over_mm,
        runner,
    )


def _boards(box: CarcassBox, drawer: DrawerBox, shelves: Sequence[Lying], step_mm: float) -> Iterator[StackFault]:
    over = "top" if box.item.box.top is TopIs.PANEL else "rails"
    met: list[tuple[str, str, float, tuple[str, ...]]] = [("drawer.meets_top", over, drawer.high_mm - box.roof_mm, ())]
    met += [("drawer.meets_bottom", "bottom", box.floor_mm - drawer.low_mm, ())]
    met += [
        ("drawer.meets_shelf", one.name, min(drawer.high_mm, one.high_mm) - max(drawer.low_mm, one.low_mm), (one.id,))
        for one in shelves
        if one.front_u_mm < drawer.rear_u_mm - SAME_MM
    ]
    for rule, name, over_mm, id in met:
        if over_mm > SAME_MM:
            yield StackFault(
                rule,
                (drawer.name,),
                (drawer.id, *id),
                f"Runner and drawer, as the chart has them, reach {text_mm(over_mm, step_mm)} into the {name}.",
                f"Move the drawer, take a runner for a lower one, or move the {name}."
                if id
                else "Move the drawer, or take a runner for a lower one.",
                over_mm,
            )
