"""Shelves behind fronts that stand in the opening. Carcass axes, mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import FrontFit

from .carcass_box import CarcassBox, Space
from .drawer_clashes import SAME_MM, lying
from .figure import text_mm
from .finding import Severity
from .fitted_out import PlacedFront
from .front_places import front_of_stack
from .hardware import Hardware
from .stack_faults import StackFault


def shelf_faults(
    box: CarcassBox, known: Hardware, space: Space, fronts: Sequence[PlacedFront], step_mm: float
) -> Iterator[StackFault]:
    """Shelves of one compartment that reach further forward than the inside face of a front before them. In a face
    frame, whose place is not told, that is a warning."""
    inset = front_of_stack(box).fit is FrontFit.INSET
    for shelf in lying(box, known, space):
        for front in fronts:
            over_mm = front.stands_mm - shelf.front_u_mm
            apart = shelf.low_mm >= front.foot_mm + front.height_mm or shelf.high_mm <= front.foot_mm
            if front.thickness_mm <= 0 or over_mm <= SAME_MM or apart:
                continue
            yield StackFault(
                "panel.shelf_meets_front",
                (shelf.name,),
                (shelf.id, front.member),
                f"{front.name} reaches {text_mm(front.stands_mm, step_mm)} behind the carcass's front edge when it is "
                f"closed, and {shelf.name} is set back by {text_mm(shelf.front_u_mm, step_mm)}.",
                f"Set it back by {text_mm(front.stands_mm, step_mm)} or more.",
                over_mm,
                severity=Severity.STOP if inset else Severity.WARN,
            )
