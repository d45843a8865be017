"""A plan as the parts that a phone keeps: plain values with the texts that are shown, and a mark for each part.

Drawings are added further out; they show the same texts. A part's mark changes when, and only when, a shown text does.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from typing import Any

from oddleg.job import Handing, Item, Stage

from . import Plan, RoomPlan
from .datum import Datum
from .datum_choices import Choice
from .demands import Demand
from .figure import Figure, figure
from .finding import Finding, Severity
from .legs import UnitLegs, unit_numbers
from .skipped import skipped
from .survey import next_words, quality, reading_limits, stage_words

Part = dict[str, Any]

# No letter or digit that is taken for another when it is read off a sheet and typed.
MARK_SIGNS = "23456789abcdefghjkmnpqrstuvwxyz"
MARK_LENGTH = 6

STAGE_NAMES = {
    Stage.AS_FOUND: "as found",
    Stage.STRIPPED: "stripped, old covering lifted",
    Stage.LEVELLED: "levelled",
    Stage.TILED: "tiled or covered",
}
SEVERITY_ORDER = (Severity.STOP, Severity.WARN, Severity.NOTE)
SHEETS = (
    ("survey", "Survey and datum", ("survey", "floor", "datum")),
    ("legs", "Legs", ("unit",)),
    ("labels", "Labels", ("unit",)),
)


def mark_of(shown: object) -> str:
    """Six characters that stand for the shown texts in `shown`; exact lengths (`mm`) and old marks do not count."""
    text = json.dumps(_texts(shown), ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    number = int.from_bytes(hashlib.sha256(text.encode()).digest()[:8], "big")
    signs = []
    for _ in range(MARK_LENGTH):
        number, sign = divmod(number, len(MARK_SIGNS))
        signs.append(MARK_SIGNS[sign])
    return "".join(signs)


def parts(plan: Plan, revision: int) -> dict[str, Part]:
    """Every part by its name in the pack, each with its `mark`."""
    found: dict[str, Part] = {}
    for room in plan.rooms:
        found[f"survey/{room.room.id}"] = _survey_part(plan, room)
        found[f"floor/{room.room.id}"] = _floor_part(plan, room)
        found[f"datum/{room.room.id}"] = _datum_part(plan, room)
        for unit in room.units:
            found[f"unit/{unit.placed.item.id}"] = _unit_part(room, unit)
    found["findings"] = {"findings": all_findings(plan)}
    for part in found.values():
        part["mark"] = mark_of(part)
    found["sheets"] = {"sheets": sheet_marks(plan, found)}
    found["job"] = _job_part(plan, revision)
    for name in ("sheets", "job"):
        found[name]["mark"] = mark_of(found[name])
    return found


def sheet_marks(plan: Plan, found: dict[str, Part]) -> list[dict[str, str]]:
    """Name, title and mark of every sheet: a sheet is out of date only if a part printed on it is."""
    sheets = []
    for room in plan.rooms:
        units = [f"unit/{unit.placed.item.id}" for unit in room.units]
        for kind, title, from_parts in SHEETS:
            names = [name for one in from_parts for name in (units if one == "unit" else [f"{one}/{room.room.id}"])]
            mark = mark_of([found[name]["mark"] for name in names])
            sheets.append({"name": f"{kind}-{room.room.id}", "title": f"{title}, {room.room.name}", "mark": mark})
    return sheets


def all_findings(plan: Plan) -> list[Part]:
    """Findings of the whole plan, stops first, each with the room and the part where it is shown."""
    rows = [{**finding_part(one), "room": "", "part": "job"} for one in plan.findings]
    for room in plan.rooms:
        for kind, findings in room_findings(room):
            rows += [{**finding_part(one), "room": room.room.name, "part": kind} for one in findings]
    order = [severity.value for severity in SEVERITY_ORDER]
    return sorted(rows, key=lambda row: order.index(row["severity"]))


def room_findings(room: RoomPlan) -> Iterable[tuple[str, tuple[Finding, ...]]]:
    """The room's findings by the part that shows them."""
    yield f"survey/{room.room.id}", (*room.levels.findings, *room.findings)
    yield f"floor/{room.room.id}", (*room.floor.findings, *room.flatness_findings)
    yield f"datum/{room.room.id}", room.datum.findings
    for unit in room.units:
        yield f"unit/{unit.placed.item.id}", unit.findings


def figure_part(one: Figure | None) -> Part | None:
    """`mm` to the millionth: one reading more moves the last bits of every level, and no part may travel for those."""
    return None if one is None else {"mm": round(one.mm, 6) + 0.0, "text": one.text, "why": one.why}


def finding_part(one: Finding) -> Part:
    return {
        "rule": one.rule,
        "severity": one.severity.value,
        "place": one.place,
        "wrong": one.wrong,
        "cure": one.cure,
        "source": one.source,
        "amount": figure_part(one.amount),
        "concerns": list(one.concerns),
        "caution": one.caution,
    }


def _texts(shown: object) -> object:
    if isinstance(shown, dict):
        return {key: _texts(value) for key, value in shown.items() if key not in ("mm", "mark", "x_mm", "y_mm")}
    if isinstance(shown, list | tuple):
        return [_texts(one) for one in shown]
    return shown


