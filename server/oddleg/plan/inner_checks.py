"""Drawers and frames behind a door: past its open leaf and hinges, past its plates, and behind it where it is inset."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from oddleg.job import FittingOut, FrontIs, Hinge, HungOn, InnerDrawer, Plate, PullOut, Runner

from .carcass_box import CarcassBox, Space
from .drawer_clashes import SAME_MM, lying
from .figure import text_mm
from .finding import Severity
from .fitted_out import DrawerBox, PlacedFront
from .frame_packing import frame_packing_mm
from .front_places import front_of_stack
from .hardware import Hardware
from .stack_faults import StackFault


def inner_faults(
    box: CarcassBox,
    known: Hardware,
    space: Space,
    drawers: Sequence[DrawerBox],
    fronts: Sequence[PlacedFront],
    step_mm: float,
) -> Iterator[StackFault]:
    """`drawers`, `fronts`: of this compartment, all of them. Plates count for drawers with a front of their own too."""
    spaces = {one.id: box.floor_mm + one.up_mm + one.height_mm for one in space.compartment.inner_drawers}
    yield from _spaces_meet(space.compartment.inner_drawers, step_mm)
    strip_mm = (box.item.fitting_out or FittingOut()).spacer_strip_mm
    frame_mm = _frame_mm(box, space)
    for drawer in drawers:
        runner = known.row(Runner, drawer.runner)
        if runner is None:
            continue
        yield from _plates(known, drawer, runner, fronts, strip_mm, step_mm)
        if drawer.front is not None:
            continue
        before = [one for one in fronts if _level(one, drawer.low_mm, drawer.high_mm) > SAME_MM]
        over_mm = drawer.high_mm - spaces[drawer.id]
        if over_mm > SAME_MM:
            yield StackFault(
                "drawer.space_too_low",
                (drawer.name,),
                (drawer.id,),
                f"{runner.name} reaches {text_mm(over_mm, step_mm)} above the space that the drawer is given.",
                f"Make its space {text_mm(over_mm, step_mm)} higher, or take a runner for a lower drawer.",
                over_mm,
                runner,
            )
        yield from _can_come_out(drawer, before, step_mm)
        yield from _hinges(known, drawer, runner, before, frame_mm, step_mm)


def _spaces_meet(drawers: Sequence[InnerDrawer], step_mm: float) -> Iterator[StackFault]:
    """Spaces as the job gives them: what stands in a drawer reaches up to the next one, whatever its runner does."""
    for one, other in combinations(drawers, 2):
        over_mm = min(one.up_mm + one.height_mm, other.up_mm + other.height_mm) - max(one.up_mm, other.up_mm)
        if over_mm > SAME_MM:
            yield StackFault(
                "drawer.spaces_meet",
                (one.name, other.name),
                (one.id, other.id),
                f"Their spaces have {text_mm(over_mm, step_mm)} of height in common.",
                "Move one of them, or make its space lower.",
                over_mm,
            )


def _frame_mm(box: CarcassBox, space: Space) -> float:
    """How far a face frame stands in from the inside of the compartment, on each side."""
    stack = space.compartment.stack
    return frame_packing_mm(front_of_stack(box), stack) if stack is not None else 0.0


def _level(front: PlacedFront, low_mm: float, high_mm: float) -> float:
    return min(front.foot_mm + front.height_mm, high_mm) - max(front.foot_mm, low_mm)


def _can_come_out(drawer: DrawerBox, before: Sequence[PlacedFront], step_mm: float) -> Iterator[StackFault]:
    for front in before:
        if front.front is FrontIs.FIXED:
            yield StackFault(
                "drawer.behind_fixed",
                (drawer.name,),
                (drawer.id, front.member),
                f"It cannot come out: {front.name}, which is before it, does not open.",
                "Move the drawer, or make that front a door.",
            )
    doors = [one for one in before if one.front is FrontIs.DOOR]
    stands_mm = max((one.stands_mm for one in doors), default=0.0)
    if stands_mm - drawer.front_u_mm > SAME_MM:
        yield StackFault(
            "drawer.meets_door",
            (drawer.name,),
            (drawer.id, *(one.member for one in doors)),
            f"The closed door reaches {text_mm(stands_mm, step_mm)} behind the carcass's front edge, and the drawer is "
            f"set back by {text_mm(drawer.front_u_mm, step_mm)}.",
            f"Set it back by {text_mm(stands_mm, step_mm)} or more.",
            stands_mm - drawer.front_u_mm,
        )


def _hinges(
    known: Hardware,
    drawer: DrawerBox,
    runner: Runner,
    before: Sequence[PlacedFront],
    frame_mm: float,
    step_mm: float,
) -> Iterator[StackFault]:
    """An open door stands into the opening over all of its height, not only at its hinges. The intrusion counts from
    the side's inside face, and so does the runner: `side_mm` of its chart is what runner and drawer side take, drawer
    included, so none of it is free to be counted off. In a face frame the intrusion counts from its inner edge,
    `frame_mm` in from that face."""
    hinges = {one.id: one for front in before if (one := known.row(Hinge, front.hinge)) is not None}
    worst = max(hinges.values(), key=lambda one: (one.intrusion_mm, one.id), default=None)
    if worst is None:
        return
    in_mm = worst.intrusion_mm + frame_mm
    short_mm = in_mm - drawer.spacer_mm
    if short_mm > SAME_MM:
        has = f"a spacer of {text_mm(drawer.spacer_mm, step_mm)}" if drawer.spacer_mm > 0 else "no spacer"
        yield StackFault(
            "drawer.needs_spacer",
            (drawer.name,),
            (drawer.id,),
            f"Open door and hinge stand {text_mm(in_mm, step_mm)} in from the side ({worst.name}"
            f"{f', in a frame that stands in by {text_mm(frame_mm, step_mm)}' if frame_mm > 0 else ''}); under "
            f"{runner.name} there is {has}.",
            f"Put a spacer of {text_mm(in_mm, step_mm)} or more under the runners, on both sides alike: "
            "then the drawer stays in the middle. Or take a hinge that swings the door clear.",
            short_mm,
            worst,
        )


def _plates(
    known: Hardware,
    drawer: DrawerBox,
    runner: Runner,
    fronts: Sequence[PlacedFront],
    strip_mm: float,
    step_mm: float,
) -> Iterator[StackFault]:
    """A plate lies on the side where the runner, or the strip under it, would lie: they cannot both be screwed on. As
    high as its chart says: a plate by its screws, a runner by its screw line, a strip by its own height."""
    half_mm = max(strip_mm if drawer.spacer_mm > 0 else 0.0, runner.hole_mm) / 2
    for front in fronts:
        plate = known.row(Plate, front.plate)
        if plate is None or front.hung is None:
            continue
        from_u_mm = front.stands_mm + plate.row_mm + plate.hole_mm / 2
        if from_u_mm <= drawer.first_mm - runner.first_mm + runner.front_mm:
            continue
        reach_mm = plate.spread_mm / 2 + plate.hole_mm / 2
        for up_mm in front.cups_mm:
            apart_mm = abs(front.foot_mm + up_mm - drawer.line_mm) - reach_mm - half_mm
            if apart_mm < -SAME_MM:
                what = "the spacer under its runner" if drawer.spacer_mm > 0 else "its runner"
                side = "left" if front.hung is HungOn.LEFT else "right"
                yield StackFault(
                    "drawer.level_with_hinge",
                    (drawer.name,),
                    (drawer.id, front.member),
                    f"On the {side} {what} lies where a mounting plate of {front.name} is, "
                    f"{text_mm(up_mm, step_mm)} above the door's lower edge.",
                    f"Move the drawer by {text_mm(-apart_mm, step_mm)} or more, or give the door's cups other heights.",
                    -apart_mm,
                    plate,
                )


def pull_out_faults(
    box: CarcassBox,
    known: Hardware,
    space: Space,
    drawers: Sequence[DrawerBox],
    fronts: Sequence[PlacedFront],
    step_mm: float,
) -> Iterator[StackFault]:
    """Frames behind a door and with a front of their own: whether the compartment takes them, and what is beside. What
    comes out between the edges of a face frame has no more width than is between these."""
    frame_mm = _frame_mm(box, space)
    stands_mm = max((one.stands_mm for one in fronts), default=0.0)
    frames = [(one.id, one.name, one.pull_out, 0.0, True) for one in fronts if one.pull_out is not None]
    frames += [(one.id, one.name, one.pull_out, one.spacer_mm, False) for one in space.compartment.pull_outs]
    shelves = lying(box, known, space)
    inside = [(one.name, one.id, one.low_mm) for one in shelves if one.high_mm > box.floor_mm]
    inside += [(one.name, one.id, one.low_mm) for one in drawers]
    over_name, over_id, over_mm = min(inside, key=lambda one: one[2], default=("", "", box.roof_mm))
    if over_mm >= box.roof_mm:
        over_name, over_id, over_mm = "", "", box.roof_mm
    placed = [(*one, row) for one in frames if (row := known.row(PullOut, one[2])) is not None]
    for id, name, _, spacer_mm, own, row in placed:
        yield from _size(
            row,
            (id, name),
            {
                "wide": space.width_mm - 2 * max(spacer_mm, frame_mm),
                "deep": box.inside_depth_mm - stands_mm,
                "high": over_mm - box.floor_mm,
            },
            (over_name, over_id),
            step_mm,
        )
        if not own:
            yield from _frame_past_hinges(known, row, (id, name), spacer_mm, fronts, frame_mm, step_mm)
    for front in fronts:
        yield from _front_on_frame(known, front, step_mm)
    if len(placed) > 1:
        yield StackFault(
            "pull_out.two",
            tuple(one[1] for one in placed),
            tuple(one[0] for one in placed),
            "Each of these frames takes the middle of the same compartment.",
            "Keep one of them, or divide the compartment.",
        )


def _front_on_frame(known: Hardware, front: PlacedFront, step_mm: float) -> Iterator[StackFault]:
    """The frame stands on the bottom, and the holes in its front are told from the front's own lower edge: one that
    does not end at the carcass's underside hangs on the frame at another height than the chart may have meant."""
    row = known.row(PullOut, front.pull_out)
    if row is None or not row.door_up_mm or abs(front.foot_mm) <= SAME_MM:
        return
    way = "above" if front.foot_mm > 0 else "below"
    yield StackFault(
        "pull_out.front_height",
        (front.name,),
        (front.member,),
        f"The chart of {row.name} tells the holes in its front from the front's lower edge, which lies "
        f"{text_mm(abs(front.foot_mm), step_mm)} {way} the carcass's underside here.",
        "Look on the frame's own sheet where it counts from, and hold the front to the frame before you drill it.",
        abs(front.foot_mm),
        row,
        Severity.WARN,
    )


