"""What a phone sends of one entry, schema 1: bytes in, what they say out, or the reason why they cannot be used."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from marshmallow import ValidationError

from oddleg.job import Body, Entry

from .called import called
from .entry_fields import EntryKind
from .entry_kinds import KINDS, SCHEMA_1
from .fields import by_path
from .numbers import NumberError, decimal_text, parsed
from .strict_json import DocumentError, parse_json

GREATEST_PAYLOAD_BYTES = 64 * 1024
GREATEST_DEPTH = 8


@dataclass(frozen=True)
class Payload:
    """What an entry says. `body` None: an undo. `value` is the number in mm, where the kind has one."""

    job: str
    kind: str
    target: str
    utc: str
    value: Decimal | None
    expected: str | None
    part_mark: str | None
    replaces: str | None
    body: Body | None


class PayloadError(ValueError):
    """Why a payload cannot be used, in plain words.

    `reason` is one of json (no strict JSON, or too large), schema, kind, form (a field is wrong, or the value is not
    what was typed), number (what was typed is no number). `job`: the job's id, as far as it could be read.
    """

    def __init__(self, reason: str, text: str, job: str | None = None) -> None:
        super().__init__(text)
        self.reason = reason
        self.job = job


def payload_bytes(text: str) -> bytes:
    """The bytes that a payload's hash is over. Halves of surrogate pairs are kept as they are."""
    return text.encode("utf-8", "surrogatepass")


def payload_sha(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def read_payload(data: bytes) -> Payload:
    """What the bytes say. Raises PayloadError, and nothing else, whatever they are."""
    try:
        found = parse_json(data, GREATEST_PAYLOAD_BYTES, GREATEST_DEPTH)
    except DocumentError as error:
        raise PayloadError("json", plainly(error.errors)) from None
    if not isinstance(found, dict):
        raise PayloadError("form", "The entry is not a JSON object.")
    named = found.get("job")
    job = named if isinstance(named, str) and len(named) <= 64 else None
    schema = found.get("schema")
    if isinstance(schema, bool) or schema != 1:
        raise PayloadError(
            "schema", "This entry is of a newer kind than this program reads; it is kept for later.", job
        )
    kind = found.get("kind")
    if not isinstance(kind, str) or kind not in KINDS:
        raise PayloadError("kind", f"This is no kind of entry; the kinds are {', '.join(KINDS)}.", job)
    try:
        return read_known(found, kind)
    except ValidationError as error:
        raise PayloadError("form", plainly(by_path(error.messages)), job) from None
    except NumberError as error:
        raise PayloadError("number", str(error), job) from None


def read_known(found: dict[str, Any], kind: str) -> Payload:
    """What an object of a known kind says. Raises ValidationError by field, NumberError for the number typed."""
    outer = SCHEMA_1.load(found)
    known = KINDS[kind]
    undo = outer["data"] is None
    if undo and outer["replaces"] is None:
        raise ValidationError({"data": ["Only an undo has no data, and an undo says which entry it replaces."]})
    value = typed(outer, known, undo)
    body = None
    if not undo:
        body = known.body(outer, data_of(known, outer), value)
    return Payload(
        job=outer["job"],
        kind=kind,
        target=outer["target"],
        utc=outer["at"]["utc"],
        value=value,
        expected=outer["shown"]["expected"],
        part_mark=outer["shown"]["part_mark"],
        replaces=outer["replaces"],
        body=body,
    )


def data_of(known: EntryKind, outer: Mapping[str, Any]) -> Any:
    try:
        return known.data.load(outer["data"])
    except ValidationError as error:
        raise ValidationError({"data": error.messages}) from None


def typed(outer: Mapping[str, Any], known: EntryKind, undo: bool) -> Decimal | None:
    """The value in mm, after reading again what was typed. A side takes the place of the sign."""
    given = [name for name in ("raw", "unit", "value") if outer[name] is not None]
    if undo or not known.number:
        if given:
            raise ValidationError({given[0]: ["An entry of this kind has no number of its own; it must be null."]})
        return None
    if len(given) < 3:
        missing = next(name for name in ("raw", "unit", "value") if outer[name] is None)
        raise ValidationError({missing: ["An entry of this kind has a number; it must not be null."]})
    value = parsed(outer["raw"], outer["unit"])
    side = outer["data"].get("side") if known.minus is not None and isinstance(outer["data"], dict) else None
    if side is not None or known.never_signed:
        if outer["raw"].strip(" ")[0] in "+-\N{MINUS SIGN}":
            raise ValidationError({"raw": [known.sign_words]})
        value = -value if side is not None and side == known.minus and value else value
    if outer["value"] != decimal_text(value):
        raise ValidationError(
            {"value": [f"{outer['raw']} {outer['unit']} reads as {decimal_text(value)} mm, not {outer['value']}."]}
        )
    return value


def plainly(errors: Mapping[str, list[str]]) -> str:
    """Errors by path as one text of bounded length, for a fitter to read: it is shown on the phone."""
    told = [f"{called(path)}: {' '.join(texts)}" for path, texts in errors.items()]
    text = "; ".join([*(one.removesuffix(".") for one in told[:-1]), *told[-1:]])
    text = text[:1].upper() + text[1:]
    return text if len(text) <= 1000 else f"{text[:997]}..."


def body_of(data: bytes) -> Body | None:
    """The body of a payload that is in a log, hence was read before."""
    return read_payload(data).body


def entry_of(uid: str, position: int, person: str, payload: Payload) -> Entry:
    return Entry(uid, position, person, payload.utc, payload.body, payload.replaces)


def parsed_entry(sent: Mapping[str, Any], position: int, person: str) -> Entry:
    """The entry that an envelope `{uid, seq, sha, payload}` carries. Raises PayloadError where it cannot be used."""
    data = payload_bytes(sent["payload"])
    if payload_sha(data) != sent["sha"]:
        raise PayloadError("sha", "The entry's hash is not that of its text: it was damaged on its way.")
    return entry_of(sent["uid"], position, person, read_payload(data))
