"""Entries put aside: shown to the office with the reason, let into the log, or dismissed; each decision is an entry.

After an upgrade, cases that the old program could not read are tried again by themselves.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from datetime import UTC, datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from oddleg.documents.payload import Payload, read_payload

from .access import Caller, Random
from .database import database, writing
from .entries import Candidate, Intake, Problem, new_uid, read
from .moments import moment
from .refusals import AlreadyHere, NotHere, NotLetIn, NotYours
from .tables import LogEntry, Pairing, Person, Quarantine, Slot, Writer

TRIED_AGAIN = ("schema", "kind")
"""Reasons that a newer program may do away with."""

WHAT_CAN_BE_DONE = {
    "conflict": "Look at both; dismiss this one, and have the right value entered again if it was this.",
    "sha": "Ask the fitter to enter it again, then dismiss this one.",
    "job": "Bring the job in, or assign the person to it; then let the entry in. Or dismiss it.",
    "removed": "Let it in if the removed part still matters to the room. Or dismiss it.",
    "revoked": "Let it in if you trust where it comes from. Or dismiss it.",
    "schema": "Update the program: the entry is then tried again by itself.",
    "kind": "Update the program: the entry is then tried again by itself.",
}
OTHERWISE = "Read it, ask the fitter to enter it again if it is wanted, then dismiss this one."


@dataclass(frozen=True)
class Case:
    id: str
    uid: str
    reason: str
    problem: str
    cure: str
    state: str
    job: str | None
    person: str
    device: str
    received_at: str
    payload: str


@dataclass(frozen=True)
class Missing:
    """Entries that a phone says it saved and that are not here."""

    person: str
    device: str
    writer: str
    count: int


def cases(caller: Caller) -> list[Case]:
    """The open cases, oldest first."""
    _office(caller)
    query = (
        select(Quarantine, Person.name, Pairing.device)
        .join(Person, Person.id == Quarantine.person_id)
        .outerjoin(Pairing, Pairing.id == Quarantine.pairing_id)
        .where(Quarantine.state == "open")
        .order_by(Quarantine.received_at, Quarantine.id)
    )
    return [
        Case(
            case.id,
            case.uid,
            case.reason,
            case.problem,
            WHAT_CAN_BE_DONE.get(case.reason, OTHERWISE),
            case.state,
            case.job_id,
            person,
            device or "",
            case.received_at,
            case.payload.decode("utf-8", "replace"),
        )
        for case, person, device in database.session.execute(query)
    ]


def missing(caller: Caller) -> list[Missing]:
    """Per writer, how many of the entries that its phone saved have not come."""
    _office(caller)
    come = (
        select(Slot.pairing_id, Slot.writer_id, func.count().label("count"))
        .group_by(Slot.pairing_id, Slot.writer_id)
        .subquery()
    )
    query = (
        select(Person.name, Pairing.device, Writer.id, Writer.saved_seq - func.coalesce(come.c.count, 0))
        .join(Pairing, Pairing.id == Writer.pairing_id)
        .join(Person, Person.id == Pairing.person_id)
        .outerjoin(come, (come.c.pairing_id == Writer.pairing_id) & (come.c.writer_id == Writer.id))
        .where(Writer.saved_seq > func.coalesce(come.c.count, 0))
        .order_by(Person.name, Writer.id)
    )
    return [Missing(*row) for row in database.session.execute(query)]


def release(caller: Caller, case_id: str, now: datetime, random: Random) -> None:
    """Lets an entry into its job's log. Raises NotLetIn where it still cannot be used."""
    _office(caller)
    with writing() as session:
        case = _open_case(session, case_id)
        problem = _let_in(session, caller, case, now, office=True)
        if problem is not None:
            raise NotLetIn(f"It cannot be let in: {problem.text} {WHAT_CAN_BE_DONE.get(problem.reason, OTHERWISE)}")
        _note(session, caller, case, "let in", now, random)


def dismiss(caller: Caller, case_id: str, now: datetime, random: Random) -> None:
    """Closes a case without using it. Its bytes are kept."""
    _office(caller)
    with writing() as session:
        case = _open_case(session, case_id)
        case.state, case.closed_at = "dismissed", moment(now)
        _note(session, caller, case, "dismissed", now, random)


def try_again(caller: Caller, now: datetime) -> int:
    """Lets in what this program can read and an older one could not; run at every start. How many that were."""
    done = 0
    with writing() as session:
        query = select(Quarantine).where(Quarantine.state == "open", Quarantine.reason.in_(TRIED_AGAIN))
        for case in session.scalars(query.order_by(Quarantine.received_at, Quarantine.id)).all():
            done += _let_in(session, caller, case, now, office=False) is None
    return done


def _office(caller: Caller) -> None:
    if not caller.office or caller.revoked:
        raise NotYours("Only the office decides on entries that were put aside.")


def _open_case(session: Session, case_id: str) -> Quarantine:
    case = session.get(Quarantine, case_id, with_for_update=True)
    if case is None:
        raise NotHere(f"There is no case {case_id!r}. GET /api/v1/quarantine lists them.")
    if case.state != "open":
        raise AlreadyHere(f"This case is {case.state} already.")
    return case


def _let_in(session: Session, caller: Caller, case: Quarantine, now: datetime, office: bool) -> Problem | None:
    """Appends the entry, or says what stands against it and keeps that as the case's problem."""
    one = Candidate(case.uid, 0, case.sha, case.payload)
    found = read(one)
    if isinstance(found, Payload):
        if session.get(LogEntry, case.uid) is not None:
            return Problem("conflict", "An entry with this id counts already.", found.job)
        intake = Intake(session, caller, [found], now)
        problem = intake.problem(case.uid, found)
        if problem is None or (office and problem.office_may and found.job in intake.heads):
            intake.append(one, found, case.person_id, case.pairing_id)
            intake.write()
            case.state, case.closed_at = "released", moment(now)
            return None
    else:
        problem = found
    case.reason, case.problem, case.job_id = problem.reason, problem.text, problem.job or case.job_id
    return problem


def _note(session: Session, caller: Caller, case: Quarantine, what: str, now: datetime, random: Random) -> None:
    """The decision as a note in the log of the job that the case speaks of, where there is such a job."""
    if case.job_id is None:
        return
    text = f"Entry {case.uid}, put aside because: {case.problem} It was {what} by {caller.name}."
    payload = json.dumps(
        {
            "schema": 1,
            "job": case.job_id,
            "kind": "note",
            "target": case.job_id,
            "at": {
                "utc": moment(now.astimezone(UTC)),
                "offset_minutes": 0,
                "server_offset_ms": 0,
                "measured_at": None,
            },
            "raw": None,
            "unit": None,
            "value": None,
            "shown": {"expected": None, "part_mark": None},
            "replaces": None,
            "data": {"text": text},
        },
        ensure_ascii=False,
    ).encode()
    found = read_payload(payload)
    intake = Intake(session, caller, [found], now)
    if found.job in intake.heads:
        sha = hashlib.sha256(payload).hexdigest()
        intake.append(Candidate(new_uid(now, random), 0, sha, payload), found, caller.person, None)
        intake.write()
