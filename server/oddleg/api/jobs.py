"""Jobs as documents, each with a revision that is its ETag."""

from __future__ import annotations

import re
from typing import Any

from flask import Response, request
from werkzeug.exceptions import PreconditionRequired

from oddleg.plan import plan
from oddleg.store import jobs as store
from oddleg.store.gather import gather
from oddleg.store.refusals import BadDocument, Stale

from . import shapes
from .request_body import Resource, body
from .services import BASE, caller, services
from .signing_in import office_only

jobs = Resource("jobs", __name__, url_prefix=f"{BASE}/jobs", description="Jobs as documents with revisions.")

DOCUMENT = {"application/json": {"schema": {"$ref": "#/components/schemas/Job"}}}
SENT = {"requestBody": {"required": True, "content": DOCUMENT}}
REVISION = {
    "ETag": {"description": "the revision, in quotes", "schema": {"type": "string"}},
}
IF_MATCH = {
    "parameters": [
        {"in": "header", "name": "If-Match", "required": True, "schema": {"type": "string", "examples": ['"3"']}}
    ]
}


def answered(status: str, **headers: Any) -> dict[str, Any]:
    return {"responses": {status: {"description": "The document", "content": DOCUMENT, "headers": REVISION | headers}}}


def revision_sent() -> int:
    """The revision in If-Match. Raises 428 without one, Stale where it is none of ours."""
    given = request.headers.get("If-Match")
    if given is None:
        raise PreconditionRequired
    found = re.fullmatch(r'"(\d{1,12})"', given.strip(), re.ASCII)
    if found is None:
        raise Stale(f'If-Match is {given[:80]!r}; send the revision as its ETag has it, for example If-Match: "3".')
    return int(found[1])


def document(text: str, revision: int, status: int = 200) -> Response:
    answer = Response(text, status, mimetype="application/json")
    answer.set_etag(str(revision))
    answer.headers["Cache-Control"] = "no-cache"
    return answer


def revised(made: store.Revised, status: int = 200) -> Response:
    text, revision = store.document_of(caller(), made.job.id)
    answer = document(text, revision, status)
    if status == 201:
        answer.headers["Location"] = f"{BASE}/jobs/{made.job.id}"
    return answer


@jobs.get("")
@jobs.response(200, shapes.Jobs)
def list_jobs() -> dict[str, Any]:
    """The jobs that the caller may see."""
    return {"jobs": store.list_jobs(caller())}


@jobs.post("")
@jobs.arguments(shapes.AskCopy, location="query")
@jobs.doc(**SENT, **answered("201"))
@office_only
def create(asked: dict[str, bool]) -> Response:
    """Brings a job in. Proposed stations are accepted in rooms that have none."""
    job = store.read_document(body())
    return revised(store.create_job(caller(), job, services().now(), services().random, asked["as_copy"]), 201)


@jobs.get("/<job>")
@jobs.doc(**answered("200"))
def export(job: str) -> Response:
    """The job document as exported."""
    return document(*store.document_of(caller(), job)).make_conditional(request)


@jobs.put("/<job>")
@jobs.doc(**SENT, **IF_MATCH, **answered("200"))
@office_only
def replace(job: str) -> Response:
    """Replaces the job. Ids that are gone become tombstones and are never used again."""
    revision = revision_sent()
    sent = store.read_document(body())
    if sent.id != job:
        raise BadDocument({"id": [f"The document is that of job {sent.id!r}, the address that of {job!r}."]})
    return revised(store.replace_job(caller(), sent, revision, services().now()))


@jobs.post("/<job>/stations")
@jobs.arguments(shapes.AskStations)
@jobs.doc(**IF_MATCH, **answered("200"))
def accept_stations(asked: dict[str, Any], job: str) -> Response:
    """Takes proposed stations up into the job, as a new revision."""
    revision = revision_sent()
    all_of_it = gather(caller(), job)
    if all_of_it.source.revision != revision:
        raise store.stale(job, revision, all_of_it.source.revision)
    room = next(
        (one for one in plan(all_of_it.job, all_of_it.entries, all_of_it.charts).rooms if one.room.id == asked["room"]),
        None,
    )
    if room is None:
        names = ", ".join(one.id for one in all_of_it.job.rooms)
        raise BadDocument({"room": [f"This job has no room {asked['room']!r}; it has {names}."]})
    proposed = {one.station.id: one.station for one in room.station_list.stations if not one.accepted and not one.added}
    strange = {
        f"stations.{place}": [f"Station {id!r} is not proposed for this room, or is accepted already."]
        for place, id in enumerate(asked["stations"])
        if id not in proposed
    }
    if strange:
        raise BadDocument(strange)
    chosen = tuple(proposed[id] for id in dict.fromkeys(asked["stations"]))
    return revised(store.accept_stations(caller(), job, room.room.id, chosen, revision, services().now()))
