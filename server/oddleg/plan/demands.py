"""What the room asks of the datum: every leg, appliance and height limit as one demand on one unknown, D.

D is the level of the base carcasses' tops over the bench mark, mm. A run with an offset has its top at D + offset; the
demands are all put as demands on D itself.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from oddleg.job import Appliance, ApplianceBay, ApplianceSeat, Bound, HeightLimit, HeightOf, Job, Room

from .bay_floor import bay_floor
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .finished_floor import Floor
from .heights import SAME_MM, Height, heights, worktop_over_datum_mm
from .legs import StandingLeg, unit_words
from .levels import StationLevel
from .rod import Placed
from .sightings import listed
from .sources import floor_words

# What stands on the floor and has to go in under the top or level with it; a hob or a hood goes with the top.
ON_THE_FLOOR = (ApplianceSeat.UNDER_TOP, ApplianceSeat.BESIDE_TOP)


class End(StrEnum):
    """Which end of the interval a demand sets."""

    LEAST = "least"
    GREATEST = "greatest"


class Subject(StrEnum):
    """What asks."""

    LEG = "leg"
    APPLIANCE = "appliance"
    LIMIT = "limit"


@dataclass(frozen=True)
class Demand:
    """One thing that wants the datum at least or at most so high. `name` names it in plain words ("dishwasher under the
    top", "front left leg of unit 3 at its shortest"); `datum_mm` is the D that it asks for; `cure` what would ease it.
    `rests_on`: ids of the stations that its floor or limit was read at.
    """

    id: str
    name: str
    end: End
    datum_mm: float
    datum: Figure
    cure: str
    concerns: tuple[str, ...]
    subject: Subject = Subject.LEG
    rests_on: tuple[str, ...] = ()

    def slack_mm(self, datum_mm: float) -> float:
        """How far `datum_mm` stays inside what is asked, mm; below 0 it is not met."""
        return datum_mm - self.datum_mm if self.end is End.LEAST else self.datum_mm - datum_mm


@dataclass(frozen=True)
class Interval:
    """The datums that meet every demand: from `least` to `greatest`, the demands that bind (None: nothing does)."""

    least: Demand | None
    greatest: Demand | None

    @property
    def clash_mm(self) -> float:
        """By how much the ends pass one another; 0 where a datum can be had."""
        if self.least is None or self.greatest is None:
            return 0.0
        over_mm = self.least.datum_mm - self.greatest.datum_mm
        return over_mm if over_mm > SAME_MM else 0.0

    def broken_by(self, datum_mm: float) -> Demand | None:
        """The demand that this datum breaks worst, None inside the interval."""
        broken = [one for one in (self.least, self.greatest) if one and one.slack_mm(datum_mm) < -SAME_MM]
        return min(broken, key=lambda one: one.slack_mm(datum_mm), default=None)


def interval(demands: Sequence[Demand]) -> Interval:
    """The feasible interval of D. Of equal demands the first binds."""
    leasts = [one for one in demands if one.end is End.LEAST]
    greatests = [one for one in demands if one.end is End.GREATEST]
    return Interval(
        max(leasts, key=lambda one: one.datum_mm, default=None),
        min(greatests, key=lambda one: one.datum_mm, default=None),
    )


def demands(
    job: Job,
    room: Room,
    placed: Sequence[Placed],
    standing: Sequence[StandingLeg],
    floor: Floor,
    station_levels: Mapping[str, StationLevel],
    names: Mapping[str, str],
) -> tuple[tuple[Demand, ...], tuple[Finding, ...]]:
    """All demands of a room, and what could not be asked for want of a reading.

    `standing`: legs.standing_legs of the same room. `station_levels`: station id to its level, for height limits.
    `names`: station id to its name.
    """
    asked: list[Demand] = [demand for leg in standing for demand in _leg(leg, names, job.rounding_mm)]
    findings: list[Finding] = []
    for one in placed:
        if one.stands and isinstance(one.item, ApplianceBay) and one.item.appliance.seat in ON_THE_FLOOR:
            told, missing = _appliance(job, room, one, one.item, floor, names)
            asked.extend(told)
            findings.extend(missing)
    rising = heights(job, room, placed)
    for limit in room.height_limits:
        limited, missing = _limit(job, room, limit, rising, station_levels, names)
        asked.extend(limited)
        findings.extend(missing)
    return tuple(asked), tuple(findings)


def _leg(leg: StandingLeg, names: Mapping[str, str], step_mm: float) -> tuple[Demand, ...]:
    """D >= floor + shortest leg + reserve + what the underside hangs below D, and the same at the longest."""
    least_mm, greatest_mm = leg.datum_for_height_mm(leg.least_mm), leg.datum_for_height_mm(leg.greatest_mm)
    if leg.floor is None or least_mm is None or greatest_mm is None:
        return ()
    below = f"{text_mm(leg.underside_below_datum_mm, step_mm)} from the underside up to the datum"
    where = floor_words(leg.floor, names, step_mm)
    reserve = f"reserve {text_mm(leg.legs.reserve_mm, step_mm)}"
    stations = tuple(station for station, _ in leg.floor.rests_on)
    concerns = (leg.placed.item.id, *stations)
    item, unit = leg.placed.item.id, unit_words(leg)
    return (
        Demand(
            f"leg/{item}/{leg.place.id}/least",
            f"{leg.place.name} leg of {unit} at its shortest",
            End.LEAST,
            least_mm,
            figure(
                least_mm,
                step_mm,
                f"Shortest leg {text_mm(leg.legs.least_mm, step_mm)} plus {reserve} plus {below}, on the {where}.",
            ),
            f"a shorter leg under {unit}",
            concerns,
            Subject.LEG,
            stations,
        ),
        Demand(
            f"leg/{item}/{leg.place.id}/greatest",
            f"{leg.place.name} leg of {unit} at its longest",
            End.GREATEST,
            greatest_mm,
            figure(
                greatest_mm,
                step_mm,
                f"Longest leg {text_mm(leg.legs.greatest_mm, step_mm)} less {reserve} plus {below}, on the {where}.",
            ),
            f"a longer leg under {unit}",
            concerns,
            Subject.LEG,
            stations,
        ),
    )


def _appliance(
    job: Job, room: Room, placed: Placed, bay: ApplianceBay, floor: Floor, names: Mapping[str, str]
) -> tuple[list[Demand], list[Finding]]:
    """Under the top: the run's top at least the highest finished floor on its way plus the opening it wants; built in,
    at most the lowest floor in its bay plus what it and its brackets reach. Beside the top: the worktop no higher than
    the lowest floor plus the appliance at its highest."""
    machine, step_mm, offset_mm = bay.appliance, job.rounding_mm, placed.run.datum_offset_mm
    met = bay_floor(placed, bay, floor)
    if met.highest is None or met.lowest is None:
        return [], [_no_bay_floor(bay, "No floor is known in its bay: it asks nothing of the datum yet.")]
    findings = []
    if not met.whole:
        findings.append(_no_bay_floor(bay, "Part of the floor in its bay or on its way out is not known."))
    offset = f", less the run's offset {text_mm(offset_mm, step_mm)}" if offset_mm else ""

    def demand(end: End, words: str, datum_mm: float, level_words: str, stations: tuple[str, ...], cure: str) -> Demand:
        why = f"{level_words}{offset}."
        return Demand(
            f"appliance/{bay.id}/{end}",
            f"{machine.name} {words}",
            end,
            datum_mm,
            figure(datum_mm, step_mm, why),
            cure,
            (bay.id, *stations),
            Subject.APPLIANCE,
            stations,
        )

    high, low = met.highest, met.lowest
    high_on, low_on = (tuple(station for station, _ in level.rests_on) for level in (high, low))
    told = []
    if machine.seat is ApplianceSeat.UNDER_TOP:
        told.append(
            demand(
                End.LEAST,
                "under the top",
                high.level_mm + machine.least_height_mm - offset_mm,
                f"Opening wanted {text_mm(machine.least_height_mm, step_mm)} over the highest finished floor on its "
                f"way in and out ({floor_words(high, names, step_mm)})",
                high_on,
                f"a lower {machine.name}, or less floor on its way",
            )
        )
        if machine.built_in and machine.greatest_height_mm is not None:
            reach_mm = machine.greatest_height_mm + machine.bracket_reach_mm
            told.append(
                demand(
                    End.GREATEST,
                    "built in, brackets to the top",
                    low.level_mm + reach_mm - offset_mm,
                    f"Highest {text_mm(machine.greatest_height_mm, step_mm)} plus bracket reach "
                    f"{text_mm(machine.bracket_reach_mm, step_mm)} over the lowest finished floor in its bay "
                    f"({floor_words(low, names, step_mm)})",
                    low_on,
                    f"a board under the {machine.name}, or longer brackets if its sheet allows them",
                )
            )
    elif machine.seat is ApplianceSeat.BESIDE_TOP and machine.greatest_height_mm is not None:
        top_mm = worktop_over_datum_mm(room, offset_mm)
        told.append(
            demand(
                End.GREATEST,
                "beside the top",
                low.level_mm + machine.greatest_height_mm - top_mm,
                f"Highest {text_mm(machine.greatest_height_mm, step_mm)} over the lowest finished floor in its bay "
                f"({floor_words(low, names, step_mm)}), less build-up {text_mm(room.worktop.build_up_mm, step_mm)} and "
                f"worktop {text_mm(room.worktop.thickness_mm, step_mm)}",
                low_on,
                f"a thinner worktop, or a board under the {machine.name}",
            )
        )
    return told, findings + _reversed(bay, machine, step_mm)


def _reversed(bay: ApplianceBay, machine: Appliance, step_mm: float) -> list[Finding]:
    greatest_mm = machine.greatest_height_mm
    if greatest_mm is None or greatest_mm >= machine.least_height_mm:
        return []
    return [
        Finding(
            "datum.appliance_reversed",
            Severity.WARN,
            bay.name,
            f"The {machine.name} is lower at its highest ({text_mm(greatest_mm, step_mm)}) than at its lowest "
            f"({text_mm(machine.least_height_mm, step_mm)}).",
            "Read both heights off its sheet again.",
            "the appliance's own sheet",
            concerns=(bay.id,),
        )
    ]


def _no_bay_floor(bay: ApplianceBay, wrong: str) -> Finding:
    return Finding(
        "datum.bay_floor_unknown",
        Severity.WARN,
        f"{bay.name} ({bay.appliance.name})",
        wrong,
        "Read a station in the bay and one in front of it.",
        "an appliance goes in and comes out over the finished floor",
        concerns=(bay.id,),
    )


def _limit(
    job: Job,
    room: Room,
    limit: HeightLimit,
    rising: Sequence[Height],
    station_levels: Mapping[str, StationLevel],
    names: Mapping[str, str],
) -> tuple[list[Demand], list[Finding]]:
    """A height that must stay under or over a limit by its clearance, put as a demand on D by the item it binds."""
    step_mm, low_end = job.rounding_mm, limit.bound is Bound.AT_LEAST
    concerned = _limited(room, limit, rising)
    if not concerned:
        what = limit.height_of.value.replace("_", " ")
        return [], [_limit_finding(limit, Severity.NOTE, f"It limits a {what}, and nothing in this room has one.", "")]
    findings = []
    level_mm, give_mm = limit.level_mm, 0.0
    stations: tuple[str, ...] = ()
    if level_mm is None:
        read = [station_levels[station] for station in limit.stations if station in station_levels]
        missing = [names.get(station, station) for station in limit.stations if station not in station_levels]
        if missing:
            wrong = f"It has no level at {listed(missing)}"
            wrong += ": it is taken from the rest." if read else " yet: it asks nothing of the datum."
            findings.append(_limit_finding(limit, Severity.WARN, wrong, f"Read {listed(missing)}."))
        if not read:
            return [], findings or [_limit_finding(limit, Severity.WARN, "It has neither a level nor a station.", "")]
        rules = max(read, key=lambda one: one.level_mm) if low_end else min(read, key=lambda one: one.level_mm)
        level_mm, give_mm, stations = rules.level_mm, rules.half_width_mm, (rules.station,)
    pick = min if low_end else max
    binding = pick(concerned, key=lambda one: one.over_datum_mm)
    clear_mm = limit.clearance_mm if low_end else -limit.clearance_mm
    datum_mm = level_mm + clear_mm - binding.over_datum_mm
    where = "as given"
    if stations:
        where = f"read at {names.get(stations[0], stations[0])}, give or take {text_mm(give_mm, step_mm)}"
    why = (
        f"{limit.name} {text_mm(level_mm, step_mm)}, {where}; {'plus' if low_end else 'less'} clearance "
        f"{text_mm(limit.clearance_mm, step_mm)}; the {binding.name} is {binding.how}."
    )
    return [
        Demand(
            f"limit/{limit.id}",
            f"{binding.name} {'over' if low_end else 'under'} {limit.name}",
            End.LEAST if low_end else End.GREATEST,
            datum_mm,
            figure(datum_mm, step_mm, why),
            f"ask whether {limit.name} or its clearance may give, or another size there",
            (room.id, *binding.concerns, *stations),
            Subject.LIMIT,
            stations,
        )
    ], findings


def _limited(room: Room, limit: HeightLimit, rising: Sequence[Height]) -> list[Height]:
    """The heights that a limit speaks of. A sill or the like limits the worktops along walls; a free-standing run's
    worktop counts only where no run of the room stands at a wall."""
    of_kind = [one for one in rising if one.of is limit.height_of]
    if limit.height_of is not HeightOf.WORKTOP_TOP:
        return of_kind
    at_walls = {run.id for run in room.runs if run.wall is not None}
    return [one for one in of_kind if one.concerns[0] in at_walls] or of_kind


def _limit_finding(limit: HeightLimit, severity: Severity, wrong: str, cure: str) -> Finding:
    return Finding(
        "datum.limit_without_level" if severity is Severity.WARN else "datum.limit_of_nothing",
        severity,
        limit.name,
        wrong,
        cure or "Ask the office to look at this limit in the job.",
        "a height limit of the job",
        concerns=(limit.id, *limit.stations),
    )
