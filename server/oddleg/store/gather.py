"""Job, entries and source together: all that goes into a plan, and the log as phones pull it."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass

from sqlalchemy import select

from oddleg.documents.payload import entry_of, read_payload
from oddleg.job import Charts, Entry, Job

from .access import Caller, job_head
from .charts import charts_for
from .database import database
from .jobs import job_of
from .program import program
from .push import Have, have_of
from .refusals import BadDocument
from .tables import START, JobHead, LogEntry, Person

GREATEST_PAGE = 1000


@dataclass(frozen=True)
class Source:
    """What a plan was made from: `position`, `chain` of the last entry that bears on it (notes do not)."""

    job: str
    revision: int
    position: int
    chain: str
    program: str

    @property
    def text(self) -> str:
        return f"{self.job}.{self.revision}.{self.position}.{self.chain[:12]}.{self.program}"

    @property
    def words(self) -> str:
        """The same for people: screens and sheets print it, and `code` tells two plans apart that read alike."""
        code = hashlib.sha256(self.text.encode()).hexdigest()[:6]
        return f"revision {self.revision}, entry {self.position}, plan {code}"


@dataclass(frozen=True)
class Gathered:
    """`charts`: of the fitting charts the rows that the job is pinned to; its revision, so the source, names them."""

    job: Job
    entries: tuple[Entry, ...]
    charts: Charts
    source: Source


@dataclass(frozen=True)
class Row:
    """An entry as it stands in the log. `payload` None: its content was erased."""

    position: int
    chain: str
    uid: str
    sha: str
    payload: str | None
    person: str
    received_at: str


@dataclass(frozen=True)
class Pulled:
    """A page of a job's log. `reset`: the cursor does not belong to this log, so the phone starts again."""

    reset: bool
    rows: tuple[Row, ...]
    next: str
    more: bool
    have: Have
    pack: str


def gather(caller: Caller, job: str) -> Gathered:
    head = job_head(caller, job)
    query = (
        select(LogEntry, Person.name)
        .join(Person, Person.id == LogEntry.person_id)
        .where(LogEntry.job_id == head.id, LogEntry.position <= head.counter)
        .order_by(LogEntry.position)
    )
    # An erased entry has no body, but what replaced it must still find it.
    entries = tuple(
        Entry(row.uid, row.position, person, "", None)
        if row.erased_at
        else entry_of(row.uid, row.position, person, read_payload(row.payload))
        for row, person in database.session.execute(query)
    )
    job_now = job_of(head)
    return Gathered(job_now, entries, charts_for(job_now), source_of(head))


def source_of(head: JobHead) -> Source:
    last = database.session.execute(
        select(LogEntry.position, LogEntry.chain)
        .where(LogEntry.job_id == head.id, LogEntry.position <= head.counter, LogEntry.bears)
        .order_by(LogEntry.position.desc())
        .limit(1)
    ).one_or_none()
    position, chain = last or (0, START)
    return Source(head.id, head.revision, position, chain, program())


def pull(caller: Caller, job: str, after: str | None, limit: int, writer: str | None) -> Pulled:
    """The log after a cursor `POSITION.CHAIN`, at most `limit` rows; None: from the start. Raises BadDocument."""
    position, chain = cursor(after)
    head = job_head(caller, job)
    have, pack = have_of(caller.pairing, writer), source_of(head).text
    if not _stands(head, position, chain):
        return Pulled(True, (), f"0.{START}", head.counter > 0, have, pack)
    query = (
        select(LogEntry, Person.name)
        .join(Person, Person.id == LogEntry.person_id)
        .where(LogEntry.job_id == head.id, LogEntry.position > position, LogEntry.position <= head.counter)
        .order_by(LogEntry.position)
        .limit(limit)
    )
    rows = tuple(
        Row(
            entry.position,
            entry.chain,
            entry.uid,
            entry.sha,
            None if entry.erased_at else entry.payload.decode(),
            person,
            entry.received_at,
        )
        for entry, person in database.session.execute(query)
    )
    if rows:
        position, chain = rows[-1].position, rows[-1].chain
    return Pulled(False, rows, f"{position}.{chain}", position < head.counter, have, pack)


def cursor(text: str | None) -> tuple[int, str]:
    found = re.fullmatch(r"(\d{1,12})\.([0-9a-f]{64})", text or f"0.{START}", re.ASCII)
    if found is None:
        raise BadDocument({"after": ["This must be a cursor as the last pull gave it (`next`), or be left out."]})
    return int(found[1]), found[2]


def _stands(head: JobHead, position: int, chain: str) -> bool:
    """Whether the log has this chain at this position."""
    if position == 0:
        return chain == START
    query = select(LogEntry.chain).where(LogEntry.job_id == head.id, LogEntry.position == position)
    return position <= head.counter and database.session.scalar(query) == chain
