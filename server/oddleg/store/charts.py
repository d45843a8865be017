"""Rows of fitting charts: those that ship with the program, the workshop's own over them, and the versions that jobs
are pinned to.

A row of the workshop's own may have the id of one that ships: it stands before it, as a version of its own, until it is
withdrawn. No version that was saved, or that a job was pinned to, is ever changed or removed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from oddleg import charts as tables
from oddleg.documents.chart_row import chart_row, chart_row_text
from oddleg.documents.rows_named import rows_named_in
from oddleg.job import Charts, HardwareKind, HardwareRow, Job, PinnedRow
from oddleg.plan.hardware import KIND_OF, KIND_WORDS

from .access import Caller
from .database import database, writing
from .moments import moment
from .refusals import BadDocument, NotHere, NotYours
from .tables import ChartRow, OwnRow, Person

Key = tuple[HardwareKind, str]


@dataclass(frozen=True)
class ListedRow:
    """A row as it is offered now. `ours`: the workshop's own, saved by `person` at `at`; `ships`: a row with this id
    ships with the program too, and is current again once ours is withdrawn."""

    kind: HardwareKind
    row: HardwareRow
    ours: bool
    ships: bool
    person: str | None = None
    at: str | None = None


def key_of(row: HardwareRow) -> Key:
    return KIND_OF[type(row)], row.id


def listed_rows() -> list[ListedRow]:
    """Every row that is offered, kind by kind, the workshop's own first."""
    own = [
        ListedRow(HardwareKind(kept.kind), chart_row(HardwareKind(kept.kind), kept.document), True, False, name, at)
        for kept, name, at in database.session.execute(
            select(ChartRow, Person.name, OwnRow.at)
            .join(OwnRow, (OwnRow.kind == ChartRow.kind) & (OwnRow.row == ChartRow.row) & (OwnRow.sha == ChartRow.sha))
            .join(Person, Person.id == OwnRow.person_id)
            .where(OwnRow.withdrawn_at.is_(None))
            .order_by(ChartRow.kind, ChartRow.row)
        )
    ]
    shipped = {key_of(row): row for row in tables.shipped_rows()}
    own = [replace(one, ships=(one.kind, one.row.id) in shipped) for one in own]
    ours = {(one.kind, one.row.id) for one in own}
    rest = [ListedRow(key[0], row, False, True) for key, row in shipped.items() if key not in ours]
    order = list(HardwareKind)
    return sorted([*own, *rest], key=lambda one: order.index(one.kind))


def current_rows() -> tuple[HardwareRow, ...]:
    return tuple(one.row for one in listed_rows())


def save_rows(caller: Caller, kind: HardwareKind, rows: Sequence[HardwareRow], now: datetime) -> list[ListedRow]:
    """All of these rows as the workshop's own, or none; one that ships just so, as when a chart that was exported comes
    back, stays what it was. They were checked; their figures are not looked at here. Gives all of them as listed."""
    if not caller.office:
        raise NotYours("Only the office saves charts.")
    shipped = {key_of(row): row for row in tables.shipped_rows()}
    with writing() as session:
        kept = {(one.row, one.sha): one for one in session.scalars(select(ChartRow).where(ChartRow.kind == kind))}
        owned = {one.row: one for one in session.scalars(select(OwnRow).where(OwnRow.kind == kind))}
        for row in rows:
            # Under one sha only the day of its check can differ.
            made = kept.get((row.id, row.sha)) or _put_in(session, kind, row, caller.person, now)
            made.document = chart_row_text(row)
        session.flush()
        for row in rows:
            own = owned.get(row.id)
            if (own is None or own.withdrawn_at is not None) and shipped.get((kind, row.id)) == row:
                continue
            if own is None:
                own = OwnRow(kind=kind, row=row.id)
                session.add(own)
            own.sha, own.person_id, own.at, own.withdrawn_at = row.sha, caller.person, moment(now), None
    ids = {row.id for row in rows}
    return [one for one in listed_rows() if one.kind == kind and one.row.id in ids]


def withdraw_row(caller: Caller, kind: HardwareKind, id: str, now: datetime) -> None:
    """Offers a row of the workshop's own no more. Jobs that are pinned to it keep it."""
    if not caller.office:
        raise NotYours("Only the office withdraws rows of charts.")
    with writing() as session:
        own = session.get(OwnRow, (kind, id))
        if own is not None and own.withdrawn_at is None:
            own.withdrawn_at = moment(now)
            return
    what = f"{KIND_WORDS[kind]} {id!r}"
    if (kind, id) in {key_of(row) for row in tables.shipped_rows()}:
        raise BadDocument(
            {"row": [f"The {what} ships with the program; only rows of your own can be withdrawn."]},
            "Save one of your own with this id: it then stands before the one that ships.",
        )
    raise NotHere(f"There is no {what} among the rows of your own. GET /api/v1/charts lists them.")


