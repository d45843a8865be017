"""Where the fronts of a compartment hang: how wide they are, and how far behind the carcass's front edge. mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Carcass, Front, FrontFit, FrontIs, Handing, HungOn, Stack, StackMember

from .carcass_box import CarcassBox, Space
from .figure import text_mm
from .finding import Severity
from .fitted_out import PlacedFront
from .stack_faults import StackFault

MM3_IN_M3 = 1e9


def front_of_stack(box: CarcassBox) -> Front:
    """How the carcass's fronts are made; the usual front where it does not say."""
    return (box.item.front if isinstance(box.item, Carcass) else None) or Front()


def stands_mm(front: Front) -> float:
    """u of a front's inside face, from which its hardware counts: 0 for an overlay front; an inset one adds its
    thickness and its set-back (37 + 18 + 2 = 57), and a face frame its own thickness on top. Common practice.

    u is 0 at the front edge of the carcass's sides, also behind a frame, and never at the frame's own face: the sum is
    right where the frame's face is flush with that edge and the front closes behind the frame. How a frame stands the
    job does not say; `frame_packing.frame_faults` tells what comes off where it stands otherwise."""
    if front.fit is FrontFit.OVERLAY:
        return 0.0
    frame_mm = front.frame_thickness_mm if front.fit is FrontFit.FRAME else 0.0
    return front.thickness_mm + front.set_back_mm + frame_mm


def weight_kg(front: Front, width_mm: float, height_mm: float) -> float:
    return width_mm * height_mm * front.thickness_mm / MM3_IN_M3 * front.density_kg_m3


def edges_mm(box: CarcassBox, space: Space, stack: Stack, fit: FrontFit) -> tuple[float, float]:
    """x of the left and right edge of a compartment's fronts. An overlay front covers an outer side, and half of a
    divider, up to `side_mm`; any other stands inside the compartment, `side_mm` from what is beside it."""
    if fit is not FrontFit.OVERLAY:
        return space.left_mm + stack.side_mm, space.right_mm - stack.side_mm
    left_mm = 0.0 if space is box.spaces[0] else space.left_mm - box.divider_mm / 2
    right_mm = box.width_mm if space is box.spaces[-1] else space.right_mm + box.divider_mm / 2
    return left_mm + stack.side_mm, right_mm - stack.side_mm


def leaves(
    member: StackMember, stack: Stack, left_mm: float, right_mm: float
) -> list[tuple[str, HungOn | None, float, float]]:
    """What is put after the member's id and name, the side it hangs on, x of its edges: a pair of doors makes two."""
    if member.hung is not HungOn.PAIR:
        return [("", member.hung, left_mm, right_mm)]
    leaf_mm = (right_mm - left_mm - stack.gap_mm) / 2
    return [
        ("left", HungOn.LEFT, left_mm, left_mm + leaf_mm),
        ("right", HungOn.RIGHT, right_mm - leaf_mm, right_mm),
    ]


def width_faults(box: CarcassBox, space: Space, stack: Stack, fit: FrontFit, step_mm: float) -> Iterator[StackFault]:
    """Fronts of a compartment that come out with no width."""
    left_mm, right_mm = edges_mm(box, space, stack, fit)
    for member in stack.members:
        widest_mm = max(to_mm - from_mm for _, _, from_mm, to_mm in leaves(member, stack, left_mm, right_mm))
        if widest_mm <= 0:
            between = f" and {text_mm(stack.gap_mm, step_mm)} between both leaves" if member.hung is HungOn.PAIR else ""
            yield StackFault(
                "stack.no_width",
                (member.name,),
                (member.id,),
                f"No width is left for it: the compartment is {text_mm(space.width_mm, step_mm)} wide, less "
                f"{text_mm(stack.side_mm, step_mm)} on each side{between}.",
                "Make the compartment wider, or what is kept beside its fronts smaller.",
                -widest_mm,
            )


def blind_faults(box: CarcassBox, fronts: Sequence[PlacedFront], step_mm: float) -> Iterator[StackFault]:
    """Fronts that reach over the part of a corner unit that nothing opens on."""
    blind_mm = box.item.blind_mm if isinstance(box.item, Carcass) else 0.0
    hung = [one for one in fronts if one.front not in (FrontIs.FIXED, FrontIs.SPACE)]
    if blind_mm <= 0 or not hung:
        return
    wide_mm = max(one.left_mm + one.width_mm for one in hung) - min(one.left_mm for one in hung)
    over_mm = wide_mm - (box.width_mm - blind_mm)
    if over_mm > 0:
        yield StackFault(
            "stack.over_blind",
            tuple(one.name for one in hung),
            tuple(one.member for one in hung),
            f"They reach {text_mm(over_mm, step_mm)} over the {text_mm(blind_mm, step_mm)} of this unit that is blind.",
            "Divide the unit, and tell a stack only for the compartment that opens.",
            over_mm,
        )


def told_otherwise(box: CarcassBox, fronts: Sequence[PlacedFront], step_mm: float) -> Iterator[StackFault]:
    """Where stacks and what else the carcass says of its fronts do not agree, or it says nothing."""
    item = box.item
    if not isinstance(item, Carcass) or not fronts:
        return
    if item.front is None:
        yield StackFault(
            "stack.front_not_told",
            (),
            (),
            f"Nothing is told of how its fronts are made: they are taken as overlay fronts "
            f"{text_mm(Front().thickness_mm, step_mm)} thick.",
            "Tell the carcass's front.",
            severity=Severity.NOTE,
        )
    hung = {one.hung for one in fronts if one.front is FrontIs.DOOR and one.hung is not None}
    if item.handing is Handing.NONE or not hung:
        return
    side = Handing(hung.pop().value) if len(hung) == 1 else Handing.PAIR
    if side is not item.handing:
        yield StackFault(
            "stack.handing",
            (),
            (),
            f"The carcass is told {HANDED[item.handing]}, and its stacks {HANDED[side]}. Label, rod and the room "
            "beside its front go by the one, holes by the other.",
            "Make them agree before anything is drilled.",
            severity=Severity.WARN,
        )


HANDED = {
    Handing.LEFT: "with doors hung on the left",
    Handing.RIGHT: "with doors hung on the right",
    Handing.PAIR: "with doors hung on both sides",
}
