"""A push: every entry is stored and answered for by itself, in one transaction. No plan is made here."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import delete, func, insert, select, update
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from oddleg.documents.payload import Payload

from .access import Caller, Random, new_id
from .database import database, writing
from .entries import Candidate, Intake, Problem, in_chunks, read
from .entries import link as chain_link
from .moments import moment
from .refusals import NotSignedIn, TooMany
from .tables import START, LogEntry, Pairing, Quarantine, Slot, Writer

REVOKED = Problem(
    "revoked", "It came from a phone that the office had revoked. The office may let it in.", office_may=True
)
CONFLICT = Problem(
    "conflict", "An entry with this id is here already with other content. Both are kept; the first one counts."
)


@dataclass(frozen=True)
class Have:
    """The last slot of a writer that is here without a gap, its chain, and the last that a verified backup holds."""

    seq: int = 0
    chain: str = START
    backed_up_seq: int = 0


@dataclass(frozen=True)
class Result:
    """What became of one entry: stored, duplicate, quarantined, conflict or fork."""

    uid: str
    status: str
    sha: str
    problem: str | None = None


@dataclass(frozen=True)
class Attention:
    uid: str
    problem: str
    state: str


@dataclass(frozen=True)
class Pushed:
    results: tuple[Result, ...]
    have: Have
    attention: tuple[Attention, ...]


@dataclass(frozen=True)
class Batch:
    """What a phone hands over: `saved_seq` is the highest number that it ever saved."""

    writer: str
    app: str
    saved_seq: int
    entries: tuple[Candidate, ...]


def push(caller: Caller, batch: Batch, now: datetime, random: Random, greatest_from_revoked_bytes: int) -> Pushed:
    """Stores a batch. Raises TooMany where a revoked phone has handed over more than it may, and NotSignedIn.

    Two phones that offer the same new entry at once meet in its unique id; the later one then finds it stored.
    """
    try:
        return _push(caller, batch, now, random, greatest_from_revoked_bytes)
    except IntegrityError:
        return _push(caller, batch, now, random, greatest_from_revoked_bytes)


def _push(caller: Caller, batch: Batch, now: datetime, random: Random, greatest_from_revoked_bytes: int) -> Pushed:
    with writing() as session:
        pairing = session.get(Pairing, caller.pairing, with_for_update=True) if caller.pairing else None
        if pairing is None:
            raise NotSignedIn("Entries come from a paired phone. Pair this one first.")
        pairing.seen_at = moment(now)
        shelf = _Shelf(session, pairing, now, random)
        shelf.look_up(batch.entries)
        fresh = [read(one) if shelf.is_new(one) else None for one in batch.entries]
        if pairing.revoked_at is None:
            readable = [found for found in fresh if isinstance(found, Payload)]
            intake = Intake(session, caller, readable, now)
        else:
            intake = None
            shelf.check_room(batch.entries, greatest_from_revoked_bytes)
        slots = _Slots(session, pairing.id, batch)
        results = tuple(
            slots.take(one, shelf.place(one, found, intake, caller.person))
            for one, found in zip(batch.entries, fresh, strict=True)
        )
        if intake is not None:
            intake.write()
        shelf.write()
        have = slots.write()
        return Pushed(results, have, attention(session, pairing.id))


def attention(session: Session, pairing: str) -> tuple[Attention, ...]:
    """The open cases of a pairing, oldest first."""
    query = (
        select(Quarantine.uid, Quarantine.problem, Quarantine.state)
        .where(Quarantine.pairing_id == pairing, Quarantine.state == "open")
        .order_by(Quarantine.received_at, Quarantine.uid)
    )
    return tuple(Attention(*row) for row in session.execute(query))


def have_of(pairing: str | None, writer: str | None) -> Have:
    found = database.session.get(Writer, (pairing, writer)) if pairing and writer else None
    return Have() if found is None else Have(found.have_seq, found.have_chain, found.backed_up_seq)


class _Shelf:
    """What is known by uid, and what is put aside in this push."""

    def __init__(self, session: Session, pairing: Pairing, now: datetime, random: Random) -> None:
        self.session, self.pairing, self.now, self.random = session, pairing, moment(now), random
        self.in_log: dict[str, str] = {}
        self.aside: dict[str, dict[str, tuple[str, str]]] = {}
        self.rows: list[dict[str, Any]] = []

    def look_up(self, entries: Sequence[Candidate]) -> None:
        for chunk in in_chunks(one.uid for one in entries):
            log = select(LogEntry.uid, LogEntry.sha).where(LogEntry.uid.in_(chunk))
            self.in_log |= dict(self.session.execute(log).all())
            cases = select(Quarantine.uid, Quarantine.sha, Quarantine.id, Quarantine.reason)
            for uid, sha, case, reason in self.session.execute(cases.where(Quarantine.uid.in_(chunk))):
                self.aside.setdefault(uid, {})[sha] = (case, reason)

    def first_sha(self, uid: str) -> str | None:
        """The sha of the content that came first under this uid."""
        if uid in self.in_log:
            return self.in_log[uid]
        return next((sha for sha, (_, reason) in self.aside.get(uid, {}).items() if reason != CONFLICT.reason), None)

    def is_new(self, one: Candidate) -> bool:
        """Nothing of this uid is here, or only a damaged copy of the same, which may have come whole by now."""
        first = self.first_sha(one.uid)
        return first is None or (first == one.sha and self._damaged(one))

    def _damaged(self, one: Candidate) -> bool:
        return one.uid not in self.in_log and self.aside[one.uid][one.sha][1] == "sha"

    def check_room(self, entries: Sequence[Candidate], greatest_bytes: int) -> None:
        """A revoked phone may hand over so many bytes in all. Raises TooMany."""
        kept = self.session.scalar(
            select(func.coalesce(func.sum(Quarantine.size_bytes), 0)).where(
                Quarantine.pairing_id == self.pairing.id, Quarantine.received_at >= self.pairing.revoked_at
            )
        )
        new = {(one.uid, one.sha): len(one.payload) for one in entries if self.first_sha(one.uid) != one.sha}
        if (kept or 0) + sum(new.values()) > greatest_bytes:
            raise TooMany(
                f"This phone was revoked, and {greatest_bytes} bytes are kept from such a phone at most. "
                "Hand what is left over as a file, or have the phone paired again."
            )

    def place(self, one: Candidate, found: Payload | Problem | None, intake: Intake | None, person: str) -> Result:
        first = self.first_sha(one.uid)
        if first is not None and first != one.sha:
            if one.sha not in self.aside.get(one.uid, {}):
                self._put_aside(one, CONFLICT, person)
            return Result(one.uid, "conflict", one.sha, CONFLICT.text)
        if found is None:
            return Result(one.uid, "duplicate", one.sha)
        if first is not None:
            if not self._damaged(one) or (isinstance(found, Problem) and found.reason == "sha"):
                return Result(one.uid, "duplicate", one.sha)
            self._forget_damaged(one)
        if intake is None:
            problem: Problem | None = replace(REVOKED, job=found.job)
        else:
            problem = found if isinstance(found, Problem) else intake.problem(one.uid, found)
        if problem is not None:
            self._put_aside(one, problem, person)
            return Result(one.uid, "quarantined", one.sha, problem.text)
        intake.append(one, found, person, self.pairing.id)
        self.in_log[one.uid] = one.sha
        return Result(one.uid, "stored", one.sha)

    def _forget_damaged(self, one: Candidate) -> None:
        """The same entry has come whole: its damaged copy makes room for it."""
        case, _ = self.aside[one.uid].pop(one.sha)
        self.rows = [row for row in self.rows if row["id"] != case]
        self.session.execute(delete(Quarantine).where(Quarantine.id == case))

    def _put_aside(self, one: Candidate, problem: Problem, person: str) -> None:
        case = new_id("q", self.random)
        self.aside.setdefault(one.uid, {})[one.sha] = (case, problem.reason)
        self.rows.append(
            {
                "id": case,
                "uid": one.uid,
                "sha": one.sha,
                "payload": one.payload,
                "size_bytes": len(one.payload),
                "reason": problem.reason,
                "problem": problem.text,
                "state": "open",
                "job_id": problem.job,
                "person_id": person,
                "pairing_id": self.pairing.id,
                "received_at": self.now,
                "closed_at": None,
            }
        )

    def write(self) -> None:
        if self.rows:
            self.session.execute(insert(Quarantine), self.rows)


class _Slots:
    """The numbering of one writer. A slot once taken stays with the entry that took it."""

    def __init__(self, session: Session, pairing: str, batch: Batch) -> None:
        self.session = session
        found = session.get(Writer, (pairing, batch.writer))
        self.writer = found or Writer(
            pairing_id=pairing, id=batch.writer, saved_seq=0, have_seq=0, have_chain=START, backed_up_seq=0
        )
        self.writer.app = batch.app
        self.writer.saved_seq = max(self.writer.saved_seq, batch.saved_seq)
        session.add(self.writer)
        session.flush()
        lowest = min((one.seq for one in batch.entries), default=self.writer.have_seq + 1)
        mine = select(Slot.seq, Slot.uid, Slot.sha).where(Slot.pairing_id == pairing, Slot.writer_id == batch.writer)
        rows = session.execute(mine.where(Slot.seq >= min(lowest, self.writer.have_seq + 1)))
        self.taken = {seq: (uid, sha) for seq, uid, sha in rows}
        self.new: dict[int, Candidate] = {}

    def take(self, one: Candidate, result: Result) -> Result:
        """The result, or `fork` where another entry has the slot: the phone then takes a new writer."""
        uid, _ = self.taken.get(one.seq, (None, None))
        if uid is None:
            self.taken[one.seq] = (one.uid, one.sha)
            self.new[one.seq] = one
        elif uid != one.uid:
            text = f"Number {one.seq} of this phone is another entry's. This one is kept; send it under a new writer."
            return Result(one.uid, "fork", one.sha, text)
        return result

    def write(self) -> Have:
        writer = self.writer
        chains: dict[int, str] = {}
        seq, chain = writer.have_seq, writer.have_chain
        while seq + 1 in self.taken:
            seq += 1
            chain = chains[seq] = chain_link(chain, *self.taken[seq])
        key = {"pairing_id": writer.pairing_id, "writer_id": writer.id}
        if self.new:
            self.session.execute(
                insert(Slot),
                [
                    {**key, "seq": number, "uid": one.uid, "sha": one.sha, "chain": chains.get(number)}
                    for number, one in self.new.items()
                ],
            )
        for number in chains.keys() - self.new.keys():
            self.session.execute(
                update(Slot)
                .where(Slot.pairing_id == writer.pairing_id, Slot.writer_id == writer.id, Slot.seq == number)
                .values(chain=chains[number])
            )
        writer.have_seq, writer.have_chain = seq, chain
        return Have(seq, chain, writer.backed_up_seq)
