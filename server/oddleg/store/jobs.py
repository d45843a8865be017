"""Jobs as immutable revisions. Every way in ends in `_put`."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session
from sqlalchemy.orm.exc import StaleDataError

from oddleg.documents.job_checks import ids_of
from oddleg.documents.job_file import job_text, load_job
from oddleg.documents.payload import body_of
from oddleg.documents.room_record import GREATEST_STATIONS
from oddleg.documents.strict_json import DocumentError, parse_json
from oddleg.job import (
    AddedStation,
    Job,
    MeasuredFeature,
    MeasuredService,
    PinnedRow,
    Reading,
    Room,
    SetUp,
    Station,
    WallLine,
)
from oddleg.plan.stations import proposed_stations

from .access import Caller, Random, job_head, visible_jobs
from .charts import repinned, with_pins
from .database import database, writing
from .moments import moment
from .refusals import AlreadyHere, BadDocument, NotYours, Stale
from .tables import JobHead, JobRevision, LogEntry, Quarantine


@dataclass(frozen=True)
class Revised:
    """A job as it stands after a put."""

    job: Job
    revision: int


@dataclass(frozen=True)
class Listed:
    """A job in the list. `unsorted`: entries put aside for it that nobody has decided on."""

    id: str
    title: str
    place: str
    client: str
    revision: int
    unsorted: int


def list_jobs(caller: Caller) -> list[Listed]:
    heads = list(database.session.scalars(visible_jobs(caller)))
    open_cases = select(Quarantine.job_id, func.count()).where(
        Quarantine.state == "open", Quarantine.job_id.in_([head.id for head in heads])
    )
    counts = dict(database.session.execute(open_cases.group_by(Quarantine.job_id)).all())
    return [
        Listed(head.id, head.title, head.place, head.client, head.revision, counts.get(head.id, 0)) for head in heads
    ]


def document_of(caller: Caller, job: str) -> tuple[str, int]:
    """The text of the job's latest document and its revision."""
    head = job_head(caller, job)
    return _document(head.id, head.revision), head.revision


def _document(job: str, revision: int) -> str:
    query = select(JobRevision.document).where(JobRevision.job_id == job, JobRevision.revision == revision)
    return database.session.scalars(query).one()


def job_of(head: JobHead) -> Job:
    return load_job(parse_json(_document(head.id, head.revision).encode()))


def read_document(data: bytes) -> Job:
    """The job in a file. Raises DocumentError where it is no JSON that can be read, BadDocument with what is wrong, by
    path, where it is no job."""
    document = parse_json(data)
    try:
        return load_job(document)
    except DocumentError as error:
        raise BadDocument(error.errors) from None


def create_job(caller: Caller, job: Job, now: datetime, random: Random, as_copy: bool = False) -> Revised:
    """A job new to this server. A known id is refused with both ways out."""
    if not caller.office:
        raise NotYours("Only the office brings jobs in.")
    if as_copy:
        job = replace(job, id=f"{job.id[:50].rstrip('-')}-{random(4).hex()}")
    try:
        with writing() as session:
            here = session.scalars(visible_jobs(caller).where(JobHead.id == job.id)).one_or_none()
            if here is not None:
                raise _known(job.id, here.revision)
            return _put(session, caller, None, accepting(job), now)
    except IntegrityError:
        raise _known(job.id, job_head(caller, job.id).revision) from None


def _known(job: str, revision: int) -> AlreadyHere:
    return AlreadyHere(
        f"Job {job!r} is here already, at revision {revision}. Either bring it in as a copy with an id of its own "
        f"(oddleg import FILE --as-copy; POST /api/v1/jobs?as_copy=1), or replace it "
        f"(oddleg import FILE --replace {revision}; PUT /api/v1/jobs/{job} with If-Match)."
    )


def replace_job(caller: Caller, job: Job, revision: int, now: datetime) -> Revised:
    """A new revision of a known job. Ids that are gone become tombstones. Raises Stale unless on the latest."""
    if not caller.office:
        raise NotYours("Only the office changes a job.")
    try:
        with writing() as session:
            head = job_head(caller, job.id, locked=True)
            if head.revision != revision:
                raise stale(job.id, revision, head.revision)
            return _put(session, caller, head, succeeding(job_of(head), job, _on_site(job.id)), now)
    except StaleDataError:
        database.session.rollback()
        raise stale(job.id, revision, job_head(caller, job.id).revision) from None


def stale(job: str, given: int, latest: int) -> Stale:
    return Stale(
        f"You have revision {given} of job {job!r}; the latest is {latest}. "
        "Get it, make your change there, and send it with that revision."
    )


def accept_stations(
    caller: Caller, job_id: str, room_id: str, stations: tuple[Station, ...], revision: int, now: datetime
) -> Revised:
    """The job with proposed stations taken up in a room, after those already there."""
    with writing() as session:
        head = job_head(caller, job_id, locked=True)
        if head.revision != revision:
            raise stale(job_id, revision, head.revision)
        job = job_of(head)
        rooms = tuple(
            replace(room, stations=room.stations + stations) if room.id == room_id else room for room in job.rooms
        )
        return _put(session, caller, head, replace(job, rooms=rooms), now)


