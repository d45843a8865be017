"""People, their phones, the codes that pair them, and who may see which job.

Tokens and codes are kept as SHA-256 only. A token has 256 random bits; a code 8 characters of 31, is short-lived, works
once, and wrong tries are counted.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Select, delete, func, or_, select, update
from sqlalchemy.orm import Session

from .database import database, writing
from .moments import moment
from .refusals import BadDocument, NotHere, NotSignedIn, NotYours, TooMany
from .tables import Assignment, Code, JobHead, Pairing, Person, Writer, WrongCode

LETTERS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
"""No 0, O, 1, I or L: a code is read aloud and typed."""

CODE_LENGTH = 8
ROLES = ("office", "fitter")
GREATEST_NAME = 200
Random = Callable[[int], bytes]


@dataclass(frozen=True)
class Caller:
    """Who asks: a person by one pairing, which the office may have revoked. No pairing: the server's own console."""

    person: str
    name: str
    role: str
    pairing: str | None = None
    device: str = ""
    revoked: bool = False

    @property
    def office(self) -> bool:
        return self.role == "office"


def hashed(secret: str) -> str:
    return hashlib.sha256(secret.encode("utf-8", "surrogatepass")).hexdigest()


def new_id(letter: str, random: Random) -> str:
    return f"{letter}-{random(8).hex()}"


def new_code(random: Random) -> str:
    """8 characters, each of the 31 alike: bytes past the last whole multiple of 31 are thrown away."""
    code = ""
    fair = 256 - 256 % len(LETTERS)
    while len(code) < CODE_LENGTH:
        code += "".join(LETTERS[byte % len(LETTERS)] for byte in random(CODE_LENGTH) if byte < fair)
    return code[:CODE_LENGTH]


def code_as_kept(typed: str) -> str:
    """What was typed, without blanks and hyphens and in capitals."""
    return "".join(typed.split()).replace("-", "").upper()


def visible_jobs(caller: Caller) -> Select[tuple[JobHead]]:
    """The jobs that the caller may see: the office all, a fitter those assigned. Every query for a job starts here."""
    if caller.revoked:
        raise NotYours("This phone was revoked by the office. Its unsent entries may still be handed over.")
    jobs = select(JobHead)
    if not caller.office:
        jobs = jobs.join(Assignment, Assignment.job_id == JobHead.id).where(Assignment.person_id == caller.person)
    return jobs.order_by(JobHead.id)


def job_head(caller: Caller, job: str, locked: bool = False) -> JobHead:
    """Raises NotHere or, for a fitter, NotYours, which says nothing about whether there is such a job."""
    query = visible_jobs(caller).where(JobHead.id == job)
    found = database.session.scalars(query.with_for_update(of=JobHead) if locked else query).one_or_none()
    if found is None and caller.office:
        raise NotHere(f"There is no job {job!r}. The jobs that there are: oddleg jobs; GET /api/v1/jobs.")
    if found is None:
        raise NotYours(f"You are not assigned to a job {job!r}. Ask the office to assign you.")
    return found


def caller_by_token(token: str) -> Caller:
    """Raises NotSignedIn for a token that nobody holds. A revoked one gives a revoked caller."""
    found = database.session.execute(
        select(Pairing, Person).join(Person, Person.id == Pairing.person_id).where(Pairing.token_hash == hashed(token))
    ).one_or_none()
    if found is None:
        raise NotSignedIn("This token is not known here. Pair this phone again with a new code from the office.")
    pairing, person = found
    return Caller(person.id, person.name, person.role, pairing.id, pairing.device, pairing.revoked_at is not None)


def console() -> Caller:
    """The server's own console acts as the first office person. Raises NotHere before there is one."""
    person = database.session.scalars(
        select(Person).where(Person.role == "office").order_by(Person.at, Person.id).limit(1)
    ).one_or_none()
    if person is None:
        raise NotHere("There is no office user yet. Run `oddleg link` first.")
    return Caller(person.id, person.name, person.role)


def office_is_paired() -> bool:
    paired = (
        select(Pairing.id)
        .join(Person, Person.id == Pairing.person_id)
        .where(Person.role == "office", Pairing.revoked_at.is_(None))
    )
    return database.session.scalar(paired.limit(1)) is not None


def people() -> list[Person]:
    return list(database.session.scalars(select(Person).order_by(Person.at, Person.id)))


def person_by_id(person: str) -> Person:
    found = database.session.get(Person, person)
    if found is None:
        raise NotHere(f"There is no person {person!r}. GET /api/v1/people lists them.")
    return found


def add_person(name: str, role: str, now: datetime, random: Random) -> Person:
    if role not in ROLES:
        raise BadDocument({"role": [f"This must be one of {', '.join(ROLES)}."]})
    if not name.strip() or not name.isprintable() or len(name) > GREATEST_NAME:
        raise BadDocument({"name": [f"Give a name in one line, not all blank, of at most {GREATEST_NAME} letters."]})
    with writing() as session:
        person = Person(id=new_id("p", random), name=name, role=role, at=moment(now))
        session.add(person)
    return person


