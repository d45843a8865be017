"""The rows of charts that a job is pinned to: which have a newer version, what that would move, and taking it."""

from __future__ import annotations

import dataclasses
from typing import Any

from flask import Response

from oddleg.charts import row_texts
from oddleg.charts.columns import columns
from oddleg.job import HardwareKind, HardwareRow, Job, PinnedRow
from oddleg.plan import plan
from oddleg.plan.figure import Figure
from oddleg.plan.hardware import KIND_OF, KIND_WORDS, rows_named
from oddleg.plan.hole_moves import BoardSize, HolePlace, changes
from oddleg.plan.part_values import figure_part, finding_part
from oddleg.store import charts as store
from oddleg.store.gather import gather
from oddleg.store.jobs import take_row

from . import chart_shapes as shapes
from .jobs import IF_MATCH, answered, revised, revision_sent
from .request_body import Resource
from .services import BASE, caller, services
from .signing_in import office_only

hardware = Resource("hardware", __name__, url_prefix=f"{BASE}/jobs", description="The rows of charts of a job.")


@hardware.get("/<job>/hardware")
@hardware.response(200, shapes.HardwareShape)
def pins(job: str) -> dict[str, Any]:
    """Each row that the job names, in the version that it uses, and whether the charts have another by now."""
    gathered = gather(caller(), job)
    current = {(KIND_OF[type(row)], row.id): row for row in store.current_rows()}
    used = {(KIND_OF[type(row)], row.id): row for row in gathered.charts.hardware}
    return {
        "revision": gathered.source.revision,
        "pins": [
            _pin(gathered.job, pin, used.get((pin.kind, pin.row)), current.get((pin.kind, pin.row)))
            for pin in gathered.job.hardware
        ],
    }


def _pin(job: Job, pin: PinnedRow, used: HardwareRow | None, current: HardwareRow | None) -> dict[str, Any]:
    items = [item for room in job.rooms for run in room.runs for item in run.items]
    was, now = (row_texts(row) if row is not None else {} for row in (used, current))
    return {
        "kind": str(pin.kind),
        "kind_name": KIND_WORDS[pin.kind],
        "row": pin.row,
        "name": used.name if used is not None else pin.row,
        "sha": pin.sha,
        "current": current.sha if current is not None else None,
        "newer": current is not None and current.sha != pin.sha,
        "items": [item.name for item in items if (pin.kind, pin.row) in rows_named(item)],
        "changed": [
            {"column": one.name, "words": one.words, "from": was.get(one.name, ""), "to": now[one.name]}
            for one in columns(pin.kind)
            if now and was.get(one.name, "") != now.get(one.name, "")
        ],
    }


@hardware.post("/<job>/hardware/preview")
@hardware.arguments(shapes.AskVersion)
@hardware.response(200, shapes.ChangesShape)
@office_only
def preview(asked: dict[str, str], job: str) -> dict[str, Any]:
    """What would move if the job took this version of a row. Nothing is changed."""
    gathered = gather(caller(), job)
    wanted = _asked(asked)
    other = store.repinned(gathered.job, wanted)
    found = changes(
        plan(gathered.job, gathered.entries, gathered.charts), plan(other, gathered.entries, store.charts_for(other))
    )
    return {
        **asked,
        "revision": gathered.source.revision,
        "holes": [
            {
                **_where(one.item, one.item_name),
                "panel": one.panel,
                "panel_name": one.panel_name,
                "hole": one.hole,
                "words": one.words,
                "from": _values(one.before),
                "to": _values(one.after),
            }
            for one in found.holes
        ],
        "boards": [
            {
                **_where(one.item, one.item_name),
                "board": one.board,
                "from": _values(one.before),
                "to": _values(one.after),
            }
            for one in found.boards
        ],
        "findings": [finding_part(one) for one in found.findings],
    }


def _where(item: str, name: str) -> dict[str, str]:
    return {"item": item, "item_name": name}


def _values(one: HolePlace | BoardSize | None) -> dict[str, Any] | None:
    """A place or size with its figures as parts of a pack have them."""
    if one is None:
        return None
    return {
        field.name: figure_part(value) if isinstance(value := getattr(one, field.name), Figure) else value
        for field in dataclasses.fields(one)
    }


@hardware.put("/<job>/hardware")
@hardware.arguments(shapes.AskVersion)
@hardware.doc(**IF_MATCH, **answered("200"))
@office_only
def take(asked: dict[str, str], job: str) -> Response:
    """The job takes this version of a row, as a new revision."""
    revision = revision_sent()
    return revised(take_row(caller(), job, _asked(asked), revision, services().now()))


def _asked(asked: dict[str, str]) -> PinnedRow:
    return PinnedRow(HardwareKind(asked["kind"]), asked["row"], asked["sha"])
