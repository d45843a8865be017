"""Sheets as PDF, made from the plan as it is now."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime
from zoneinfo import ZoneInfo

from flask import Response

from oddleg.plan import plan
from oddleg.sheets import SheetSource, sheet_names, sheet_pdfs
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


def printed(gathered: Gathered, wanted: Callable[[str], bool]) -> Iterator[tuple[str, bytes]]:
    """The sheets that are wanted, each by its name and kept as a record. Raises NotHere where there is none."""
    config, now = services().config, services().now()
    made = plan(gathered.job, gathered.entries, gathered.charts)
    known = [name for name, _ in sheet_names(made)]
    source = SheetSource(
        gathered.source.revision,
        gathered.source.words,
        day_in_words(now, gathered.job.time_zone),
        config.origin,
    )
    names = [name for name in known if wanted(name)]
    if not names:
        raise NotHere(f"There is no such sheet; there are {', '.join(known) or 'none yet'}.")
    for name, body in sheet_pdfs(made, names, source):
        keep_sheet(gathered.source, name, body, now)
        yield name, body


@sheets.get("/<job>/sheets/<name>.pdf")
@sheets.doc(responses={200: {"description": "The sheet", "content": PDF}})
def sheet(job: str, name: str) -> Response:
    """A sheet: of a room (survey-, legs-, labels-, plinth-, walls-, corners-, tall-ROOM), of a run (rod-, strip_a4-,
    strip_a3-RUN), of an item (panels-, template_a4-, template_a3-, stick_a4-, stick_a3-ITEM); drawers-, drilling-,
    services- and first_fix-ROOM where there is something to tell."""
    ((_, body),) = printed(gather(caller(), job), lambda one: one == name)
    answer = Response(body, mimetype="application/pdf")
    answer.headers["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return answer
