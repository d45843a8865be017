"""The pack: a manifest and parts by hash, made from one source and kept, so that only changed parts travel."""

from __future__ import annotations

import json
from typing import Any

from flask import Response, request

from oddleg.drawings import part_drawings, svg
from oddleg.plan import Plan, plan
from oddleg.plan.part_values import mark_of
from oddleg.plan.parts import parts
from oddleg.store.gather import Gathered, gather
from oddleg.store.records import keep_pack, manifest_of, part_body, sha_of, source_now

from . import shapes
from .request_body import Resource
from .services import BASE, MARKER, caller, services

pack = Resource("pack", __name__, url_prefix=f"{BASE}/jobs", description="The plan as a phone keeps it.")

A_YEAR_S = 365 * 24 * 3600


def canonical(value: Any) -> bytes:
    """One text for one value: names in order, no blanks. Raises ValueError where a number is not finite."""
    text = json.dumps(value, ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":"))
    return text.encode()


def drawn(made: Plan) -> dict[str, dict[str, dict[str, str]]]:
    """The drawings as SVG, by part and by field."""
    return {
        part: {
            field: {
                "title": one.title,
                "alt": one.alt,
                "svg": svg(one, f"{part}-{field}".replace("/", "-")),
            }
            for field, one in fields.items()
        }
        for part, fields in part_drawings(made).items()
    }


def manifest_and_parts(gathered: Gathered) -> tuple[bytes, dict[str, bytes]]:
    """The pack of a job: the manifest, and the body of each part by name."""
    made = plan(gathered.job, gathered.entries, gathered.charts)
    source, drawings = gathered.source, drawn(made)
    listed, bodies = [], {}
    for name, part in parts(made, source.revision).items():
        shown = {key: value for key, value in part.items() if key != "mark"} | drawings.get(name, {})
        body = bodies[name] = canonical(shown)
        listed.append({"name": name, "sha": sha_of(body), "bytes": len(body), "mark": part["mark"]})
    manifest = {
        "marker": MARKER,
        "job": gathered.job.id,
        "title": gathered.job.title,
        "source": {
            "job": source.job,
            "revision": source.revision,
            "position": source.position,
            "chain": source.chain,
            "program": source.program,
            "text": source.text,
            "words": source.words,
        },
        "mark": mark_of([one["mark"] for one in listed]),
        "parts": listed,
    }
    return canonical(manifest), bodies


@pack.get("/<job>/pack")
@pack.response(200, shapes.Manifest)
@pack.alt_response(304, description="The phone has this plan.")
def manifest(job: str) -> Response:
    """The manifest of the plan as it is now. Its ETag is the source."""
    source = source_now(caller(), job)
    found = None if source.text in request.if_none_match else manifest_of(source)
    if found is None and source.text not in request.if_none_match:
        gathered = gather(caller(), job)
        source = gathered.source
        found, bodies = manifest_and_parts(gathered)
        keep_pack(source, found, bodies, services().now())
    answer = Response(found or b"", mimetype="application/json")
    answer.set_etag(source.text)
    answer.headers["Cache-Control"] = "private, no-cache"
    return answer.make_conditional(request)


@pack.get("/<job>/pack/<sha>")
@pack.doc(responses={200: {"description": "A part", "content": {"application/json": {"schema": {"type": "object"}}}}})
def part(job: str, sha: str) -> Response:
    """One part, which never changes under this hash."""
    answer = Response(part_body(caller(), job, sha), mimetype="application/json")
    answer.set_etag(sha)
    answer.headers["Cache-Control"] = f"private, max-age={A_YEAR_S}, immutable"
    return answer.make_conditional(request)
