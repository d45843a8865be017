"""Hinges of a door: how many, where their cups lie, and how the door's overlay comes about. mm and kg."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from oddleg.job import Hinge, HungOn, Job, Plate

from .carcass_box import CarcassBox, Space
from .figure import figure, text_mm
from .finding import Finding, Severity
from .fitted_out import PlacedFront
from .hardware import Hardware
from .sightings import counted, listed

SAME_MM = 1e-6
LEAST_HINGES = 2


def hinge_count(greatest: Sequence[float], value: float) -> int | None:
    """How many hinges a door of this height or weight needs by one column of a chart; None: beyond its end."""
    fits = (number for number, most in enumerate(greatest, LEAST_HINGES) if value <= most + SAME_MM)
    return next(fits, None)


def hung(box: CarcassBox, space: Space, known: Hardware, front: PlacedFront, cups_mm: tuple[float, ...]) -> PlacedFront:
    """The door with its cups and its overlay, `cups_mm` as they are given; without a chart of its hinge it has none."""
    hinge, plate = known.row(Hinge, front.hinge), known.row(Plate, front.plate)
    on_left = front.hung is HungOn.LEFT
    right_mm = front.left_mm + front.width_mm
    overlay_mm = space.left_mm - front.left_mm if on_left else right_mm - space.right_mm
    if hinge is None:
        return replace(front, overlay_mm=overlay_mm, cups_mm=cups_mm)
    edge_mm = None if plate is None else overlay_mm - hinge.constant_mm + plate.height_mm
    by_height, by_weight = (
        hinge_count(most, value)
        for most, value in ((hinge.up_to_mm, front.height_mm), (hinge.up_to_kg, front.weight_kg))
    )
    count = max(
        LEAST_HINGES + len(hinge.up_to_mm) if by_height is None else by_height,
        LEAST_HINGES + len(hinge.up_to_kg) if by_weight is None else by_weight,
    )
    made_mm = cups_mm or even_cups_mm(front.height_mm, hinge, count)
    return replace(
        front,
        cups_mm=made_mm,
        edge_mm=edge_mm,
        overlay_mm=overlay_mm,
        hinges_words=_words(hinge, front, by_height, by_weight, count, bool(cups_mm), len(made_mm)),
    )


def even_cups_mm(height_mm: float, hinge: Hinge, count: int) -> tuple[float, ...]:
    """First and last `end_mm` from the ends, the rest even between; none where these two are not a cup apart."""
    between_mm = height_mm - 2 * hinge.end_mm
    if between_mm / (count - 1) <= hinge.cup_mm:
        return ()
    return tuple(hinge.end_mm + between_mm * number / (count - 1) for number in range(count))


def _words(
    hinge: Hinge, front: PlacedFront, by_height: int | None, by_weight: int | None, count: int, given: bool, made: int
) -> str:
    def told(number: int | None) -> str:
        return "more than its chart tells" if number is None else str(number)

    rule = (
        f"{told(by_height)} by its height of {text_mm(front.height_mm, 0.1)}, {told(by_weight)} by its weight of "
        f"{text_mm(front.weight_kg, 0.1)} kg"
    )
    if given:
        return f"{counted(made, 'hinge')}, heights as given; by the chart of {hinge.name} {rule}"
    return f"{counted(made or count, 'hinge')}: {rule}"


def hinge_findings(
    job: Job, box: CarcassBox, known: Hardware, front: PlacedFront, given_mm: tuple[float, ...]
) -> Iterator[Finding]:
    hinge, plate = known.row(Hinge, front.hinge), known.row(Plate, front.plate)
    if hinge is None:
        return
    step_mm = job.holes.shop_mm
    place = f"{box.item.name}, {front.name}"
    source, concerns = f"chart row {hinge.name}: {hinge.source}", (box.item.id, front.member)
    counts = [
        hinge_count(most, value)
        for most, value in ((hinge.up_to_mm, front.height_mm), (hinge.up_to_kg, front.weight_kg))
    ]
    if None in counts:
        yield Finding(
            "hinge.beyond_table",
            Severity.STOP,
            place,
            f"The chart of {hinge.name} does not reach so far: this door is {text_mm(front.height_mm, step_mm)} high "
            f"and weighs {text_mm(front.weight_kg, 0.1)} kg; it ends at {text_mm(max(hinge.up_to_mm), step_mm)} and "
            f"{text_mm(max(hinge.up_to_kg), 0.1)} kg.",
            "Divide the door, make it lighter, or take a hinge that carries more.",
            source,
            None,
            concerns,
        )
    elif given_mm and len(given_mm) < max(one for one in counts if one is not None):
        yield Finding(
            "hinge.too_few",
            Severity.WARN,
            place,
            f"{counted(len(given_mm), 'hinge')} where {front.hinges_words.split('; ')[-1]}.",
            "Give more heights, or none: then the chart places them.",
            source,
            None,
            concerns,
        )
    yield from _cup_findings(job, place, hinge, front, given_mm, source, concerns)
    thin_mm = hinge.least_door_mm - front.thickness_mm
    thick_mm = front.thickness_mm - hinge.greatest_door_mm
    if max(thin_mm, thick_mm) > SAME_MM:
        yield Finding(
            "hinge.door_thickness",
            Severity.STOP,
            place,
            f"The door is {text_mm(front.thickness_mm, step_mm)} thick; {hinge.name} is for "
            f"{text_mm(hinge.least_door_mm, step_mm)} to {text_mm(hinge.greatest_door_mm, step_mm)}.",
            "Take another board for the door, or another hinge.",
            source,
            figure(max(thin_mm, thick_mm), step_mm),
            concerns,
        )
    if plate is not None:
        yield from _edge_finding(job, known, place, hinge, plate, front, source, concerns)


def _cup_findings(
    job: Job,
    place: str,
    hinge: Hinge,
    front: PlacedFront,
    given_mm: tuple[float, ...],
    source: str,
    concerns: tuple[str, ...],
) -> Iterator[Finding]:
    step_mm = job.holes.shop_mm
    if not front.cups_mm:
        yield Finding(
            "hinge.no_room",
            Severity.STOP,
            place,
            f"The door is {text_mm(front.height_mm, step_mm)} high: with {hinge.name} "
            f"{text_mm(hinge.end_mm, step_mm)} from either end no room is left for its hinges.",
            "Give the heights of the cups, take another hinge, or make the door higher.",
            source,
            None,
            concerns,
        )
    reach_mm = max(hinge.cup_mm, hinge.screws_apart_mm + hinge.screw_mm) / 2
    outside = [mm for mm in given_mm if mm - reach_mm < -SAME_MM or mm + reach_mm > front.height_mm + SAME_MM]
    if outside:
        yield Finding(
            "hinge.cup_outside",
            Severity.STOP,
            place,
            f"Cups at {listed([text_mm(mm, step_mm) for mm in outside])} do not lie on the door, which is "
            f"{text_mm(front.height_mm, step_mm)} high.",
            f"Give heights from {text_mm(reach_mm, step_mm)} to {text_mm(front.height_mm - reach_mm, step_mm)}.",
            source,
            figure(max(max(reach_mm - mm, mm + reach_mm - front.height_mm) for mm in outside), step_mm),
            concerns,
        )


def _edge_finding(
    job: Job,
    known: Hardware,
    place: str,
    hinge: Hinge,
    plate: Plate,
    front: PlacedFront,
    source: str,
    concerns: tuple[str, ...],
) -> Iterator[Finding]:
    step_mm = job.holes.shop_mm
    assert front.edge_mm is not None and front.overlay_mm is not None
    short_mm, over_mm = hinge.least_edge_mm - front.edge_mm, front.edge_mm - hinge.greatest_edge_mm
    if max(short_mm, over_mm) <= SAME_MM:
        return
    least_mm = hinge.least_edge_mm + hinge.constant_mm - front.overlay_mm
    greatest_mm = hinge.greatest_edge_mm + hinge.constant_mm - front.overlay_mm
    would_do = [
        one
        for one in known.rows.values()
        if isinstance(one, Plate) and least_mm - SAME_MM <= one.height_mm <= greatest_mm + SAME_MM
    ]
    heights = f"{text_mm(least_mm, step_mm)} to {text_mm(greatest_mm, step_mm)}"
    if would_do:
        cure = f"{listed([f'{one.name}, {text_mm(one.height_mm, step_mm)} high,' for one in would_do])} would do."
    elif greatest_mm < 0:
        cure = "No plate is that low: make the door wider, or take another hinge."
    else:
        cure = f"A plate {heights} high would do, and this job's charts have none: type one in, or take another hinge."
    yield Finding(
        "hinge.edge_distance",
        Severity.STOP,
        place,
        f"For an overlay of {text_mm(front.overlay_mm, step_mm)} on {plate.name} the cup's rim would lie "
        f"{text_mm(front.edge_mm, step_mm)} from the door's edge; {hinge.name} allows "
        f"{text_mm(hinge.least_edge_mm, step_mm)} to {text_mm(hinge.greatest_edge_mm, step_mm)}.",
        cure,
        source,
        figure(max(short_mm, over_mm), step_mm),
        concerns,
    )