def version(kind: HardwareKind, id: str, sha: str) -> HardwareRow | None:
    """This version of a row, current or not; None: it was never here."""
    kept = database.session.get(ChartRow, (kind, id, sha))
    if kept is not None:
        return chart_row(kind, kept.document)
    return next((row for row in tables.shipped_rows() if (*key_of(row), row.sha) == (kind, id, sha)), None)


def versions_known(kind: HardwareKind, id: str) -> list[str]:
    """The shas of a row's versions that are known here, the current one first."""
    current = [row.sha for row in current_rows() if key_of(row) == (kind, id)]
    kept = select(ChartRow.sha).where(ChartRow.kind == kind, ChartRow.row == id).order_by(ChartRow.at, ChartRow.sha)
    shipped = [row.sha for row in tables.shipped_rows() if key_of(row) == (kind, id)]
    return list(dict.fromkeys([*current, *shipped, *database.session.scalars(kept)]))


def charts_for(job: Job) -> Charts:
    """All tables for a plan of this job: of the fitting charts the rows that it is pinned to."""
    pinned = (version(pin.kind, pin.row, pin.sha) for pin in job.hardware)
    return replace(tables.charts(), hardware=tuple(row for row in pinned if row is not None))


def repinned(job: Job, wanted: PinnedRow) -> Job:
    """The job with another version of a row that it is pinned to. Raises BadDocument where it is not, or where that
    version was never here."""
    what = f"{KIND_WORDS[wanted.kind]} {wanted.row!r}"
    if (wanted.kind, wanted.row) not in {(pin.kind, pin.row) for pin in job.hardware}:
        named = ", ".join(f"{KIND_WORDS[pin.kind]} {pin.row}" for pin in job.hardware)
        raise BadDocument({"row": [f"This job names no {what}; allowed: {named or 'none, it names no row yet'}."]})
    if version(wanted.kind, wanted.row, wanted.sha) is None:
        raise BadDocument({"sha": [_never_here(wanted)]})
    pins = (wanted if (pin.kind, pin.row) == (wanted.kind, wanted.row) else pin for pin in job.hardware)
    return replace(job, hardware=tuple(pins))


def with_pins(session: Session, job: Job, before: Iterable[PinnedRow], now: datetime) -> Job:
    """The job, pinned to one version of each row that its items name, and to no other; each is kept here from now on.

    A row without a pin takes that of the revision `before`, else the version that is current. Raises BadDocument, by
    path, where a row is in no chart or a version was never here.
    """
    named = list(rows_named_in(job))
    if not named:
        return replace(job, hardware=())
    wanted = {(kind, id) for _, kind, id in named}
    errors: dict[str, list[str]] = {}
    sent: dict[Key, PinnedRow] = {}
    for place, pin in enumerate(job.hardware):
        if (pin.kind, pin.row) in wanted:
            sent[pin.kind, pin.row] = pin
            if version(pin.kind, pin.row, pin.sha) is None:
                errors[f"hardware.{place}.sha"] = [_never_here(pin)]
    kept = {(pin.kind, pin.row): pin for pin in before if (pin.kind, pin.row) in wanted}
    rows = current_rows()
    job = tables.pinned(replace(job, hardware=tuple((kept | sent).values())), rows)
    pinned = {(pin.kind, pin.row) for pin in job.hardware}
    for path, kind, id in named:
        if (kind, id) not in pinned:
            ids = sorted(row.id for row in rows if KIND_OF[type(row)] == kind)
            errors[path] = [
                f"There is no {KIND_WORDS[kind]} {id!r} in a chart; allowed: {', '.join(ids) or 'none yet'}. "
                "Type its sheet in on the screen Charts first, or bring its chart in there as a file."
            ]
    if errors:
        raise BadDocument(errors)
    for pin in job.hardware:
        row = version(pin.kind, pin.row, pin.sha)
        if row is not None and session.get(ChartRow, (pin.kind, pin.row, pin.sha)) is None:
            _put_in(session, pin.kind, row, None, now)
    return job


def _never_here(pin: PinnedRow) -> str:
    what = f"The {KIND_WORDS[pin.kind]} {pin.row!r}"
    known = versions_known(pin.kind, pin.row)
    if not known:
        return (
            f"{what} was never here. If it is a workshop's own, bring its chart in first, as a file from where this "
            "job comes from; or take the pin out and name another row."
        )
    return (
        f"{what} was never here in the version {pin.sha}; allowed: {', '.join(known)}, or no pin for the current one. "
        "For just that version bring its chart in first, as a file from where this job comes from."
    )


def _put_in(session: Session, kind: HardwareKind, row: HardwareRow, person: str | None, now: datetime) -> ChartRow:
    """This version of a row, which is not here yet."""
    made = ChartRow(kind=kind, row=row.id, sha=row.sha, document=chart_row_text(row), person_id=person, at=moment(now))
    session.add(made)
    return made
