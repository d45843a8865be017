"""Computation 5: the height of every leg, and the bench preset of every carcass."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import Entry, Job, Legs, LegsSet, Point, Room, Tolerances

from .axes import to_room
from .figure import Figure, figure, rounded_mm, text_mm
from .finding import Finding, Severity
from .finished_floor import Floor
from .heights import SAME_MM, underside_below_datum_mm
from .plinth import gap_places
from .rod import Placed
from .sightings import listed
from .site import body
from .sources import floor_words, readings_words, station_names
from .surfaces import SurfaceLevel

LEG_STEP_MM = 1.0
"""Leg heights are set and pencilled in whole mm (common practice)."""

ROWS = {
    2: (("L", "left"), ("R", "right")),
    3: (("L", "left"), ("M", "middle"), ("R", "right")),
    4: (("L", "left"), ("ML", "middle left"), ("MR", "middle right"), ("R", "right")),
}
"""Letter and word of each leg in a row of so many, left to right as fitted."""


@dataclass(frozen=True)
class LegPlace:
    """Where a leg stands. `id`: B or F for its row and a letter of ROWS, as fitted, facing the wall."""

    id: str
    name: str
    x_mm: float
    y_mm: float
    spot: Point


@dataclass(frozen=True)
class LegHeight:
    """`height` is whole mm as shown. `differs` from the preset, signed. `set_at`: already set at this height; `wind`:
    what to wind out (+) or in (-) now, None within the job's tolerance. `exact`: preset exactly, nobody
    reaches it later (back legs). `bench_column` 0 is on your left with the carcass upside down and its front towards
    you; `bench_row` 0 is nearest to you (the front).
    """

    place: LegPlace
    floor: SurfaceLevel
    height: Figure
    differs: Figure
    exact: bool
    bench_column: int
    bench_row: int
    set_at: Figure | None = None
    wind: Figure | None = None


@dataclass(frozen=True)
class CornerGap:
    """The plinth gap at one front corner of a unit, "left" or "right", at the decided datum."""

    side: str
    gap: Figure


@dataclass(frozen=True)
class UnitLegs:
    """Legs of one carcass at the decided `datum`; `underside` is the carcass's underside over the bench mark. `gaps`:
    at its front corners, those where the finished floor is known."""

    placed: Placed
    number: int
    datum: Figure
    underside: Figure
    preset: Figure
    legs: tuple[LegHeight, ...]
    gaps: tuple[CornerGap, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class StandingLeg:
    """One leg of one unit, before any datum: the floor that it stands on, None where none is known."""

    placed: Placed
    number: int
    legs: Legs
    place: LegPlace
    floor: SurfaceLevel | None
    underside_below_datum_mm: float

    @property
    def least_mm(self) -> float:
        return self.legs.least_mm + self.legs.reserve_mm

    @property
    def greatest_mm(self) -> float:
        return self.legs.greatest_mm - self.legs.reserve_mm

    def height_mm(self, datum_mm: float) -> float | None:
        """Underside of the carcass above the floor that the leg stands on, mm, at this datum."""
        return None if self.floor is None else datum_mm - self.underside_below_datum_mm - self.floor.level_mm

    def datum_for_height_mm(self, height_mm: float) -> float | None:
        """The datum at which this leg is `height_mm` high."""
        return None if self.floor is None else height_mm + self.underside_below_datum_mm + self.floor.level_mm


def leg_places(placed: Placed, tolerances: Tolerances) -> tuple[LegPlace, ...]:
    """Where the legs of a unit stand, back row first, left to right, facing the wall as fitted.

    Four at the insets; six, with one in the middle of each row, from the job's width on (common practice: five or more
    from about 900). A stated count n puts half of them at the back and the larger half in front: 5 is FL, FM, FR, BL,
    BR; 8 is four and four, those between the ends named ML and MR. Evenly spaced between the side insets.
    """
    legs, front_mm = placed.legs, placed.front_mm
    if legs is None or front_mm is None:
        return ()
    count = legs.count if legs.count is not None else 6 if placed.item.width_mm >= tolerances.six_legs_from_mm else 4
    back = _row("B", "back", count // 2, placed, placed.back_mm + legs.inset_back_mm, legs)
    front = _row("F", "front", count - count // 2, placed, front_mm - legs.inset_front_mm, legs)
    return back + front


def _row(letter: str, row: str, count: int, placed: Placed, y_mm: float, legs: Legs) -> tuple[LegPlace, ...]:
    body_left_mm, body_right_mm = placed.body_mm
    left_mm, right_mm = body_left_mm + legs.inset_side_mm, body_right_mm - legs.inset_side_mm
    places = []
    for i, (code, word) in enumerate(ROWS[count]):
        x_mm = left_mm + (right_mm - left_mm) * i / (count - 1)
        places.append(LegPlace(letter + code, f"{row} {word}", x_mm, y_mm, to_room(placed.run, x_mm, y_mm)))
    return tuple(places)


def unit_numbers(placed: Sequence[Placed]) -> dict[str, int]:
    """Item id to the number on its label: 1, 2, 3 over the units on legs of a room, in the order of runs and items."""
    on_legs = [one.item.id for one in placed if one.legs is not None]
    return {item: number for number, item in enumerate(on_legs, 1)}


def standing_legs(job: Job, placed: Sequence[Placed], floor: Floor) -> tuple[StandingLeg, ...]:
    """Every leg of the room on what it stands on when it is set."""
    numbers = unit_numbers(placed)
    standing = []
    for one in placed:
        below_mm, legs = underside_below_datum_mm(job, one), one.legs
        if below_mm is None or legs is None:
            continue
        for place in leg_places(one, job.tolerances):
            level = floor.under_legs.at(place.spot.x_mm, place.spot.y_mm)
            standing.append(StandingLeg(one, numbers[one.item.id], legs, place, level, below_mm))
    return tuple(standing)


def unit_legs(
    job: Job,
    room: Room,
    placed: Sequence[Placed],
    floor: Floor,
    datum_mm: float | None,
    legs_set: Sequence[Entry],
    readings: Sequence[Entry],
) -> tuple[UnitLegs, ...]:
    """Leg heights of every unit at the decided datum; nothing without one, since no leg is set before it is chosen.

    `legs_set`, `readings`: the room's live entries of these kinds. A unit none of whose legs stands on a known floor is
    left out here; the datum's findings name it.
    """
    if datum_mm is None:
        return ()
    names = station_names(room, floor, readings)
    by_unit: dict[str, list[StandingLeg]] = {}
    for leg in standing_legs(job, placed, floor):
        by_unit.setdefault(leg.placed.item.id, []).append(leg)
    said = {item: [entry for entry in legs_set if body(entry, LegsSet).item == item] for item in by_unit}
    gaps: dict[str, list[CornerGap]] = {item: [] for item in by_unit}
    for corner in gap_places(job, placed, floor)[0]:
        why = (
            f"Datum {text_mm(datum_mm, job.rounding_mm)} less {text_mm(corner.edge_below_datum_mm, job.rounding_mm)} "
            f"to the lowest visible edge, less finished {floor_words(corner.floor, names, job.rounding_mm)}."
        )
        gap = figure(corner.gap_mm(datum_mm), job.rounding_mm, why)
        gaps[corner.placed.item.id].append(CornerGap(corner.side, gap))
    units = (_unit(job, legs, datum_mm, said[item], gaps[item], readings, names) for item, legs in by_unit.items())
    return tuple(unit for unit in units if unit is not None)


def _unit(
    job: Job,
    standing: Sequence[StandingLeg],
    datum_mm: float,
    legs_set: Sequence[Entry],
    gaps: Sequence[CornerGap],
    readings: Sequence[Entry],
    names: Mapping[str, str],
) -> UnitLegs | None:
    known = [(leg, leg.floor, leg.height_mm(datum_mm)) for leg in standing]
    stands = [(leg, level, mm) for leg, level, mm in known if level is not None and mm is not None]
    if not stands:
        return None
    first, step_mm = standing[0], job.rounding_mm
    shown = [int(rounded_mm(mm, LEG_STEP_MM)) for _, _, mm in stands]
    preset = preset_mm(shown)
    below_mm = first.underside_below_datum_mm
    sum_words = f"Datum {text_mm(datum_mm, step_mm)} less {text_mm(below_mm, step_mm)} to the underside"
    columns = sorted({round(leg.place.x_mm, 6) for leg in standing}, reverse=True)
    set_entry = legs_set[0] if len(legs_set) == 1 else None
    set_heights = dict(body(set_entry, LegsSet).heights_mm) if set_entry else {}
    legs, findings = [], _unknown(standing) + _set_twice(first, legs_set)
    for (leg, level, mm), whole in zip(stands, shown, strict=True):
        back = leg.place.id.startswith("B")
        set_at, wind = None, None
        if leg.place.id in set_heights:
            at_mm = set_heights[leg.place.id]
            set_at = figure(at_mm, step_mm, "As set and ticked on the bench.")
            if abs(mm - at_mm) > job.tolerances.leg_set_mm + SAME_MM:
                wind = figure(whole - at_mm, step_mm, f"{text_mm(whole)} now less {set_at.text} as set.", signed=True)
        legs.append(
            LegHeight(
                leg.place,
                level,
                figure(mm, LEG_STEP_MM, f"{sum_words}, less {floor_words(level, names, step_mm)}."),
                figure(
                    whole - preset, LEG_STEP_MM, f"{text_mm(whole)} less the preset {text_mm(preset)}.", signed=True
                ),
                exact=back,
                bench_column=columns.index(round(leg.place.x_mm, 6)),
                bench_row=1 if back else 0,
                set_at=set_at,
                wind=wind,
            )
        )
        findings.extend(_out_of_range(leg, mm, step_mm))
    if set_entry is not None:
        findings.extend(_moved(first, legs, set_entry, readings, names, job))
    many = shown.count(preset)
    return UnitLegs(
        first.placed,
        first.number,
        figure(datum_mm, step_mm, "The datum as chosen."),
        figure(datum_mm - below_mm, step_mm, f"{sum_words}, above the bench mark."),
        figure(preset, LEG_STEP_MM, f"The height of {many} of {len(shown)} legs, the most common one."),
        tuple(legs),
        tuple(gaps),
        tuple(findings),
    )


def preset_mm(heights: Sequence[int]) -> int:
    """The most common of the heights in whole mm; of equally common ones the nearest to the mean, then the smaller."""
    count, mean = Counter(heights), sum(heights) / len(heights)
    return min(count, key=lambda height: (-count[height], abs(height - mean), height))


def unit_words(leg: StandingLeg) -> str:
    return f"unit {leg.number} ({leg.placed.item.name})"


def _unknown(standing: Sequence[StandingLeg]) -> list[Finding]:
    missing = [leg.place.name for leg in standing if leg.floor is None]
    if not missing:
        return []
    return [
        Finding(
            "legs.unknown",
            Severity.STOP,
            unit_words(standing[0]),
            f"No floor is known under the {listed(missing)} leg{'s' if len(missing) > 1 else ''}.",
            "Read a station there before these legs are set.",
            "a leg height is the underside less the floor under it",
            concerns=(standing[0].placed.item.id,),
        )
    ]


def _out_of_range(leg: StandingLeg, height_mm: float, step_mm: float) -> list[Finding]:
    least_mm, greatest_mm = leg.least_mm, leg.greatest_mm
    if least_mm - SAME_MM <= height_mm <= greatest_mm + SAME_MM:
        return []
    over = height_mm > greatest_mm
    out_mm = height_mm - greatest_mm if over else least_mm - height_mm
    return [
        Finding(
            "legs.out_of_range",
            Severity.STOP,
            unit_words(leg),
            f"The {leg.place.name} leg would be {text_mm(height_mm, LEG_STEP_MM)}; with the reserve at both ends it "
            f"goes from {text_mm(least_mm, step_mm)} to {text_mm(greatest_mm, step_mm)}.",
            "Choose a datum that it can reach, or a longer leg."
            if over
            else "Choose a datum that it can reach, or a shorter leg.",
            "the leg's range less the job's reserve",
            figure(out_mm, step_mm),
            (leg.placed.item.id,),
        )
    ]


def _set_twice(leg: StandingLeg, legs_set: Sequence[Entry]) -> list[Finding]:
    if len(legs_set) < 2:
        return []
    said = [
        ", ".join(f"{name} {text_mm(mm)}" for name, mm in body(entry, LegsSet).heights_mm) + f" by {entry.person}"
        for entry in legs_set
    ]
    return [
        Finding(
            "legs.set_twice",
            Severity.WARN,
            unit_words(leg),
            f"Its legs were ticked as set more than once, and all of it stands: {'; '.join(said)}. None is used.",
            "Measure the legs and undo the entries that are wrong.",
            "one carcass, one setting",
            concerns=(leg.placed.item.id, *(entry.uid for entry in legs_set)),
        )
    ]


def _moved(
    leg: StandingLeg,
    legs: Sequence[LegHeight],
    entry: Entry,
    readings: Sequence[Entry],
    names: Mapping[str, str],
    job: Job,
) -> list[Finding]:
    """Legs already set that are now due elsewhere, by more than the job's tolerance; and names that fit no leg."""
    here = {one.place.id for one in legs}
    strange = [name for name, _ in body(entry, LegsSet).heights_mm if name not in here]
    findings = []
    if strange:
        findings.append(
            Finding(
                "legs.set_unknown",
                Severity.NOTE,
                unit_words(leg),
                f"It was ticked as set at {listed(strange)}, where it has no leg with a height now.",
                "Check the unit's legs and tick them again.",
                "one height a leg",
                concerns=(leg.placed.item.id, entry.uid),
            )
        )
    out = [(one, one.set_at, one.wind) for one in legs if one.set_at is not None and one.wind is not None]
    if not out:
        return findings
    said = [
        f"{one.place.name} {was.text} was, {one.height.text} now, already set: wind "
        f"{'out' if wind.mm > 0 else 'in'} {text_mm(abs(wind.mm), job.rounding_mm)}"
        for one, was, wind in out
        if was is not None and wind is not None
    ]
    worst = max((wind for _, _, wind in out if wind is not None), key=lambda wind: abs(wind.mm))
    stations = [station for one, _, _ in out for station, _ in one.floor.rests_on]
    findings.append(
        Finding(
            "legs.set_moved",
            Severity.STOP,
            unit_words(leg),
            f"Legs of unit {leg.number}: {'; '.join(said)}. "
            + readings_words(stations, names, readings, job.rounding_mm, entry.position),
            "Wind them as said and tick them again; if the tape on the legs says otherwise, tick what it says.",
            f"more than {text_mm(job.tolerances.leg_set_mm)} off what was set",
            worst,
            (leg.placed.item.id, *dict.fromkeys(stations)),
        )
    )
    return findings
