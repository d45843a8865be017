"""Sheets as PDF, made from the plan as it is now."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

from flask import Response

from oddleg.plan import plan
from oddleg.sheets import SheetSource, UnknownSheet, sheet_names, sheet_pdf
from oddleg.store.gather import Gathered, gather
from oddleg.store.records import keep_sheet
from oddleg.store.refusals import NotHere

from .request_body import Resource
from .services import BASE, caller, services

sheets = Resource("sheets", __name__, url_prefix=f"{BASE}/jobs", description="Sheets to print.")

PDF = {"application/pdf": {"schema": {"type": "string", "contentMediaType": "application/pdf"}}}


def day_in_words(at: datetime, time_zone: str) -> str:
    """The day where the job is."""
    there = at.astimezone(ZoneInfo(time_zone))
    return f"{there.day} {there:%B %Y}"


def printed(gathered: Gathered, names: list[str] | None = None) -> dict[str, bytes]:
    """PDFs by name, each kept as a record; None: all that the plan has. Raises NotHere for a name it has not."""
    config, now = services().config, services().now()
    made = plan(gathered.job, gathered.entries, gathered.charts)
    known = [name for name, _ in sheet_names(made)]
    source = SheetSource(
        gathered.source.revision,
        gathered.source.words,
        day_in_words(now, gathered.job.time_zone),
        config.origin,
    )
    found: dict[str, bytes] = {}
    for name in known if names is None else names:
        try:
            found[name] = sheet_pdf(made, name, source)
        except UnknownSheet:
            raise NotHere(f"There is no sheet {name!r}; there are {', '.join(known) or 'none yet'}.") from None
        keep_sheet(gathered.source, name, found[name], now)
    return found


@sheets.get("/<job>/sheets/<name>.pdf")
@sheets.doc(responses={200: {"description": "The sheet", "content": PDF}})
def sheet(job: str, name: str) -> Response:
    """A sheet: of a room (survey-, legs-, labels-, plinth-, walls-, corners-, tall-ROOM), of a run (rod-, strip_a4-,
    strip_a3-RUN)."""
    answer = Response(printed(gather(caller(), job), [name])[name], mimetype="application/pdf")
    answer.headers["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return answer
