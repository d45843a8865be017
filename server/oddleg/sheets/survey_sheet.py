"""Content of the survey and datum sheet of one room."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import plan_of_datum, plan_of_survey, svg
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.figure import text_mm
from oddleg.plan.moment import local_time
from oddleg.plan.part_values import Part
from oddleg.plan.parts import all_findings
from oddleg.plan.survey import latest_levels
from oddleg.plan.survey_part import STAGE_NAMES

from .source import SheetSource

PLAN_WIDTH_MM = 182.0
PLAN_HEIGHT_MM = 150.0
DATUM_WIDTH_MM = 88.0
MOST_SLACKS = 10
STATE_WORDS = {
    "unread": "not read yet",
    "read": "",
    "open": "readings differ, no level",
    "blocked": "blocked, later",
}
END_WORDS = {"least": "at least", "greatest": "at most"}
# These stand in a block of their own on the sheet; once is enough.
SAID_IN_PLACE = ("datum.guess", "survey.skipped")
SEVERITY_WORDS = {"stop": "STOP", "warn": "Warning", "note": "Note"}


def survey_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    survey, floor, datum = (found[f"{kind}/{room.room.id}"] for kind in ("survey", "floor", "datum"))
    decided, lasers = datum["decided"], {one.id: one.name for one in plan.job.lasers}
    findings = finding_rows(plan, [f"{kind}/{room.room.id}" for kind in ("survey", "floor", "datum")] + ["job"])
    return {
        "decided": None
        if decided is None
        else {
            "datum": decided["datum"]["text"],
            "title": decided["title"],
            "who": decided["person"],
            "when": local_time(decided["at_utc"], plan.job.time_zone),
        },
        "rivals": len(datum["rivals"]),
        "bench_marks": [{"name": one["name"], "level": one["level"]["text"]} for one in survey["bench_marks"]],
        "plan": svg(plan_of_survey(room, PLAN_WIDTH_MM, PLAN_HEIGHT_MM, on_paper=True), "survey"),
        "stations": _stations(room, survey),
        "set_ups": _set_ups(room, survey),
        "misclosure": _misclosure(room),
        "quality": survey["quality"],
        "checks": [
            f"{lasers.get(one['laser'], one['laser'])}, {one['axis']}, {one['method']}: {one['words']}"
            for one in survey["checks"]
        ],
        "skipped": survey["skipped"],
        "floor": [{"label": one["label"], "text": one["figure"]["text"]} for one in floor["figures"]],
        "ends": _ends(datum),
        "datum_drawing": svg(plan_of_datum(room, plan.job.rounding_mm, DATUM_WIDTH_MM), "datum"),
        "choices": [_choice(one) for one in datum["choices"]],
        "slacks": [
            {
                "name": one["name"],
                "end": END_WORDS[one["end"]],
                "datum": one["datum"]["text"],
                "slack": one["slack"]["text"],
            }
            for one in datum["slacks"][:MOST_SLACKS]
        ],
        "more_slacks": max(0, len(datum["slacks"]) - MOST_SLACKS) + datum["more_slacks"],
        "chain": [{"label": one["label"], "text": one["figure"]["text"]} for one in datum["chain"]],
        "guesses": datum["guesses"],
        "findings": findings,
    }


def finding_rows(plan: Plan, names: list[str]) -> list[dict[str, Any]]:
    """Findings shown by the parts `names`, stops first."""
    return [
        {
            "severity": one["severity"],
            "word": "Caution" if one["caution"] else SEVERITY_WORDS[one["severity"]],
            "place": one["place"],
            "wrong": one["wrong"],
            "cure": one["cure"],
            "source": one["source"],
        }
        for one in all_findings(plan)
        if one["part"] in names and one["rule"] not in SAID_IN_PLACE
    ]


def _stations(room: RoomPlan, survey: Part) -> list[dict[str, str]]:
    latest = latest_levels(room.levels)
    rows = []
    for one in sorted(survey["stations"], key=lambda one: one["surface"] == "overhead"):
        level = latest.get(one["id"])
        rows.append(
            {
                "name": one["name"],
                "serves": one["serves"],
                "level": one["level"]["text"] if one["level"] else "–",
                "give_or_take": text_mm(level.half_width_mm, 0.1) if level else "",
                "stage": STAGE_NAMES[level.stage].split(",")[0] if level else "",
                "readings": str(one["readings"]),
                "state": STATE_WORDS[one["state"]] or ("overhead" if one["surface"] == "overhead" else ""),
            }
        )
    return rows


def _set_ups(room: RoomPlan, survey: Part) -> list[dict[str, str]]:
    widths = {one.set_up: text_mm(one.half_width_mm, 0.1) for one in room.levels.planes}
    return [
        {
            "name": one["name"],
            "stage": next(words for stage, words in STAGE_NAMES.items() if stage.value == one["stage"]),
            "readings": str(one["readings"]),
            "plane": one["plane"]["text"] if one["plane"] else "–",
            "give_or_take": widths.get(one["id"], ""),
        }
        for one in survey["set_ups"]
    ]


def _misclosure(room: RoomPlan) -> str:
    closed = room.levels.misclosure
    if closed is None:
        return "Misclosure: none to state, since no way through the set-ups comes back to where it began."
    return f"Misclosure {text_mm(closed.mm, 0.1)} mm, limit {text_mm(closed.limit_mm, 0.1)} mm."


def _ends(datum: Part) -> list[str]:
    lines = []
    for word, end in (("At least", datum["least"]), ("At most", datum["greatest"])):
        if end is None:
            lines.append(f"{word}: nothing sets this end.")
        else:
            lines.append(f"{word} {end['datum']['text']}: {end['binds']}.")
    if datum["clash"] is not None:
        lines.append(f"No datum is possible: the two clash by {datum['clash']['text']} mm.")
        lines += [end["cure"] for end in (datum["least"], datum["greatest"]) if end]
    return lines


def _choice(one: Part) -> dict[str, Any]:
    if one["asked"] is None:
        note = one["why_not"]
    elif one["feasible"]:
        note = one["rule"]
    else:
        nearest = f"; figures are for the nearest, {one['nearest']['text']}" if one["nearest"] else ""
        note = f"Not possible, {one['binds'] or 'nothing'} binds{nearest}."
    used = one["asked"] is not None
    return {
        "title": one["title"],
        "feasible": one["feasible"],
        "asked": one["asked"]["text"] if one["asked"] else "–",
        "worktop": one["worktop"]["text"] if one["worktop"] else "–",
        "legs": _span(one["legs"]),
        "gaps": _span(one["gaps"]),
        "rip": f"{one['rip']} of {one['of']}" if one["rip"] is not None and used else "–",
        "clearance": one["clearance"]["text"] if one["clearance"] else "–",
        "note": note,
    }


def _span(pair: Any) -> str:
    return "–" if pair is None else f"{pair[0]['text']} to {pair[1]['text']}"
