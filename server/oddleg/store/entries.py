"""Entries on their way into the log: what is wrong with one, and the one place that appends.

Nothing here refuses: what cannot be used is told as a `Problem` and kept in quarantine by the caller, word for word.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import insert, select, update
from sqlalchemy.orm import Session

from oddleg.documents.job_file import raised
from oddleg.documents.payload import GREATEST_PAYLOAD_BYTES, Payload, PayloadError, read_payload
from oddleg.documents.strict_json import parse_json

from .access import Caller, Random, visible_jobs
from .moments import moment
from .tables import JobHead, JobRevision, LogEntry

CHUNK = 400
"""Values in one IN list; every database takes that many."""


@dataclass(frozen=True)
class Candidate:
    """An entry as it came: `sha` is what the phone says, `payload` the bytes of the text it sent."""

    uid: str
    seq: int
    sha: str
    payload: bytes


@dataclass(frozen=True)
class Problem:
    """Why an entry is put aside. `job` as far as it could be read. `office_may`: the office may let it in even so."""

    reason: str
    text: str
    job: str | None = None
    office_may: bool = False


def link(chain: str, uid: str, sha: str) -> str:
    """The chain one entry further on."""
    return hashlib.sha256(f"{chain}{uid}{sha}".encode()).hexdigest()


def new_uid(now: datetime, random: Random) -> str:
    """A UUID of version 7 (RFC 9562): milliseconds, then random bits."""
    number = int(now.timestamp() * 1000) << 80 | int.from_bytes(random(10), "big")
    number = number & ~(0xF << 76) | 0x7 << 76
    return str(UUID(int=number & ~(0x3 << 62) | 0x2 << 62))


def read(candidate: Candidate) -> Payload | Problem:
    """What the payload says, or what is wrong with it by itself."""
    if hashlib.sha256(candidate.payload).hexdigest() != candidate.sha:
        return Problem("sha", "The entry was damaged on its way: its hash is not the one that the phone sent with it.")
    if len(candidate.payload) > GREATEST_PAYLOAD_BYTES:
        return Problem(
            "long", f"The entry has {len(candidate.payload)} bytes; {GREATEST_PAYLOAD_BYTES} at most are read."
        )
    try:
        return read_payload(candidate.payload)
    except PayloadError as error:
        return Problem(error.reason, str(error), error.job)


def in_chunks(values: Iterable[str]) -> Iterable[list[str]]:
    listed = list(dict.fromkeys(values))
    return (listed[start : start + CHUNK] for start in range(0, len(listed), CHUNK))


class Intake:
    """Takes entries into the logs of the jobs they name. Locks those jobs, in order of their ids, when it is made."""

    def __init__(self, session: Session, caller: Caller, payloads: Sequence[Payload], now: datetime) -> None:
        self.session, self.now = session, moment(now)
        self.heads: dict[str, JobHead] = {}
        for chunk in in_chunks(sorted(payload.job for payload in payloads)):
            query = visible_jobs(caller).where(JobHead.id.in_(chunk)).with_for_update(of=JobHead)
            self.heads |= {head.id: head for head in session.scalars(query)}
        self.places = {head.id: (head.counter, head.chain) for head in self.heads.values()}
        self.removed = {head.id: self._removed_ids(head) for head in self.heads.values()}
        self.replaced: dict[str, tuple[str, str | None]] = {}
        self._learn({payload.replaces for payload in payloads if payload.replaces})
        self.rows: list[dict[str, Any]] = []

    def _removed_ids(self, head: JobHead) -> frozenset[str]:
        text = self.session.scalars(
            select(JobRevision.document).where(JobRevision.job_id == head.id, JobRevision.revision == head.revision)
        ).one()
        return frozenset(raised(parse_json(text.encode())).get("removed_ids", ()))

    def _learn(self, uids: set[str]) -> None:
        """Job and predecessor of each of these entries, and of those that they replace in turn."""
        while uids:
            found: set[str] = set()
            for chunk in in_chunks(sorted(uids)):
                rows = self.session.execute(
                    select(LogEntry.uid, LogEntry.job_id, LogEntry.replaces).where(LogEntry.uid.in_(chunk))
                )
                for uid, job, replaces in rows:
                    self.replaced[uid] = (job, replaces)
                    if replaces:
                        found.add(replaces)
            uids = found - self.replaced.keys()

    def problem(self, uid: str, payload: Payload) -> Problem | None:
        """What is wrong with the entry in its job, or None."""
        job = payload.job
        if job not in self.heads:
            return Problem(
                "job",
                f"There is no job {job!r} here, or the one who sent this is not assigned to it. "
                "The office can put that right.",
                job,
                office_may=True,
            )
        if payload.target in self.removed[job]:
            return Problem(
                "removed",
                f"{payload.target!r} was taken out of the job at the desk. Let it in if it still bears on the room.",
                job,
                office_may=True,
            )
        before = payload.replaces
        if before in self.replaced and self.replaced[before][0] != job:
            return Problem("replaces", "It replaces an entry of another job, which cannot be.", job)
        while before is not None:
            if before == uid:
                return Problem("circle", "It replaces an entry that replaces it in turn, so neither could count.", job)
            before = self.replaced[before][1] if before in self.replaced else None
        return None

    def append(self, candidate: Candidate, payload: Payload, person: str, pairing: str | None) -> None:
        position, chain = self.places[payload.job]
        position, chain = position + 1, link(chain, candidate.uid, candidate.sha)
        self.places[payload.job] = (position, chain)
        self.replaced[candidate.uid] = (payload.job, payload.replaces)
        self.rows.append(
            {
                "uid": candidate.uid,
                "job_id": payload.job,
                "position": position,
                "chain": chain,
                "sha": candidate.sha,
                "payload": candidate.payload,
                "replaces": payload.replaces,
                "bears": payload.kind != "note",
                "person_id": person,
                "pairing_id": pairing,
                "received_at": self.now,
                "erased_at": None,
            }
        )

    def write(self) -> None:
        if not self.rows:
            return
        self.session.execute(insert(LogEntry), self.rows)
        for job in {row["job_id"] for row in self.rows}:
            counter, chain = self.places[job]
            self.session.execute(update(JobHead).where(JobHead.id == job).values(counter=counter, chain=chain))
        self.rows = []
