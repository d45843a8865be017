"""Computation 4: the one level that every cabinet and appliance of a room can live with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import DatumDecision, Entry, Job, LegsSet, Room

from .datum_choices import Choice, ChoiceName, Ground, choices
from .demands import Demand, End, Interval, Subject, demands, interval
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .finished_floor import Floor
from .guesses import guesses
from .heights import SAME_MM, Chain, chain, clear_findings
from .legs import StandingLeg, standing_legs, unit_words
from .levels import StationLevel
from .moment import local_time
from .plinth import gap_places
from .rod import Placed
from .sightings import listed
from .site import body
from .sources import readings_words, station_names

__all__ = ["Chain", "Choice", "ChoiceName", "Datum", "Decided", "Demand", "End", "Slack", "Subject", "datum"]


TIGHTEST = 12
"""So many demands of each end of the interval are shown."""


@dataclass(frozen=True)
class Slack:
    """How far the interval's own end, or a chosen datum, stays from what a demand asks, mm (0: it binds)."""

    demand: Demand
    slack: Figure


@dataclass(frozen=True)
class Decided:
    choice: str
    datum: Figure
    entry: str
    person: str
    at_utc: str


@dataclass(frozen=True)
class Datum:
    """`least`, `greatest`: the demands that bind the interval's ends (None where nothing does). `clash_mm` above 0: no
    D can be had, by so much. `decided` never moves by itself. `slacks`: of every demand at the decided D, else at the
    interval's own ends, the tightest first. `guesses`: what rests on figures that nobody has confirmed. `rivals`: uids
    of decisions that all stand; none of them is used.
    """

    room: str
    demands: tuple[Demand, ...]
    least: Demand | None
    greatest: Demand | None
    clash_mm: float
    slacks: tuple[Slack, ...]
    choices: tuple[Choice, ...]
    decided: Decided | None
    chain: Chain | None
    guesses: tuple[str, ...]
    findings: tuple[Finding, ...]
    rivals: tuple[str, ...] = ()

    @property
    def feasible(self) -> bool:
        return self.clash_mm <= 0

    @property
    def told_slacks(self) -> tuple[Slack, ...]:
        """The slacks worth showing, tightest first: the `TIGHTEST` of each end, and of every appliance and height limit
        the tightest one wherever it comes. Every leg has two, so a long room has thousands that nobody reads."""
        left = dict.fromkeys(End, TIGHTEST)
        seen: set[str] = set()
        told = []
        for one in self.slacks:
            end, about = one.demand.end, "/".join(one.demand.id.split("/")[:2])
            if left[end] > 0 or (one.demand.subject is not Subject.LEG and about not in seen):
                told.append(one)
            left[end] -= 1
            seen.add(about)
        return tuple(told)


def datum(
    job: Job,
    room: Room,
    placed: Sequence[Placed],
    floor: Floor,
    station_levels: Mapping[str, StationLevel],
    decisions: Sequence[Entry],
    legs_set: Sequence[Entry],
    readings: Sequence[Entry],
) -> Datum:
    """The feasible interval of a room's datum, the five choices, and the decided datum held against it.

    `placed`: every item of the room, run by run. `station_levels`: station id to its level (for ceilings, sills).
    `decisions`, `legs_set`, `readings`: the room's live entries of these kinds.
    """
    step_mm = job.rounding_mm
    names = station_names(room, floor, readings)
    standing = standing_legs(job, placed, floor)
    asked, findings = demands(job, room, placed, standing, floor, station_levels, names)
    ends = interval(asked)
    gaps, no_gap = gap_places(job, placed, floor)
    high_mm = max((spot.level_mm for spot in floor.finished.spots), default=None)
    told = _floor_findings(job, room, placed, floor, standing, no_gap) + _range_findings(standing, step_mm)
    told += [*findings, *clear_findings(job, room, placed)]
    if ends.clash_mm and ends.least is not None and ends.greatest is not None:
        told.append(_clash(room, ends.least, ends.greatest, ends.clash_mm, step_mm))
    decided, rivals = None, tuple(entry.uid for entry in decisions) if len(decisions) > 1 else ()
    if rivals:
        told.append(_rivals(job, room, decisions))
    elif decisions:
        decided = _decided(job, decisions[0])
        told += _outside(room, decisions[0], decided.datum, asked, readings, names, step_mm)
    if decided is None:
        told += _undecided(room, standing, legs_set, bool(rivals))
    guessed, notes = guesses(job, room, placed, ends)
    unknown = sorted({unit_words(leg) for leg in standing if leg.floor is None})
    if unknown:
        guessed += (f"Legs without a known floor are left out of all this: {listed(unknown)}.",)
    return Datum(
        room.id,
        asked,
        ends.least,
        ends.greatest,
        ends.clash_mm,
        _slacks(asked, ends, decided, step_mm),
        choices(Ground(job, room, standing, gaps, asked, ends, high_mm)),
        decided,
        None if decided is None else chain(job, room, placed, decided.datum.mm, high_mm),
        guessed,
        (*told, *notes),
        rivals,
    )


