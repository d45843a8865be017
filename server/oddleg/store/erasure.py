"""Erasing what a person entered: the content goes; uid, hash and chain stay, so that mirrors can be checked."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import update

from .access import Caller, person_by_id
from .database import writing
from .moments import moment
from .refusals import NotYours
from .tables import LogEntry, Pairing, Person, Quarantine

ERASED_NAME = "(erased)"


def erase_person(caller: Caller, person: str, now: datetime) -> int:
    """Empties the person's entries, takes away the name and revokes the phones. How many entries lost their content."""
    if not caller.office or caller.revoked:
        raise NotYours("Only the office erases a person's data.")
    with writing() as session:
        person_by_id(person)
        entries = update(LogEntry).where(LogEntry.person_id == person, LogEntry.erased_at.is_(None))
        count = session.execute(entries.values(payload=b"", erased_at=moment(now))).rowcount
        aside = update(Quarantine).where(Quarantine.person_id == person)
        session.execute(aside.values(payload=b"", size_bytes=0))
        session.execute(aside.where(Quarantine.state == "open").values(state="dismissed", closed_at=moment(now)))
        phones = update(Pairing).where(Pairing.person_id == person)
        session.execute(phones.values(device=ERASED_NAME))
        session.execute(phones.where(Pairing.revoked_at.is_(None)).values(revoked_at=moment(now)))
        session.execute(update(Person).where(Person.id == person).values(name=ERASED_NAME))
    return int(count)
