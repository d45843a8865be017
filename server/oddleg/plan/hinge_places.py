"""Hinges of a door: how many, where their cups lie, and how the door's overlay comes about. mm and kg."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from oddleg.job import Hinge, HungOn, Plate

from .carcass_box import Space
from .figure import text_mm
from .fitted_out import PlacedFront
from .hardware import Hardware
from .sightings import counted

SAME_MM = 1e-6
LEAST_HINGES = 2


def hinge_count(greatest: Sequence[float], value: float) -> int | None:
    """How many hinges a door of this height or weight needs by one column of a chart; None: beyond its end."""
    return next((number for number, most in enumerate(greatest, LEAST_HINGES) if value <= most + SAME_MM), None)


def counts(hinge: Hinge, front: PlacedFront) -> tuple[int | None, int | None]:
    """By the rule of height and by that of weight."""
    return hinge_count(hinge.up_to_mm, front.height_mm), hinge_count(hinge.up_to_kg, front.weight_kg)


def needed(hinge: Hinge, front: PlacedFront) -> int:
    """The larger of both rules; beyond a column's end one more than it has, and `hinge_checks` tells."""
    ends = (len(hinge.up_to_mm), len(hinge.up_to_kg))
    found = zip(counts(hinge, front), ends, strict=True)
    return max(LEAST_HINGES + end if count is None else count for count, end in found)


def hung(
    space: Space,
    known: Hardware,
    front: PlacedFront,
    given_mm: tuple[float, ...],
    step_mm: float,
    packing_mm: float = 0.0,
) -> PlacedFront:
    """The leaf with its overlay, cups and the cups' edge distance = overlay - constant + plate height, as far as its
    charts are known. `given_mm`: heights of the cups, if the job has them. `packing_mm`: what the sides are packed out
    by under the plates, to the inner edge of a face frame: the overlay counts from there."""
    hinge, plate = known.row(Hinge, front.hinge), known.row(Plate, front.plate)
    if front.hung is HungOn.LEFT:
        overlay_mm = space.left_mm + packing_mm - front.left_mm
    else:
        overlay_mm = front.left_mm + front.width_mm - (space.right_mm - packing_mm)
    if hinge is None:
        return replace(front, overlay_mm=overlay_mm, cups_mm=given_mm)
    cups_mm = given_mm or even_cups_mm(front.height_mm, hinge, needed(hinge, front))
    return replace(
        front,
        cups_mm=cups_mm,
        edge_mm=None if plate is None else overlay_mm - hinge.constant_mm + plate.height_mm,
        overlay_mm=overlay_mm,
        hinges_words=_words(hinge, front, bool(given_mm), len(cups_mm), step_mm),
    )


def even_cups_mm(height_mm: float, hinge: Hinge, count: int) -> tuple[float, ...]:
    """First and last `end_mm` from the ends, the rest even between; none where they would be a cup or less apart."""
    apart_mm = (height_mm - 2 * hinge.end_mm) / (count - 1)
    if apart_mm <= hinge.cup_mm:
        return ()
    return tuple(hinge.end_mm + apart_mm * number for number in range(count))


def _words(hinge: Hinge, front: PlacedFront, given: bool, made: int, step_mm: float) -> str:
    by_height, by_weight = ("more than its chart has" if one is None else one for one in counts(hinge, front))
    rule = (
        f"{by_height} for a height of {text_mm(front.height_mm, step_mm)}, {by_weight} for "
        f"{text_mm(front.weight_kg, 0.1)} kg"
    )
    if given:
        return f"{counted(made, 'hinge')} at the heights given; its chart asks for {rule}"
    return f"{counted(made, 'hinge')}: {rule}" if made else f"no hinges go in: {rule}"