def _size(
    row: PullOut,
    frame: tuple[str, str],
    has_mm: Mapping[str, float],
    under: tuple[str, str],
    step_mm: float,
) -> Iterator[StackFault]:
    id, name = frame
    for what, least_mm in (("wide", row.least_width_mm), ("deep", row.least_depth_mm), ("high", row.least_height_mm)):
        if least_mm - has_mm[what] > SAME_MM:
            below = f" below {under[0]}" if what == "high" and under[0] else ""
            yield StackFault(
                f"pull_out.too_little_{HOW[what]}",
                (name,),
                (id, under[1]) if below else (id,),
                f"The inside is {text_mm(has_mm[what], step_mm)} {what}{below}; {row.name} needs at least "
                f"{text_mm(least_mm, step_mm)}.",
                "Take a smaller frame, or make more room for it.",
                least_mm - has_mm[what],
                row,
            )
    over_mm = has_mm["wide"] - row.greatest_width_mm
    if over_mm > SAME_MM:
        yield StackFault(
            "pull_out.too_wide",
            (name,),
            (id,),
            f"The inside is {text_mm(has_mm['wide'], step_mm)} wide; {row.name} goes into at most "
            f"{text_mm(row.greatest_width_mm, step_mm)}.",
            f"Pack it out by {text_mm(over_mm / 2, step_mm)} on each side, or take a wider frame.",
            over_mm,
            row,
        )


