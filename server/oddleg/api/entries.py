"""Site entries: push, pull, and what was put aside. No plan is made here."""

from __future__ import annotations

from typing import Any

from flask import request

from oddleg.documents.payload import payload_bytes
from oddleg.store import quarantine as store
from oddleg.store.entries import Candidate
from oddleg.store.gather import Row, pull
from oddleg.store.push import Batch, Have, push
from oddleg.store.refusals import BadDocument

from . import shapes
from .request_body import Resource
from .services import BASE, caller, services
from .signing_in import for_revoked_too, office_only

entries = Resource(
    "entries", __name__, url_prefix=BASE, description="Site entries: push, pull, and what was put aside."
)


def have_shape(have: Have) -> dict[str, Any]:
    return {"have": {"seq": have.seq, "chain": have.chain}, "backed_up": {"seq": have.backed_up_seq}}


@entries.post("/entries")
@entries.arguments(shapes.AskPush)
@entries.response(200, shapes.PushedShape)
@for_revoked_too
def take(asked: dict[str, Any]) -> dict[str, Any]:
    """Stores entries, each answered for by itself. Nothing that a user saved is refused."""
    named = request.headers.get("Oddleg-Writer")
    if named is not None and named != asked["writer"]:
        raise BadDocument({"writer": ["The body names another writer than the header Oddleg-Writer does."]})
    sent = (Candidate(one["uid"], one["seq"], one["sha"], payload_bytes(one["payload"])) for one in asked["entries"])
    batch = Batch(asked["writer"], asked["app"], asked["saved_seq"], tuple(sent))
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
