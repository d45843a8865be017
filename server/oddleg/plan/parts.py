"""A plan as the parts that a phone keeps: plain values with the texts that are shown, and a mark for each part.

Drawings are added further out; they show the same texts. A part's mark changes when, and only when, a shown text does;
that a mark of a rod is ticked is no such text.
"""

from __future__ import annotations

from collections.abc import Iterable

from oddleg.job import Stage

from . import Plan, RoomPlan
from .corners_part import corners_part
from .datum_part import datum_part
from .drawers_part import drawers_part, has_drawers
from .drilling_part import drilling_part, has_holes
from .figure import figure
from .finding import Finding, Severity
from .hardware import KIND_WORDS
from .legs import UnitLegs, unit_numbers
from .panels_part import panels_part
from .part_values import Part, figure_part, finding_part, handing_words, mark_of
from .plinth_part import plinth_part
from .room_services import RoomServices, cut_outs_of
from .run_part import run_part
from .services_part import services_part
from .survey_part import STAGE_NAMES, survey_part
from .tall_part import tall_part
from .walls_part import walls_part

SEVERITY_ORDER = (Severity.STOP, Severity.WARN, Severity.NOTE)
SHEETS = (
    ("survey", "Survey and datum", ("survey", "floor", "datum")),
    ("walls", "Walls", ("walls",)),
    ("legs", "Legs", ("unit",)),
    ("labels", "Labels", ("unit", "hangs")),
    ("plinth", "Plinth", ("plinth",)),
    ("corners", "Corners and fronts", ("corners",)),
    ("tall", "Tall and wall units", ("tall",)),
    ("drawers", "Drawers", ("drawers",)),
    ("drilling", "Drilling", ("drilling",)),
    ("services", "Services and cut-outs", ("services",)),
    ("first_fix", "First fix", ("services",)),
)
# Sheets that there are only where their part is.
ONLY_WITH_PART = ("tall", "drawers", "drilling", "services", "first_fix")
SHEETS_OF_A_RUN = (
    ("rod", "Rod", ("run",)),
    ("strip_a4", "Rod at full size, A4", ("run",)),
    ("strip_a3", "Rod at full size, A3", ("run",)),
)
# Each of what is fitted out; templates and sticks only where there is something to mark.
SHEETS_OF_AN_ITEM = (
    ("panels", "Panels"),
    ("template_a4", "Template, A4"),
    ("template_a3", "Template, A3"),
    ("stick_a4", "Sticks, A4"),
    ("stick_a3", "Sticks, A3"),
)


def parts(plan: Plan, revision: int) -> dict[str, Part]:
    """Every part by its name in the pack, each with its `mark`."""
    found: dict[str, Part] = {}
    for room in plan.rooms:
        found[f"survey/{room.room.id}"] = survey_part(plan, room)
        found[f"floor/{room.room.id}"] = _floor_part(room)
        found[f"datum/{room.room.id}"] = datum_part(plan, room)
        for unit in room.units:
            found[f"unit/{unit.placed.item.id}"] = _unit_part(room, unit)
        if room.plinth is not None:
            found[f"plinth/{room.room.id}"] = plinth_part(room.room.id, room.room.name, room.plinth)
        found[f"walls/{room.room.id}"] = walls_part(plan.job, room)
        found[f"corners/{room.room.id}"] = corners_part(room)
        for run in room.setting_out.runs:
            found[f"run/{run.run.id}"] = run_part(room, run)
        if room.tall_wall is not None:
            found[f"tall/{room.room.id}"] = tall_part(room)
        for fitted in room.fitting.units:
            found[f"panels/{fitted.item}"] = panels_part(plan.job, room, fitted)
        if room.fitting.services != RoomServices():
            found[f"services/{room.room.id}"] = services_part(room)
        if has_drawers(room):
            found[f"drawers/{room.room.id}"] = drawers_part(plan, room)
        if has_holes(room):
            found[f"drilling/{room.room.id}"] = drilling_part(plan, room)
    if plan.job.hardware or plan.hardware_findings:
        found["hardware"] = _hardware_part(plan)
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
        of_items = {
            "unit": [f"unit/{unit.placed.item.id}" for unit in room.units],
            "hangs": [f"panels/{unit.item}" for unit in room.fitting.hanging],
        }
        for kind, title, from_parts in SHEETS:
            names = [name for one in from_parts for name in of_items.get(one, [f"{one}/{room.room.id}"])]
            if kind in ONLY_WITH_PART and names[0] not in found:
                continue
            if kind == "first_fix" and not found[names[0]]["wanted"]:
                continue
            mark = mark_of([found[name]["mark"] for name in names if name in found])
            sheets.append({"name": f"{kind}-{room.room.id}", "title": f"{title}, {room.room.name}", "mark": mark})
        for run in room.room.runs:
            for kind, title, from_parts in SHEETS_OF_A_RUN:
                mark = mark_of([found[f"{one}/{run.id}"]["mark"] for one in from_parts])
                sheets.append({"name": f"{kind}-{run.id}", "title": f"{title}, {run.name}", "mark": mark})
        for unit in room.fitting.units:
            part = found[f"panels/{unit.item}"]
            marked = {"template": any(one["views"] for one in part["panels"]), "stick": bool(part["sticks"])}
            for kind, title in SHEETS_OF_AN_ITEM:
                if marked.get(kind.split("_")[0], True):
                    mark = mark_of([part["mark"]])
                    sheets.append({"name": f"{kind}-{unit.item}", "title": f"{title}, {unit.name}", "mark": mark})
    return sheets