def _frame_past_hinges(
    known: Hardware,
    row: PullOut,
    frame: tuple[str, str],
    spacer_mm: float,
    fronts: Sequence[PlacedFront],
    frame_mm: float,
    step_mm: float,
) -> Iterator[StackFault]:
    """A frame's chart says what inside it goes into, not what is free beside it: so all of the intrusion counts, from
    the inner edge of a face frame, `frame_mm` in, as for drawers."""
    id, name = frame
    hinges = {one.id: one for front in fronts if (one := known.row(Hinge, front.hinge)) is not None}
    worst = max(hinges.values(), key=lambda one: (one.intrusion_mm, one.id), default=None)
    if worst is None:
        return
    in_mm = worst.intrusion_mm + frame_mm
    if in_mm - spacer_mm > SAME_MM:
        yield StackFault(
            "pull_out.needs_spacer",
            (name,),
            (id,),
            f"Open door and hinge stand {text_mm(in_mm, step_mm)} in from the side ({worst.name}), and "
            f"the chart of {row.name} does not say what is free beside the frame.",
            f"Read that off the frame's own sheet; to be sure put a spacer of {text_mm(in_mm, step_mm)} "
            "on both sides alike, or take a hinge that swings the door clear.",
            in_mm - spacer_mm,
            worst,
            Severity.WARN,
        )


HOW = {"wide": "width", "deep": "depth", "high": "height"}
