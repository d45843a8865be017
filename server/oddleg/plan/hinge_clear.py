"""What lies where a hinge or its plate is, and how far a door opens for the drawers behind it. mm and degrees."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Front, FrontIs, Hinge, HungOn, Plate

from .boards import on_pins, shelf_id
from .carcass_box import CarcassBox, Space
from .drawer_clashes import SAME_MM, Lying, lying
from .figure import text_mm
from .finding import Severity
from .fitted_out import DrawerBox, PlacedFront
from .hardware import Hardware
from .stack_faults import StackFault

# Below this an open door stands square in front of the opening or nearer, and no drawer comes past it.
SQUARE_DEG = 90.0


def plate_faults(
    box: CarcassBox, known: Hardware, space: Space, fronts: Sequence[PlacedFront], step_mm: float
) -> Iterator[StackFault]:
    """Shelves that lie against a mounting plate, from its lower screw to its upper one, or where its hinge swings in.
    A fixed shelf is a stop, one on pins can be moved. Whether a screw meets a board or a runner is seen with all the
    other holes."""
    shelves, pinned = lying(box, known, space), on_pins(box, known)
    for front in fronts:
        plate = known.row(Plate, front.plate)
        if plate is None or front.hung not in (HungOn.LEFT, HungOn.RIGHT):
            continue
        rear_u_mm = front.stands_mm + plate.row_mm + plate.hole_mm / 2
        for shelf in shelves:
            if shelf.front_u_mm >= rear_u_mm - SAME_MM:
                continue
            for up_mm in front.cups_mm:
                yield from _on_plate(front, plate, shelf, up_mm, shelf_id(space, shelf.id) in pinned, step_mm)


def _on_plate(
    front: PlacedFront, plate: Plate, shelf: Lying, up_mm: float, moves: bool, step_mm: float
) -> Iterator[StackFault]:
    reach_mm = (plate.spread_mm + plate.hole_mm) / 2
    middle_mm = front.foot_mm + up_mm
    into_mm = min(middle_mm + reach_mm, shelf.high_mm) - max(middle_mm - reach_mm, shelf.low_mm)
    if into_mm <= SAME_MM:
        return
    by_mm = min(middle_mm + reach_mm - shelf.low_mm, shelf.high_mm - middle_mm + reach_mm)
    yield StackFault(
        "hinge.meets_shelf",
        (front.name,),
        (front.member, shelf.id),
        f"{shelf.name} lies where the mounting plate {text_mm(up_mm, step_mm)} up the door is.",
        f"Move one of them by {text_mm(by_mm, step_mm)} or more"
        + (", or put the shelf on other pins." if moves else ", or set the shelf back behind the plate."),
        by_mm,
        plate,
        Severity.WARN if moves else Severity.STOP,
    )


def opening_faults(
    known: Hardware, made: Front, fronts: Sequence[PlacedFront], drawers: Sequence[DrawerBox]
) -> Iterator[StackFault]:
    """Doors with drawers behind them: one that opens less than square lets none out, and one that is held before its
    hinge's own angle stands further in than the chart's intrusion says. `made`: how the carcass's fronts are made."""
    inner = [one for one in drawers if one.front is None]
    for one in inner:
        if not any(_before(front, one) for front in fronts) and fronts:
            yield StackFault(
                "drawer.no_door",
                (one.name,),
                (one.id,),
                "It is told as a drawer behind a door, and no front is before it.",
                "Check its height over the bottom, and the heights of the fronts.",
                severity=Severity.NOTE,
            )
    for front in fronts:
        hinge = known.row(Hinge, front.hinge)
        behind = [one for one in inner if _before(front, one)]
        if hinge is None or front.front is not FrontIs.DOOR or not behind:
            continue
        opens_deg = min(hinge.opening_deg, made.opening_angle_deg)
        names, ids = tuple(one.name for one in behind), (front.member, *(one.id for one in behind))
        if opens_deg < SQUARE_DEG - SAME_MM:
            yield StackFault(
                "hinge.opens_too_little",
                names,
                ids,
                f"{front.name} before it opens {text_mm(opens_deg, 1)} degrees; a drawer comes out only from "
                f"{text_mm(SQUARE_DEG, 1)} on.",
                "Take a hinge that opens further, or take the stop off the door.",
                None,
                hinge,
            )
        elif made.opening_angle_deg < hinge.opening_deg - SAME_MM:
            yield StackFault(
                "hinge.held",
                names,
                ids,
                f"{front.name} before it is said to open {text_mm(made.opening_angle_deg, 1)} degrees, and the "
                f"intrusion in the chart of {hinge.name} is for {text_mm(hinge.opening_deg, 1)}.",
                "Hold a door open as far as it will go, and measure how far it stands into the opening.",
                None,
                hinge,
                Severity.WARN,
            )


def _before(front: PlacedFront, drawer: DrawerBox) -> bool:
    return drawer.high_mm > front.foot_mm and drawer.low_mm < front.foot_mm + front.height_mm
