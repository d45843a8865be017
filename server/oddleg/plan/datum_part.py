"""The part of a plan that the datum screen shows."""

from __future__ import annotations

from . import Plan, RoomPlan
from .datum import Datum
from .datum_choices import Choice
from .demands import Demand
from .figure import Figure, figure
from .part_values import Part, figure_part, finding_part
from .skipped import skipped


def datum_part(plan: Plan, room: RoomPlan) -> Part:
    datum = room.datum
    decided = datum.decided
    return {
        "room": room.room.id,
        "name": room.room.name,
        "least": _end_part(datum.least),
        "greatest": _end_part(datum.greatest),
        "clash": figure_part(_clash(datum, plan.job.rounding_mm)),
        "choices": [_choice_part(one) for one in datum.choices],
        "decided": None
        if decided is None
        else {
            "choice": decided.choice,
            "title": next((one.title for one in datum.choices if one.name == decided.choice), decided.choice),
            "datum": figure_part(decided.datum),
            "person": decided.person,
            "at_utc": decided.at_utc,
            "entry": decided.entry,
        },
        "rivals": list(datum.rivals),
        "slacks": [
            {
                "name": one.demand.name,
                "end": one.demand.end.value,
                "datum": figure_part(one.demand.datum),
                "slack": figure_part(one.slack),
            }
            for one in datum.told_slacks
        ],
        "more_slacks": len(datum.slacks) - len(datum.told_slacks),
        "chain": []
        if datum.chain is None
        else [{"label": label, "figure": figure_part(one)} for label, one in datum.chain.heights],
        "guesses": list(datum.guesses),
        "skipped": list(skipped(plan.job, room.room, room.site, room.levels, room.checks)),
        "findings": [finding_part(one) for one in datum.findings],
    }


def _clash(datum: Datum, step_mm: float) -> Figure | None:
    if datum.feasible or datum.least is None or datum.greatest is None:
        return None
    least, greatest = datum.least, datum.greatest
    why = f"{least.name} wants {least.datum.text} at least, {greatest.name} {greatest.datum.text} at most."
    return figure(datum.clash_mm, step_mm, why)


def _end_part(demand: Demand | None) -> Part | None:
    return None if demand is None else {"datum": figure_part(demand.datum), "binds": demand.name, "cure": demand.cure}


def _choice_part(one: Choice) -> Part:
    return {
        "id": one.name.value,
        "title": one.title,
        "rule": one.rule,
        "asked": figure_part(one.asked),
        "feasible": one.feasible,
        "why_not": one.why_not,
        "binds": None if one.binds is None else one.binds.name,
        "nearest": figure_part(one.nearest),
        "worktop": figure_part(one.worktop),
        "legs": None if one.legs is None else [figure_part(leg) for leg in one.legs],
        "gaps": None if one.gaps is None else [figure_part(gap) for gap in one.gaps],
        "rip": one.rip,
        "reach_not": one.reach_not,
        "of": one.of,
        "clearance": figure_part(one.clearance),
    }