def all_findings(plan: Plan) -> list[Part]:
    """Findings of the whole plan, stops first, each with the room and the part where it is shown."""
    rows = [{**finding_part(one), "room": "", "part": "job"} for one in plan.findings]
    rows += [{**finding_part(one), "room": "", "part": "hardware"} for one in plan.hardware_findings]
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
    if room.plinth is not None:
        yield f"plinth/{room.room.id}", room.plinth.findings
    yield (
        f"walls/{room.room.id}",
        tuple(finding for run in room.setting_out.runs if run.wall for finding in run.wall.findings),
    )
    for run in room.setting_out.runs:
        yield f"run/{run.run.id}", run.findings
    for fitted in room.fitting.units:
        yield f"panels/{fitted.item}", fitted.findings
    yield f"services/{room.room.id}", room.fitting.services.findings
    yield f"corners/{room.room.id}", room.setting_out.findings
    if room.tall_wall is not None:
        yield f"tall/{room.room.id}", room.tall_wall.findings


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
                            {
                                "id": one.item.id,
                                "number": numbers[one.item.id],
                                "name": one.item.name,
                                "width_mm": one.item.width_mm,
                            }
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


def _floor_part(room: RoomPlan) -> Part:
    return {
        "room": room.room.id,
        "name": room.room.name,
        "figures": [{"label": label, "figure": figure_part(one)} for label, one in room.floor_figures],
        "findings": [finding_part(one) for one in (*room.floor.findings, *room.flatness_findings)],
    }


def _hardware_part(plan: Plan) -> Part:
    """The rows of charts that the job uses, by kind and in the order in which it names them."""
    known = plan.rooms[0].hardware.rows if plan.rooms else {}
    return {
        "rows": [
            {
                "kind": pin.kind.value,
                "kind_words": KIND_WORDS[pin.kind],
                "id": pin.row,
                "name": row.name if row is not None else pin.row,
                "sha": pin.sha,
                "source": row.source if row is not None else "",
                "checked_on": row.checked_on if row is not None else "",
            }
            for pin in plan.job.hardware
            for row in (known.get((pin.kind, pin.row)),)
        ],
        "findings": [finding_part(one) for one in plan.hardware_findings],
    }


def _unit_part(room: RoomPlan, unit: UnitLegs) -> Part:
    item, run = unit.placed.item, unit.placed.run
    return {
        "id": item.id,
        "number": unit.number,
        "name": item.name,
        "place": f"unit {unit.number}, {run.name}",
        "handing": handing_words(item),
        "cut_outs": f"cut-outs: {cut_outs_of(room.fitting.services, item.id)}",
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
