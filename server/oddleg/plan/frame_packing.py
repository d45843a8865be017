"""Face frames: how far a frame stands into the opening; what is screwed to the sides is packed out to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Front, FrontFit, Stack

from .figure import text_mm
from .finding import Severity
from .fitted_out import PlacedFront
from .stack_faults import StackFault


def frame_packing_mm(front: Front, stack: Stack) -> float:
    """How far the frame's inner edge stands in from the inside of the compartment on each side, mm: its fronts keep the
    same gap beside them as above, so what they are short of the inside beyond that gap is frame. 0 for other fronts."""
    return max(0.0, stack.side_mm - stack.gap_mm) if front.fit is FrontFit.FRAME else 0.0


def frame_faults(front: Front, stack: Stack, fronts: Sequence[PlacedFront], step_mm: float) -> Iterator[StackFault]:
    """Fronts in a face frame whose runners, plates or frames of pull-outs are fixed to the carcass: from where their
    figures count, and by how much they are off where the frame stands otherwise than `front_places.stands_mm` has it.
    """
    if front.fit is not FrontFit.FRAME:
        return
    packing_mm = frame_packing_mm(front, stack)
    if packing_mm > 0:
        pack = f"pack the sides out by {text_mm(packing_mm, step_mm)}, to the frame's inner edge"
    else:
        pack = "as the fronts are told the frame stands flush with the sides; where it does not, pack them out to it"
    terms = [(front.thickness_mm, "front"), (front.set_back_mm, "set-back"), (front.frame_thickness_mm, "frame")]
    told = " + ".join(f"{text_mm(mm, step_mm)} {words}" for mm, words in terms if mm > 0)
    # The sum holds for a front behind a frame that is let in flush; a frame's place is not in the job.
    once, twice = (text_mm(times * front.frame_thickness_mm, step_mm) for times in (1, 2))
    elsewhere = (
        f": right for a frame flush with that edge and a front behind it. Take {once} off where the front lies within "
        f"a frame that is flush with that edge, {twice} where that frame stands before it"
        if front.frame_thickness_mm > 0
        else ""
    )
    for one in fronts:
        if one.runner is not None or one.hinge is not None or one.pull_out is not None:
            yield StackFault(
                "stack.frame",
                (one.name,),
                (one.member,),
                f"It closes in a face frame: {pack}. Figures from the front count from the front edge of the sides, "
                f"not from the frame's face, and lie {told} = {text_mm(one.stands_mm, step_mm)} further back than the "
                f"chart has them for an overlay front{elsewhere}.",
                "Hold one front and its hardware in place before you drill the rest.",
                packing_mm if packing_mm > 0 else None,
                None,
                Severity.WARN,
            )
