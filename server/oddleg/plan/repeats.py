"""Readings of one spot in one set-up held against each other: repeats, reading noise, and a laser that was knocked."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence

from oddleg.job import Tolerances

from .figure import figure
from .finding import Finding, Severity
from .knock_places import knock_places
from .sightings import DIFFERENCE_STEP_MM, Sighting, counted, listed, shown_mm

# Enough differences for a standard deviation of the job's own that is worth more than the job's stated figure.
LEAST_DIFFERENCES = 6
_HAIR_MM = 1e-9


def spread_mm(sightings: Sequence[Sighting]) -> float:
    """Largest less smallest, mm, of readings of one spot."""
    return max(one.below_plane_mm for one in sightings) - min(one.below_plane_mm for one in sightings)


def by_spot(sightings: Sequence[Sighting]) -> dict[tuple[str, str], list[Sighting]]:
    """(set-up, station) to its readings in the order in which they were taken. A set-up has one stage."""
    spots: dict[tuple[str, str], list[Sighting]] = defaultdict(list)
    for one in sorted(sightings, key=lambda one: (one.position, one.uid)):
        spots[one.set_up, one.station].append(one)
    return dict(sorted(spots.items()))


def pooled_noise_mm(sightings: Sequence[Sighting], resolution_mm: float) -> float | None:
    """Standard deviation of one reading, pooled over all repeats; None below six differences (readings less spots).

    Never less than what rounding to the rule's resolution alone gives, resolution / root 12 (uniform distribution).
    """
    squares, differences = 0.0, 0
    for spot in by_spot(sightings).values():
        mean = math.fsum(one.below_plane_mm for one in spot) / len(spot)
        squares += math.fsum((one.below_plane_mm - mean) ** 2 for one in spot)
        differences += len(spot) - 1
    if differences < LEAST_DIFFERENCES:
        return None
    return max(math.sqrt(squares / differences), resolution_mm / math.sqrt(12.0))


def contradictions(
    sightings: Sequence[Sighting], called: Mapping[str, str], tolerances: Tolerances
) -> tuple[frozenset[str], list[Finding]]:
    """Uids of repeats that differ by more than `repeat_mm`, with a stop for each spot."""
    uids: set[str] = set()
    findings = []
    for (set_up, station), spot in by_spot(sightings).items():
        if spread_mm(spot) <= tolerances.repeat_mm + _HAIR_MM:
            continue
        uids |= {one.uid for one in spot}
        findings.append(
            Finding(
                "levels.repeats_differ",
                Severity.STOP,
                f"{called[station]}, {called[set_up]}",
                f"{len(spot)} readings of one spot differ by {shown_mm(spread_mm(spot))}, more than "
                f"{shown_mm(tolerances.repeat_mm)}: there is no level here.",
                f"Read {called[station]} again and undo the reading that is wrong.",
                "the job's tolerance for repeats",
                figure(spread_mm(spot), DIFFERENCE_STEP_MM),
                (station, set_up),
            )
        )
    return frozenset(uids), findings


def knocks(
    sightings: Sequence[Sighting], called: Mapping[str, str], tolerances: Tolerances
) -> tuple[frozenset[str], list[Finding]]:
    """Set-ups whose first and last reading of a bench mark differ by more than `knock_mm`, with a stop for each.

    Such a set-up has two planes. They are never averaged: either the break is found, or the readings do not count.
    """
    shifted: dict[str, tuple[float, str]] = {}
    for (set_up, station), spot in by_spot([one for one in sightings if one.is_mark]).items():
        shift_mm = spot[-1].below_plane_mm - spot[0].below_plane_mm
        if abs(shift_mm) > max(tolerances.knock_mm + _HAIR_MM, abs(shifted.get(set_up, (0.0, ""))[0])):
            shifted[set_up] = (shift_mm, station)
    findings = []
    for set_up, (shift_mm, mark) in sorted(shifted.items()):
        taken = sorted((one for one in sightings if one.set_up == set_up), key=lambda one: (one.position, one.uid))
        findings.append(
            Finding(
                "levels.knocked",
                Severity.STOP,
                called[set_up],
                f"First and last reading of {called[mark]} differ by {shown_mm(abs(shift_mm))}, more than "
                f"{shown_mm(tolerances.knock_mm)}: the laser was knocked in between. "
                + _break_words(taken, shift_mm, called),
                _mending(taken, shift_mm, mark, called),
                "the job's tolerance for a bench mark read first and last",
                figure(abs(shift_mm), DIFFERENCE_STEP_MM),
                (set_up, mark),
            )
        )
    return frozenset(shifted), findings


def _breaks(taken: Sequence[Sighting], shift_mm: float) -> list[int]:
    """Where the plane may have moved: each index whose reading may be the first after a single knock."""
    return knock_places([one.station for one in taken], [one.below_plane_mm for one in taken], shift_mm)


def _break_words(taken: Sequence[Sighting], shift_mm: float, called: Mapping[str, str]) -> str:
    breaks = _breaks(taken, shift_mm)
    if not breaks:
        return "The readings taken again do not fit one knock: it moved more than once."
    words = f"between {called[taken[breaks[0] - 1].station]} and {called[taken[breaks[-1]].station]}"
    return f"It moved {words}." if len(breaks) == 1 else f"It moved somewhere {words}."


def _mending(taken: Sequence[Sighting], shift_mm: float, mark: str, called: Mapping[str, str]) -> str:
    breaks = _breaks(taken, shift_mm)
    set_up = called[taken[0].set_up]
    if not breaks:
        return f"Start a new set-up, read {called[mark]} and everything again there, and undo the readings of {set_up}."
    if len(breaks) > 1:
        again = list(dict.fromkeys(called[taken[index].station] for index in reversed(range(breaks[0], breaks[-1]))))
        return (
            f"Leave the laser where it is and read again, newest first: {', then '.join(again)}; "
            "stop at the first that no longer agrees with itself: the knock came after it."
        )
    after = taken[breaks[0] :]
    before = {one.station for one in taken[: breaks[0]]}
    lost = [called[one.station] for one in after if one.station not in before]
    again = list(dict.fromkeys([called[mark], *lost]))
    return (
        f"Start a new set-up and read {listed(again)} there; undo the {counted(len(after), 'reading')} of {set_up} "
        f"from {called[after[0].station]} on. What was read before stands."
    )