def _slacks(asked: Sequence[Demand], ends: Interval, decided: Decided | None, step_mm: float) -> tuple[Slack, ...]:
    slacks = []
    for one in asked:
        own = ends.least if one.end is End.LEAST else ends.greatest
        at_mm = decided.datum.mm if decided else own.datum_mm if own else one.datum_mm
        at = "the chosen datum" if decided else "this end of what can be had"
        why = f"From {at}, {text_mm(at_mm, step_mm)}, to what this asks for, {one.datum.text}."
        slacks.append(Slack(one, figure(one.slack_mm(at_mm), step_mm, why)))
    return tuple(sorted(slacks, key=lambda slack: slack.slack.mm))


def _decided(job: Job, entry: Entry) -> Decided:
    decision, at = body(entry, DatumDecision), local_time(entry.at_utc, job.time_zone)
    why = f"Chosen by {entry.person}, {at} ({decision.choice.replace('_', ' ')}); it never moves by itself."
    chosen = figure(decision.datum_mm, job.rounding_mm, why)
    return Decided(decision.choice, chosen, entry.uid, entry.person, entry.at_utc)


def _floor_findings(
    job: Job,
    room: Room,
    placed: Sequence[Placed],
    floor: Floor,
    standing: Sequence[StandingLeg],
    no_gap: Sequence[str],
) -> list[Finding]:
    if not placed:
        return [
            Finding(
                "datum.nothing_here",
                Severity.NOTE,
                room.name,
                "Nothing stands in this room yet, so nothing asks for a datum.",
                "Put runs and units into the job.",
                concerns=(room.id,),
            )
        ]
    if not floor.under_legs.spots:
        return [
            Finding(
                "datum.no_floor",
                Severity.STOP,
                room.name,
                "No floor level is known yet, so no datum can be worked out.",
                "Read the bench mark and the first stations.",
                "a datum rests on the floor under every leg",
                concerns=(room.id,),
            )
        ]
    findings = []
    by_unit: dict[str, list[StandingLeg]] = {}
    for leg in standing:
        by_unit.setdefault(leg.placed.item.id, []).append(leg)
    reach_mm, step_mm = job.tolerances.leg_reach_mm, job.rounding_mm
    for item, legs in by_unit.items():
        missing = [leg.place.name for leg in legs if leg.floor is None]
        if missing:
            findings.append(
                Finding(
                    "datum.leg_floor_unknown",
                    Severity.WARN,
                    unit_words(legs[0]),
                    f"No floor is known under the {listed(missing)} leg{'s' if len(missing) > 1 else ''}; the datum is "
                    "worked out from the rest.",
                    "Read a station there.",
                    "a datum rests on the floor under every leg",
                    concerns=(item,),
                )
            )
        far = [(leg.floor.to_station_mm, leg.place.name) for leg in legs if leg.floor is not None]
        far = [one for one in far if one[0] > reach_mm + SAME_MM]
        if far:
            findings.append(
                Finding(
                    "datum.leg_far_from_station",
                    Severity.WARN,
                    unit_words(legs[0]),
                    f"The {listed([name for _, name in far])} leg{'s stand' if len(far) > 1 else ' stands'} further "
                    f"than {text_mm(reach_mm, step_mm)} from any station.",
                    "Add a station there and read it.",
                    "a limit of the job",
                    figure(max(far)[0], step_mm, "To the nearest station."),
                    (item,),
                )
            )
    if no_gap:
        units = [one.item.name for one in placed if one.item.id in no_gap]
        findings.append(
            Finding(
                "datum.plinth_floor_unknown",
                Severity.WARN,
                room.name,
                f"No finished floor is known at a front corner of {listed(units)}; the plinth gap is taken from "
                "the rest.",
                "Read a station in front of it.",
                "the plinth gap is taken at both front corners",
                concerns=tuple(no_gap),
            )
        )
    return findings