def _job_part(plan: Plan, revision: int) -> Part:
    job = plan.job
    counts = {severity.value: 0 for severity in SEVERITY_ORDER}
    for row in all_findings(plan):
        counts[row["severity"]] += 1
    return {
        "job": {
            "id": job.id,
            "title": job.title,
            "place": job.place,
            "client": job.client,
            "time_zone": job.time_zone,
            "revision": revision,
        },
        "stages": [{"id": stage.value, "name": STAGE_NAMES[stage]} for stage in Stage],
        "lasers": [
            {"id": one.id, "name": one.name, "text": f"±{figure(one.slope_mm_per_m, 0.01).text} mm/m as stated"}
            for one in job.lasers
        ],
        "instruments": [
            {
                "id": one.id,
                "name": one.name,
                "unit": one.unit,
                "decimals": one.decimals,
                "resolution_mm": one.resolution_mm,
            }
            for one in job.instruments
        ],
        "rooms": [
            {
                "id": room.room.id,
                "name": room.room.name,
                "runs": [
                    {
                        "id": run.id,
                        "name": run.name,
                        "units": [
                            {"id": one.item.id, "number": numbers[one.item.id], "name": one.item.name}
                            for one in room.placed
                            if one.run.id == run.id and one.item.id in numbers
                        ],
                    }
                    for run in room.room.runs
                ],
            }
            for room in plan.rooms
            for numbers in (unit_numbers(room.placed),)
        ],
        "findings": counts,
    }


def _survey_part(plan: Plan, room: RoomPlan) -> Part:
    job, levels, step_mm = plan.job, room.levels, plan.job.rounding_mm
    planes = {one.set_up: one for one in levels.planes}
    closed, called = levels.misclosure, {one.id: one.name for one, _ in room.set_ups}
    names = {one.id: one.name for one in room.room.bench_marks}
    names |= {one.station.id: one.station.name for one in room.station_list.stations}
    return {
        "room": room.room.id,
        "name": room.room.name,
        "corner": room.room.corner,
        "bench_marks": [
            {"id": one.id, "name": one.name, "x_mm": one.x_mm, "y_mm": one.y_mm}
            | {"level": figure_part(figure(one.level_mm, step_mm, "Given with the job.", signed=True))}
            for one in room.room.bench_marks
        ],
        "stations": [
            {
                "id": one.station.id,
                "name": one.station.name,
                "x_mm": one.station.x_mm,
                "y_mm": one.station.y_mm,
                "serves": one.station.serves,
                "surface": one.station.surface,
                "pass": one.pass_number,
                "accepted": one.accepted,
                "added": one.added,
                "state": one.state,
                "level": figure_part(one.level),
                "readings": one.readings,
            }
            for one in room.station_list.stations
        ],
        "set_ups": [
            {
                "id": one.id,
                "name": one.name,
                "stage": one.stage.value,
                "plane": None
                if one.id not in planes
                else figure_part(
                    figure(
                        planes[one.id].level_mm,
                        0.1,
                        "Level of the beam over the bench mark, found with all set-ups together; give or take "
                        f"{figure(planes[one.id].half_width_mm, 0.1).text} mm (95 %).",
                        signed=True,
                    )
                ),
                "readings": count,
            }
            for one, count in room.set_ups
        ],
        "limits": {
            "ways": reading_limits(job),
            "repeat_mm": job.tolerances.repeat_mm,
            "step_mm": job.tolerances.step_mm,
        },
        "checks": [
            {
                "laser": one.laser,
                "axis": one.axis,
                "method": one.method,
                "verdict": one.verdict.value,
                "words": one.words,
            }
            for one in room.checks
        ],
        "misclosure": None
        if closed is None
        else figure_part(
            figure(
                closed.mm,
                0.1,
                f"The way through {' and '.join(called[id] for id in closed.set_ups)} comes back to where it began "
                f"by this much; the job lets it be {figure(closed.limit_mm, 0.1).text} mm.",
            )
        ),
        "quality": list(quality(levels, room.site, names)),
        "next_words": next_words(room.site, room.station_list, room.room, room.datum.decided is not None),
        "stage_words": stage_words(room.room),
        "skipped": list(skipped(job, room.room, room.site, levels, room.checks)),
        "findings": [finding_part(one) for one in (*levels.findings, *room.findings)],
    }


def _floor_part(plan: Plan, room: RoomPlan) -> Part:
    return {
        "room": room.room.id,
        "name": room.room.name,
        "figures": [{"label": label, "figure": figure_part(one)} for label, one in room.floor_figures],
        "findings": [finding_part(one) for one in (*room.floor.findings, *room.flatness_findings)],
    }


def _datum_part(plan: Plan, room: RoomPlan) -> Part:
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


def _unit_part(room: RoomPlan, unit: UnitLegs) -> Part:
    item, run = unit.placed.item, unit.placed.run
    return {
        "id": item.id,
        "number": unit.number,
        "name": item.name,
        "place": f"unit {unit.number}, {run.name}",
        "handing": handing_words(item),
        "run": run.name,
        "room": room.room.id,
        "datum": figure_part(unit.datum),
        "preset": figure_part(unit.preset),
        "underside": figure_part(unit.underside),
        "legs": [
            {
                "id": leg.place.id,
                "name": leg.place.name,
                "height": figure_part(leg.height),
                "differs": figure_part(leg.differs),
                "exact": leg.exact,
                "bench_column": leg.bench_column,
                "bench_row": leg.bench_row,
                "set_at": figure_part(leg.set_at),
                "wind": figure_part(leg.wind),
            }
            for leg in unit.legs
        ],
        "gaps": [{"side": one.side, "gap": figure_part(one.gap)} for one in unit.gaps],
        "findings": [finding_part(one) for one in unit.findings],
    }


def handing_words(item: Item) -> str:
    """How the unit's door hangs, in words."""
    words = {
        Handing.LEFT: "door hung on the left",
        Handing.RIGHT: "door hung on the right",
        Handing.PAIR: "pair of doors",
        Handing.NONE: "no door",
    }
    return words[getattr(item, "handing", Handing.NONE)]
