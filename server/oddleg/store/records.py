"""What left the server, word for word and by hash; and the manifest that was made from a source."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from datetime import datetime

from sqlalchemy import select

from .access import Caller, job_head
from .database import database, writing
from .gather import Source, source_of
from .moments import moment
from .refusals import NotHere
from .tables import Pack, Record


def sha_of(body: bytes) -> str:
    return hashlib.sha256(body).hexdigest()


def source_now(caller: Caller, job: str) -> Source:
    return source_of(job_head(caller, job))


def manifest_of(source: Source) -> bytes | None:
    """The manifest made from this source, or None where none was made yet. The source comes from a visible job."""
    return database.session.scalar(select(Pack.manifest).where(Pack.job_id == source.job, Pack.source == source.text))


def keep_pack(source: Source, manifest: bytes, bodies: Mapping[str, bytes], now: datetime) -> None:
    """Keeps parts (bodies by name) and manifest; what is here already by hash is left as it is."""
    with writing() as session:
        if session.get(Pack, (source.job, source.text)) is None:
            session.add(Pack(job_id=source.job, source=source.text, manifest=manifest, at=moment(now)))
        for name, body in bodies.items():
            keep(source, name, body, now)


def keep(source: Source, name: str, body: bytes, now: datetime) -> None:
    """Keeps one body inside a writing transaction."""
    if database.session.get(Record, (source.job, sha_of(body))) is None:
        database.session.add(
            Record(job_id=source.job, sha=sha_of(body), name=name, source=source.text, body=body, at=moment(now))
        )


def keep_sheet(source: Source, name: str, body: bytes, now: datetime) -> None:
    with writing():
        keep(source, f"sheets/{name}", body, now)


def part_body(caller: Caller, job: str, sha: str) -> bytes:
    head = job_head(caller, job)
    body = database.session.scalar(select(Record.body).where(Record.job_id == head.id, Record.sha == sha))
    if body is None:
        raise NotHere("There is no part with this hash. Get the manifest again; it lists the parts as they are now.")
    return body