def _range_findings(standing: Sequence[StandingLeg], step_mm: float) -> list[Finding]:
    """Legs of which the reserve leaves nothing; their two ends clash wherever the floor lies."""
    seen = {leg.placed.item.id: leg for leg in standing if leg.least_mm > leg.greatest_mm + SAME_MM}
    return [
        Finding(
            "datum.leg_range",
            Severity.STOP,
            unit_words(leg),
            f"A leg from {text_mm(leg.legs.least_mm, step_mm)} to {text_mm(leg.legs.greatest_mm, step_mm)} with a "
            f"reserve of {text_mm(leg.legs.reserve_mm, step_mm)} at each end has no range left.",
            "Give it a longer range or a smaller reserve in the job.",
            "the leg's range less the job's reserve",
            figure(leg.least_mm - leg.greatest_mm, step_mm),
            (item,),
        )
        for item, leg in seen.items()
    ]


def _clash(room: Room, least: Demand, greatest: Demand, clash_mm: float, step_mm: float) -> Finding:
    amount = figure(clash_mm, step_mm, f"{least.datum.text} wanted at least, {greatest.datum.text} at most.")
    return Finding(
        "datum.clash",
        Severity.STOP,
        room.name,
        f"No datum can be had: {least.name} wants at least {least.datum.text}, {greatest.name} at most "
        f"{greatest.datum.text}. They clash by {amount.text}.",
        f"Any of these, by {amount.text} at least: {least.cure}; {greatest.cure}. Then see what binds next.",
        "every leg, appliance and height limit at once",
        amount,
        tuple(dict.fromkeys((room.id, *least.concerns, *greatest.concerns))),
    )


def _rivals(job: Job, room: Room, decisions: Sequence[Entry]) -> Finding:
    said = [
        f"{text_mm(body(entry, DatumDecision).datum_mm, job.rounding_mm)} by {entry.person}, "
        f"{local_time(entry.at_utc, job.time_zone)}"
        for entry in decisions
    ]
    return Finding(
        "datum.rivals",
        Severity.STOP,
        room.name,
        f"The datum was chosen more than once, and all of it stands: {listed(said)}. None is used.",
        "Agree on one, and choose again in place of all of them.",
        "one room, one datum",
        concerns=(room.id, *(entry.uid for entry in decisions)),
    )


def _outside(
    room: Room,
    entry: Entry,
    chosen: Figure,
    asked: Sequence[Demand],
    readings: Sequence[Entry],
    names: Mapping[str, str],
    step_mm: float,
) -> list[Finding]:
    """A stop for each end of the interval that the decided datum lies beyond, by the demand that it breaks worst."""
    findings = []
    for end in End:
        broken = [one for one in asked if one.end is end and one.slack_mm(chosen.mm) < -SAME_MM]
        if not broken:
            continue
        worst = min(broken, key=lambda one: one.slack_mm(chosen.mm))
        out = figure(-worst.slack_mm(chosen.mm), step_mm, worst.datum.why)
        more = f" {len(broken) - 1} more ask for the same." if len(broken) > 1 else ""
        findings.append(
            Finding(
                "datum.outside",
                Severity.STOP,
                room.name,
                f"The chosen datum {chosen.text} is {out.text} too {'low' if end is End.LEAST else 'high'} for "
                f"{worst.name}, which wants at {end.value} {worst.datum.text}.{more} "
                f"{readings_words(worst.rests_on, names, readings, step_mm, entry.position)}",
                f"Read those again, or: {worst.cure}; or choose another datum. It does not move by itself.",
                "a decided datum is held against every later reading",
                out,
                (room.id, entry.uid, *worst.concerns),
            )
        )
    return findings


def _undecided(room: Room, standing: Sequence[StandingLeg], legs_set: Sequence[Entry], rivals: bool) -> list[Finding]:
    findings = []
    if any(leg.floor is not None for leg in standing) and not rivals:
        findings.append(
            Finding(
                "datum.undecided",
                Severity.WARN,
                room.name,
                "No datum is chosen, so no leg has a height yet.",
                "Choose a datum first.",
                "legs are set for one datum",
                concerns=(room.id,),
            )
        )
    set_items = {body(entry, LegsSet).item for entry in legs_set}
    units = list(dict.fromkeys(unit_words(leg) for leg in standing if leg.placed.item.id in set_items))
    if units:
        findings.append(
            Finding(
                "datum.legs_set_without",
                Severity.WARN,
                room.name,
                f"Legs are already set under {listed(units)}, and no datum stands now.",
                "Choose the datum before these are fitted.",
                "legs are set for one datum",
                concerns=(room.id, *sorted(set_items)),
            )
        )
    return findings