def take_row(caller: Caller, job_id: str, wanted: PinnedRow, revision: int, now: datetime) -> Revised:
    """The job with another version of a row of a chart that it is pinned to."""
    if not caller.office:
        raise NotYours("Only the office changes a job.")
    with writing() as session:
        head = job_head(caller, job_id, locked=True)
        if head.revision != revision:
            raise stale(job_id, revision, head.revision)
        return _put(session, caller, head, repinned(job_of(head), wanted), now)


def accepting(job: Job) -> Job:
    """The job with the proposed stations accepted in each room that has none on its floor."""
    return replace(job, rooms=tuple(_with_stations(job, room) for room in job.rooms))


def _with_stations(job: Job, room: Room) -> Room:
    if any(one.surface == "floor" for one in room.stations):
        return room
    stations = room.stations + proposed_stations(job, room, room.stations)
    # More than a job may hold stay proposals: a job that is right must not be refused for what was added to it here.
    return replace(room, stations=stations) if len(stations) <= GREATEST_STATIONS else room


@dataclass(frozen=True)
class OnSite:
    """Ids that entries gave or used: stations that have a reading, stations added there, set-ups, lines in front of
    walls, features and services measured there."""

    read: frozenset[str]
    added: frozenset[str]
    set_ups: frozenset[str]
    lines: frozenset[str]
    features: frozenset[str]
    services: frozenset[str]


def succeeding(old: Job, new: Job, on_site: OnSite) -> Job:
    """The new job as successor of the old: ids that are gone become tombstones, which may never be used again.

    A room that comes without stations keeps those that were accepted. Raises BadDocument where a tombstone is used, or
    an id that was given on site, or a station with a reading was moved or renamed.
    """
    had = {room.id: room for room in old.rooms}
    new = replace(new, rooms=tuple(_keeping_stations(room, had.get(room.id)) for room in new.rooms))
    new = accepting(new)
    tombs = set(old.removed_ids)
    errors = {
        path: [f"The id {id!r} was removed from this job before and is never used again. Give a new id."]
        for path, id in ids_of(new)
        if id in tombs
    }
    before = {id for _, id in ids_of(old)}
    errors |= {
        path: [f"The id {id!r} was given on site to a {kind}, and ids are unique within a job. Give another."]
        for path, id in ids_of(new)
        for kind, given, taken_up_in in (
            ("set-up", on_site.set_ups, None),
            ("line", on_site.lines, None),
            ("station", on_site.added, ".stations."),
            ("feature", on_site.features, ".features."),
            ("service", on_site.services, ".services."),
        )
        if id in given - before and not (taken_up_in and taken_up_in in path)
    }
    spots = {one.id: one for room in old.rooms for one in room.stations}
    for place, room in enumerate(new.rooms):
        for index, station in enumerate(room.stations):
            was = spots.get(station.id)
            if was is None or station.id not in on_site.read:
                continue
            if (was.x_mm, was.y_mm, was.name, was.surface) != (
                station.x_mm,
                station.y_mm,
                station.name,
                station.surface,
            ):
                errors[f"rooms.{place}.stations.{index}"] = [
                    f"Station {was.id!r} has readings, so it stays where it is and keeps its name "
                    f"({was.name!r}, x {was.x_mm:g}, y {was.y_mm:g}). Put a new station beside it."
                ]
    if errors:
        raise BadDocument(errors)
    now_here = {id for _, id in ids_of(new)}
    # No entry names a front, drawer or shelf by its id, so one that was taken out by mistake may come back.
    gone = [id for path, id in ids_of(old) if id not in now_here and ".fitting_out." not in path]
    kept = list(dict.fromkeys((*old.removed_ids, *new.removed_ids, *gone)))
    return replace(new, removed_ids=tuple(id for id in kept if id not in now_here))


def _keeping_stations(room: Room, was: Room | None) -> Room:
    return replace(room, stations=was.stations) if was is not None and not room.stations else room


def _on_site(job: str) -> OnSite:
    payloads = select(LogEntry.payload).where(LogEntry.job_id == job, LogEntry.bears, LogEntry.erased_at.is_(None))
    bodies = [body_of(payload) for payload in database.session.scalars(payloads)]
    return OnSite(
        frozenset(body.station for body in bodies if isinstance(body, Reading)),
        frozenset(body.id for body in bodies if isinstance(body, AddedStation)),
        frozenset(body.id for body in bodies if isinstance(body, SetUp)),
        frozenset(body.id for body in bodies if isinstance(body, WallLine)),
        frozenset(body.feature.id for body in bodies if isinstance(body, MeasuredFeature)),
        frozenset(body.service.id for body in bodies if isinstance(body, MeasuredService)),
    )


def _put(session: Session, caller: Caller, head: JobHead | None, job: Job, now: datetime) -> Revised:
    """The one place where a revision is written. The document is checked whole once more, as it will be read."""
    job = with_pins(session, job, job_of(head).hardware if head is not None else (), now)
    document = job_text(job)
    job = read_document(document.encode())
    if head is None:
        head = JobHead(id=job.id, revision=1, title=job.title, place=job.place, client=job.client)
        session.add(head)
    else:
        head.revision += 1
        head.title, head.place, head.client = job.title, job.place, job.client
    session.flush()
    session.add(
        JobRevision(
            job_id=job.id,
            revision=head.revision,
            document=document,
            sha=hashlib.sha256(document.encode()).hexdigest(),
            person_id=caller.person,
            at=moment(now),
        )
    )
    session.flush()
    return Revised(job, head.revision)
