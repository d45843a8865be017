"""What is wrong with the hinges of a door: beyond the chart, cups off the door, an overlay that no plate gives. mm."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import Hinge, Plate

from .figure import text_mm
from .finding import Severity
from .fitted_out import PlacedFront
from .hardware import Hardware
from .hinge_places import SAME_MM, counts, needed
from .sightings import counted, listed
from .stack_faults import StackFault


def hinge_faults(
    known: Hardware, front: PlacedFront, given_mm: tuple[float, ...], step_mm: float
) -> Iterator[StackFault]:
    """Of one leaf that hangs on the left or right; `given_mm`: heights of its cups as the job has them."""
    hinge, plate = known.row(Hinge, front.hinge), known.row(Plate, front.plate)
    if hinge is None:
        return
    yield from _count(hinge, front, given_mm, step_mm)
    yield from _cups(hinge, front, given_mm, step_mm)
    yield from _thickness(hinge, front, step_mm)
    if plate is not None:
        yield from _edge(known, hinge, plate, front, step_mm)


def _count(hinge: Hinge, front: PlacedFront, given_mm: tuple[float, ...], step_mm: float) -> Iterator[StackFault]:
    needs = needed(hinge, front)
    if None in counts(hinge, front):
        yield _fault(
            "hinge.beyond_table",
            front,
            f"The door is {text_mm(front.height_mm, step_mm)} high and weighs {text_mm(front.weight_kg, 0.1)} kg; the "
            f"chart of {hinge.name} ends at {text_mm(max(hinge.up_to_mm), step_mm)} and "
            f"{text_mm(max(hinge.up_to_kg), 0.1)} kg.",
            "Divide the door, make it lighter, or take a hinge that carries more.",
            None,
            hinge,
        )
    elif given_mm and len(given_mm) < needs:
        yield _fault(
            "hinge.too_few",
            front,
            f"It has {counted(len(given_mm), 'hinge')}; by the chart of {hinge.name} a door of "
            f"{text_mm(front.height_mm, step_mm)} and {text_mm(front.weight_kg, 0.1)} kg needs {needs}.",
            "Give more heights of cups, or none: then the chart places them.",
            None,
            hinge,
            Severity.WARN,
        )


def _cups(hinge: Hinge, front: PlacedFront, given_mm: tuple[float, ...], step_mm: float) -> Iterator[StackFault]:
    high_mm = front.height_mm
    if not front.cups_mm:
        yield _fault(
            "hinge.no_room",
            front,
            f"The door is {text_mm(high_mm, step_mm)} high: {counted(needed(hinge, front), 'hinge')}, the first and "
            f"the last {text_mm(hinge.end_mm, step_mm)} from its ends, do not go in.",
            "Give the heights of the cups, or make the door higher.",
            None,
            hinge,
        )
    reach_mm = max(hinge.cup_mm, hinge.screws_apart_mm + hinge.screw_mm) / 2
    off = [mm for mm in given_mm if min(mm, high_mm - mm) < reach_mm - SAME_MM]
    if off:
        yield _fault(
            "hinge.cup_outside",
            front,
            f"The door is {text_mm(high_mm, step_mm)} high, and with a cup at "
            f"{listed([text_mm(mm, step_mm) for mm in off])} not all of the hinge lies on it.",
            f"Give heights from {text_mm(reach_mm, step_mm)} to {text_mm(high_mm - reach_mm, step_mm)}."
            if high_mm >= 2 * reach_mm
            else "Make the door higher.",
            max(reach_mm - min(mm, high_mm - mm) for mm in off),
            hinge,
        )


def _thickness(hinge: Hinge, front: PlacedFront, step_mm: float) -> Iterator[StackFault]:
    off_mm = max(hinge.least_door_mm - front.thickness_mm, front.thickness_mm - hinge.greatest_door_mm)
    if off_mm > SAME_MM:
        yield _fault(
            "hinge.door_thickness",
            front,
            f"The door is {text_mm(front.thickness_mm, step_mm)} thick; {hinge.name} is for "
            f"{text_mm(hinge.least_door_mm, step_mm)} to {text_mm(hinge.greatest_door_mm, step_mm)}.",
            "Take another board for the door, or another hinge.",
            off_mm,
            hinge,
        )


def _edge(known: Hardware, hinge: Hinge, plate: Plate, front: PlacedFront, step_mm: float) -> Iterator[StackFault]:
    """Edge distance = overlay - constant + plate height, so plate height = edge distance + constant - overlay."""
    if front.edge_mm is None or front.overlay_mm is None:
        return
    off_mm = max(hinge.least_edge_mm - front.edge_mm, front.edge_mm - hinge.greatest_edge_mm)
    if off_mm <= SAME_MM:
        return
    least_mm = hinge.least_edge_mm + hinge.constant_mm - front.overlay_mm
    greatest_mm = hinge.greatest_edge_mm + hinge.constant_mm - front.overlay_mm
    would_do = sorted(
        (one.height_mm, one.name)
        for one in known.rows.values()
        if isinstance(one, Plate) and least_mm - SAME_MM <= one.height_mm <= greatest_mm + SAME_MM
    )
    if would_do:
        cure = f"Take {' or '.join(f'{name} ({text_mm(mm, step_mm)} high)' for mm, name in would_do)}."
    elif greatest_mm < 0:
        cure = "No plate is so low: take a hinge for less overlay, or make the door wider on its hinge side."
    else:
        heights = f"{text_mm(max(least_mm, 0.0), step_mm)} to {text_mm(greatest_mm, step_mm)}"
        cure = f"Take a plate {heights} high; none of those that this job names is. Or take another hinge."
    over = (
        f"an overlay of {text_mm(front.overlay_mm, step_mm)}"
        if front.overlay_mm >= 0
        else f"a gap of {text_mm(-front.overlay_mm, step_mm)} beside it"
    )
    side = f"{text_mm(front.edge_mm, step_mm)}" + (" (off the door)" if front.edge_mm < 0 else "")
    yield _fault(
        "hinge.edge_distance",
        front,
        f"With {over}, {hinge.name} on {plate.name} asks for a cup whose rim is {side} from the door's edge; allowed "
        f"are {text_mm(hinge.least_edge_mm, step_mm)} to {text_mm(hinge.greatest_edge_mm, step_mm)}.",
        cure,
        off_mm,
        hinge,
    )


def _fault(
    rule: str,
    front: PlacedFront,
    wrong: str,
    cure: str,
    by_mm: float | None,
    hinge: Hinge,
    severity: Severity = Severity.STOP,
) -> StackFault:
    return StackFault(rule, (front.name,), (front.member,), wrong, cure, by_mm, hinge, severity)
