"""Site entries: push, pull, and what was put aside. No plan is made here."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from flask import request
from marshmallow import ValidationError

from oddleg.documents.fields import by_path
from oddleg.documents.payload import payload_bytes
from oddleg.documents.strict_json import refused
from oddleg.store import quarantine as store
from oddleg.store.entries import Candidate
from oddleg.store.gather import Row, pull
from oddleg.store.push import Batch, Have, push
from oddleg.store.refusals import BadDocument

from . import shapes
from .request_body import Resource, envelope_json
from .services import BASE, caller, services
from .signing_in import for_revoked_too, office_only

entries = Resource(
    "entries", __name__, url_prefix=BASE, description="Site entries: push, pull, and what was put aside."
)


def have_shape(have: Have) -> dict[str, Any]:
    return {"have": {"seq": have.seq, "chain": have.chain}, "backed_up": {"seq": have.backed_up_seq}}


def batch_of(asked: dict[str, Any]) -> Batch:
    sent = (Candidate(one["uid"], one["seq"], one["sha"], payload_bytes(one["payload"])) for one in asked["entries"])
    return Batch(asked["writer"], asked["app"], asked["saved_seq"], tuple(sent))


def batches_in(data: bytes) -> Iterator[Batch]:
    """The pushes in a file that a phone handed over: one push, of any length. Raises DocumentError, BadDocument."""
    found = envelope_json(data)
    listed = found.get("entries") if isinstance(found, dict) else None
    if not isinstance(listed, list):
        refused("This is no file of handed-over entries: it wants an object with `writer` and `entries`.")
    for start in range(0, max(len(listed), 1), shapes.GREATEST_BATCH):
        part = {"app": "file", "saved_seq": 0, **found, "entries": listed[start : start + shapes.GREATEST_BATCH]}
        try:
            yield batch_of(shapes.AskPush().load(part))
        except ValidationError as error:
            raise BadDocument(by_path(error.messages)) from None


@entries.post("/entries")
@entries.arguments(shapes.AskPush)
@entries.response(200, shapes.PushedShape)
@for_revoked_too
def take(asked: dict[str, Any]) -> dict[str, Any]:
    """Stores entries, each answered for by itself. Nothing that a user saved is refused."""
    named = request.headers.get("Oddleg-Writer")
    if named is not None and named != asked["writer"]:
        raise BadDocument({"writer": ["The body names another writer than the header Oddleg-Writer does."]})
    batch = batch_of(asked)
    with_us = services()
    pushed = push(caller(), batch, with_us.now(), with_us.random, with_us.config.greatest_from_revoked_bytes)
    results = [
        {"uid": one.uid, "status": one.status, "sha": one.sha} | ({"problem": one.problem} if one.problem else {})
        for one in pushed.results
    ]
    return {"results": results, "attention": pushed.attention, **have_shape(pushed.have)}


@entries.get("/jobs/<job>/entries")
@entries.arguments(shapes.AskPull, location="query")
@entries.response(200, shapes.PulledShape)
def give(asked: dict[str, Any], job: str) -> dict[str, Any]:
    """A page of the job's log after a cursor."""
    page = pull(caller(), job, asked["after"], asked["limit"], request.headers.get("Oddleg-Writer"))
    return {
        "reset": page.reset,
        "rows": [row_shape(row) for row in page.rows],
        "next": page.next,
        "more": page.more,
        "pack": page.pack,
        **have_shape(page.have),
    }


def row_shape(row: Row) -> dict[str, Any]:
    return {
        "pos": row.position,
        "chain": row.chain,
        "uid": row.uid,
        "sha": row.sha,
        "payload": row.payload,
        "erased": row.payload is None,
        "person": row.person,
        "received_at": row.received_at,
    }


@entries.get("/quarantine")
@entries.response(200, shapes.QuarantineShape)
@office_only
def list_cases() -> dict[str, Any]:
    """Entries put aside, with the reason and what can be done; and how many a phone saved that never came."""
    return {"cases": store.cases(caller()), "missing": store.missing(caller())}


@entries.post("/quarantine/<case>/release")
@entries.response(204)
@office_only
def release(case: str) -> None:
    """Lets an entry into its job's log."""
    store.release(caller(), case, services().now(), services().random)


@entries.post("/quarantine/<case>/dismissal")
@entries.response(204)
@office_only
def dismiss(case: str) -> None:
    """Closes a case without using the entry. Its bytes are kept."""
    store.dismiss(caller(), case, services().now(), services().random)
