"""The tables. Times are UTC texts to the millisecond (`2026-01-31T08:15:00.000Z`), so that they sort as they read."""

from __future__ import annotations

from typing import ClassVar

from sqlalchemy import ForeignKey, ForeignKeyConstraint, Index, LargeBinary, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from .database import Base

START = "0" * 64
"""The chain before the first entry."""

Moment = String(24)
Hash = String(64)
Id = String(64)


class Person(Base):
    """Somebody of the firm; `role` is `office` or `fitter`."""

    __tablename__ = "person"
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    name: Mapped[str] = mapped_column(Text)
    role: Mapped[str] = mapped_column(String(16))
    at: Mapped[str] = mapped_column(Moment)


class Pairing(Base):
    """One phone or desk of a person. Only the token's hash is kept; a revoked pairing is kept for its entries' sake."""

    __tablename__ = "pairing"
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    person_id: Mapped[str] = mapped_column(ForeignKey("person.id"), index=True)
    device: Mapped[str] = mapped_column(Text)
    token_hash: Mapped[str] = mapped_column(Hash, unique=True)
    at: Mapped[str] = mapped_column(Moment)
    seen_at: Mapped[str] = mapped_column(Moment)
    revoked_at: Mapped[str | None] = mapped_column(Moment)


class Code(Base):
    """A code that pairs one device of a person, once. Spent or expired ones stay until the next is made."""

    __tablename__ = "code"
    code_hash: Mapped[str] = mapped_column(Hash, primary_key=True)
    person_id: Mapped[str] = mapped_column(ForeignKey("person.id"), index=True)
    expires_at: Mapped[str] = mapped_column(Moment)
    spent_at: Mapped[str | None] = mapped_column(Moment)
    pairing_id: Mapped[str | None] = mapped_column(ForeignKey("pairing.id"))


class WrongCode(Base):
    """A try with a code that nobody has; counted, so that codes cannot be guessed."""

    __tablename__ = "wrong_code"
    id: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[str] = mapped_column(Moment, index=True)


class Writer(Base):
    """One outbox of a pairing. `have_seq` and `have_chain`: the last of its slots that are here without a gap.

    `saved_seq`: the highest that the phone says it ever saved. `backed_up_seq`: the highest that a finished and
    verified backup holds.
    """

    __tablename__ = "writer"
    pairing_id: Mapped[str] = mapped_column(ForeignKey("pairing.id"), primary_key=True)
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    app: Mapped[str] = mapped_column(Text, default="")
    saved_seq: Mapped[int] = mapped_column(default=0)
    have_seq: Mapped[int] = mapped_column(default=0)
    have_chain: Mapped[str] = mapped_column(Hash, default=START)
    backed_up_seq: Mapped[int] = mapped_column(default=0)


class JobHead(Base):
    """What is searched or joined of a job. `counter` and `chain`: the last place in the job's log.

    The revision is raised by hand, in the one put; a child row's change would not raise it.
    """

    __tablename__ = "job_head"
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    revision: Mapped[int] = mapped_column()
    title: Mapped[str] = mapped_column(Text)
    place: Mapped[str] = mapped_column(Text)
    client: Mapped[str] = mapped_column(Text)
    counter: Mapped[int] = mapped_column(default=0)
    chain: Mapped[str] = mapped_column(Hash, default=START)
    archived_at: Mapped[str | None] = mapped_column(Moment)
    __mapper_args__: ClassVar = {"version_id_col": revision, "version_id_generator": False}


class JobRevision(Base):
    """One immutable document: the text of the job file, never updated."""

    __tablename__ = "job_revision"
    job_id: Mapped[str] = mapped_column(ForeignKey("job_head.id"), primary_key=True)
    revision: Mapped[int] = mapped_column(primary_key=True)
    document: Mapped[str] = mapped_column(Text)
    sha: Mapped[str] = mapped_column(Hash)
    person_id: Mapped[str | None] = mapped_column(ForeignKey("person.id"))
    at: Mapped[str] = mapped_column(Moment)


class Assignment(Base):
    __tablename__ = "assignment"
    job_id: Mapped[str] = mapped_column(ForeignKey("job_head.id"), primary_key=True)
    person_id: Mapped[str] = mapped_column(ForeignKey("person.id"), primary_key=True, index=True)
    at: Mapped[str] = mapped_column(Moment)


class LogEntry(Base):
    """One entry in a job's log, as the very bytes that came. `bears`: the plan depends on it (all but notes).

    An erased one has an empty payload and keeps uid, sha and chain.
    """

    __tablename__ = "entry"
    uid: Mapped[str] = mapped_column(String(36), primary_key=True)
    job_id: Mapped[str] = mapped_column(ForeignKey("job_head.id"))
    position: Mapped[int]
    chain: Mapped[str] = mapped_column(Hash)
    sha: Mapped[str] = mapped_column(Hash)
    payload: Mapped[bytes] = mapped_column(LargeBinary)
    replaces: Mapped[str | None] = mapped_column(String(36), index=True)
    bears: Mapped[bool]
    person_id: Mapped[str] = mapped_column(ForeignKey("person.id"), index=True)
    pairing_id: Mapped[str | None] = mapped_column(ForeignKey("pairing.id"))
    received_at: Mapped[str] = mapped_column(Moment)
    erased_at: Mapped[str | None] = mapped_column(Moment)
    __table_args__ = (UniqueConstraint("job_id", "position"),)