@dataclass(frozen=True)
class NewCode:
    code: str
    expires_at: str


def add_code(person: str, now: datetime, random: Random, minutes: int) -> NewCode:
    """A new code for one device of the person. It takes the place of the person's earlier unspent ones."""
    code = new_code(random)
    expires_at = moment(now + timedelta(minutes=minutes))
    with writing() as session:
        person_by_id(person)
        session.execute(
            delete(Code).where(Code.spent_at.is_(None), or_(Code.person_id == person, Code.expires_at < moment(now)))
        )
        session.add(Code(code_hash=hashed(code), person_id=person, expires_at=expires_at))
    return NewCode(code, expires_at)


@dataclass(frozen=True)
class Claim:
    """A code turned into a token; the token is told once and never again."""

    token: str
    caller: Caller


def claim(code: str, device: str, now: datetime, random: Random, wrong_codes: int, minutes: int) -> Claim:
    """Spends the code. Raises NotHere where it is wrong, spent or too old, TooMany after too many of those."""
    with writing() as session:
        since = moment(now - timedelta(minutes=minutes))
        tries = session.scalar(select(func.count()).select_from(WrongCode).where(WrongCode.at > since)) or 0
        if tries >= wrong_codes:
            raise TooMany(f"Too many wrong codes. Wait {minutes} minutes, then try again.", minutes * 60)
        found = session.scalars(
            select(Code)
            .where(Code.code_hash == hashed(code_as_kept(code)), Code.spent_at.is_(None), Code.expires_at > moment(now))
            .with_for_update()
        ).one_or_none()
        if found is None:
            session.execute(delete(WrongCode).where(WrongCode.at <= since))
            session.add(WrongCode(at=moment(now)))
        else:
            return _paired(session, found, device, now, random)
    raise NotHere("This code is wrong, used already, or too old. Ask the office for a new one.")


def _paired(session: Session, code: Code, device: str, now: datetime, random: Random) -> Claim:
    token = random(32).hex()
    person = person_by_id(code.person_id)
    pairing = Pairing(
        id=new_id("d", random),
        person_id=person.id,
        device=device,
        token_hash=hashed(token),
        at=moment(now),
        seen_at=moment(now),
    )
    session.add(pairing)
    session.flush()
    code.spent_at, code.pairing_id = moment(now), pairing.id
    return Claim(token, Caller(person.id, person.name, person.role, pairing.id, device))


def handing_over(writer: str, person: str | None, now: datetime, random: Random) -> Caller:
    """The caller for entries that come as a file: the phone that owns the writer, where one does; else a pairing of the
    person (None: the first office person) whose token nobody has."""
    owners = select(Pairing).join(Writer, Writer.pairing_id == Pairing.id).where(Writer.id == writer)
    owner = database.session.scalars(owners.order_by(Pairing.at, Pairing.id).limit(1)).one_or_none()
    if owner is None:
        with writing() as session:
            named = person_by_id(person or console().person)
            owner = Pairing(
                id=new_id("d", random),
                person_id=named.id,
                device="handed over as a file",
                token_hash=hashed(random(32).hex()),
                at=moment(now),
                seen_at=moment(now),
            )
            session.add(owner)
    named = person_by_id(owner.person_id)
    return Caller(named.id, named.name, named.role, owner.id, owner.device, owner.revoked_at is not None)


def pairings() -> list[tuple[Pairing, Person]]:
    rows = database.session.execute(
        select(Pairing, Person).join(Person, Person.id == Pairing.person_id).order_by(Pairing.at, Pairing.id)
    )
    return [(pairing, person) for pairing, person in rows]


def revoke(pairing: str, now: datetime) -> None:
    """Nothing can be read with it from now on, by any of its writers. Revoking twice changes nothing."""
    with writing() as session:
        if session.get(Pairing, pairing) is None:
            raise NotHere(f"There is no pairing {pairing!r}. GET /api/v1/pairings lists them.")
        session.execute(
            update(Pairing).where(Pairing.id == pairing, Pairing.revoked_at.is_(None)).values(revoked_at=moment(now))
        )


def assign(caller: Caller, job: str, person: str, now: datetime) -> None:
    with writing() as session:
        job_head(caller, job)
        person_by_id(person)
        if session.get(Assignment, (job, person)) is None:
            session.add(Assignment(job_id=job, person_id=person, at=moment(now)))


def unassign(caller: Caller, job: str, person: str) -> None:
    with writing() as session:
        job_head(caller, job)
        person_by_id(person)
        session.execute(delete(Assignment).where(Assignment.job_id == job, Assignment.person_id == person))


def assigned(caller: Caller, job: str) -> list[Person]:
    job_head(caller, job)
    query = select(Person).join(Assignment, Assignment.person_id == Person.id).where(Assignment.job_id == job)
    return list(database.session.scalars(query.order_by(Person.name, Person.id)))