class Slot(Base):
    """A place in a writer's numbering, and the entry that took it. `sha` is the phone's own, also for a conflict."""

    __tablename__ = "slot"
    pairing_id: Mapped[str] = mapped_column(Id, primary_key=True)
    writer_id: Mapped[str] = mapped_column(Id, primary_key=True)
    seq: Mapped[int] = mapped_column(primary_key=True)
    uid: Mapped[str] = mapped_column(String(36))
    sha: Mapped[str] = mapped_column(Hash)
    chain: Mapped[str | None] = mapped_column(Hash)
    __table_args__ = (ForeignKeyConstraint(["pairing_id", "writer_id"], ["writer.pairing_id", "writer.id"]),)


class Quarantine(Base):
    """An entry put aside, word for word: reason, what is wrong, and what became of it.

    `state`: open, released (it is in the log now) or dismissed. A variant of an entry (same uid, other content) is kept
    here with the reason `conflict`. `job_id` as far as it could be read; no such job need exist.
    """

    __tablename__ = "quarantine"
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    uid: Mapped[str] = mapped_column(String(36), index=True)
    sha: Mapped[str] = mapped_column(Hash)
    payload: Mapped[bytes] = mapped_column(LargeBinary)
    size_bytes: Mapped[int]
    reason: Mapped[str] = mapped_column(String(32))
    problem: Mapped[str] = mapped_column(Text)
    state: Mapped[str] = mapped_column(String(16))
    job_id: Mapped[str | None] = mapped_column(Text, index=True)
    person_id: Mapped[str] = mapped_column(ForeignKey("person.id"))
    pairing_id: Mapped[str | None] = mapped_column(ForeignKey("pairing.id"))
    received_at: Mapped[str] = mapped_column(Moment)
    closed_at: Mapped[str | None] = mapped_column(Moment)
    __table_args__ = (UniqueConstraint("uid", "sha"), Index("quarantine_of", "pairing_id", "state"))


class Record(Base):
    """What left the server in a pack or on a sheet, word for word and by hash. Never read as input."""

    __tablename__ = "record"
    job_id: Mapped[str] = mapped_column(ForeignKey("job_head.id"), primary_key=True)
    sha: Mapped[str] = mapped_column(Hash, primary_key=True)
    name: Mapped[str] = mapped_column(Text)
    source: Mapped[str] = mapped_column(Text)
    body: Mapped[bytes] = mapped_column(LargeBinary)
    at: Mapped[str] = mapped_column(Moment)


class Pack(Base):
    """The manifest of the pack made from one source; its parts are records."""

    __tablename__ = "pack"
    job_id: Mapped[str] = mapped_column(ForeignKey("job_head.id"), primary_key=True)
    source: Mapped[str] = mapped_column(String(160), primary_key=True)
    manifest: Mapped[bytes] = mapped_column(LargeBinary)
    at: Mapped[str] = mapped_column(Moment)


class ChartRow(Base):
    """One version of a row of a fitting chart, never updated but for its day of check, which its sha leaves out: the
    workshop's own, and of the rows that ship with the program those that a job has been pinned to, so that a later
    program leaves them to it. `document`: `documents.chart_row`. `person_id` None: it ships with the program."""

    __tablename__ = "chart_row"
    kind: Mapped[str] = mapped_column(String(16), primary_key=True)
    row: Mapped[str] = mapped_column(Id, primary_key=True)
    sha: Mapped[str] = mapped_column(String(16), primary_key=True)
    document: Mapped[str] = mapped_column(Text)
    person_id: Mapped[str | None] = mapped_column(ForeignKey("person.id"))
    at: Mapped[str] = mapped_column(Moment)


class OwnRow(Base):
    """Which version of a row of the workshop's own is current. A withdrawn one is offered no more; jobs keep it."""

    __tablename__ = "own_row"
    kind: Mapped[str] = mapped_column(String(16), primary_key=True)
    row: Mapped[str] = mapped_column(Id, primary_key=True)
    sha: Mapped[str] = mapped_column(String(16))
    person_id: Mapped[str] = mapped_column(ForeignKey("person.id"))
    at: Mapped[str] = mapped_column(Moment)
    withdrawn_at: Mapped[str | None] = mapped_column(Moment)
    __table_args__ = (
        ForeignKeyConstraint(["kind", "row", "sha"], ["chart_row.kind", "chart_row.row", "chart_row.sha"]),
    )
