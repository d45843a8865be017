"""What is asked and what is answered, as schemas. Answers are described for the OpenAPI document and dumped by them."""

from __future__ import annotations

import re

from marshmallow import Schema, ValidationError, fields, validate

from oddleg.documents.strict_json import unsound_text
from oddleg.store.access import ROLES
from oddleg.store.gather import GREATEST_PAGE

from .services import MARKER

GREATEST_BATCH = 1000
GREATEST_SEQ = 2**53 - 1
WRITER = r"[A-Za-z0-9._-]{1,64}"
UID = r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}"


def one_line(text: str) -> None:
    if why := unsound_text(text):
        raise ValidationError(why)
    if not text.strip() or re.search(r"[\x00-\x1f\x7f-\x9f\u2028\u2029]", text):
        raise ValidationError("Give a name in one line, not all blank.")


def exactly(pattern: str, text: str) -> validate.Regexp:
    return validate.Regexp(re.compile(rf"\A{pattern}\Z", re.ASCII), error=text)


def line(greatest: int = 200) -> fields.String:
    return fields.String(required=True, validate=[validate.Length(1, greatest), one_line])


class Marked(Schema):
    marker = fields.Constant(MARKER)


class About(Marked):
    version = fields.String(required=True)
    name = fields.String(required=True)
    folder = fields.String(required=True, metadata={"description": "stands for the data folder that is served"})


class WhoIs(Schema):
    id = fields.String(required=True)
    name = fields.String(required=True)
    role = fields.String(required=True, validate=validate.OneOf(ROLES))


class AskClaim(Schema):
    code = line(64)
    device = line()


class Claimed(Marked):
    token = fields.String(required=True)
    pairing = fields.String(required=True)
    person = fields.Nested(WhoIs, required=True)


class Me(Marked):
    pairing = fields.String(required=True)
    person = fields.Nested(WhoIs, required=True)
    device = fields.String(required=True)


class People(Schema):
    people = fields.List(fields.Nested(WhoIs), required=True)


class AskPerson(Schema):
    name = line()
    role = fields.String(required=True, validate=validate.OneOf(ROLES))


class NewCode(Schema):
    code = fields.String(required=True)
    expires_at = fields.String(required=True)
    url = fields.String(required=True)
    qr_svg = fields.String(required=True)


class PairingShape(Schema):
    id = fields.String(required=True)
    device = fields.String(required=True)
    person = fields.Nested(WhoIs, required=True)
    at = fields.String(required=True)
    seen_at = fields.String(required=True)
    revoked_at = fields.String(required=True, allow_none=True)


class Pairings(Schema):
    pairings = fields.List(fields.Nested(PairingShape), required=True)


class ListedJob(Schema):
    id = fields.String(required=True)
    title = fields.String(required=True)
    place = fields.String(required=True)
    client = fields.String(required=True)
    revision = fields.Integer(required=True)
    unsorted = fields.Integer(required=True, metadata={"description": "entries put aside and not yet decided on"})


class Jobs(Schema):
    jobs = fields.List(fields.Nested(ListedJob), required=True)


class AskCopy(Schema):
    as_copy = fields.Boolean(load_default=False)


class AskStations(Schema):
    room = line(64)
    stations = fields.List(line(64), required=True, validate=validate.Length(1, 1000))


class PushedEntry(Schema):
    uid = fields.String(required=True, validate=exactly(UID, "This must be a UUID in small letters."))
    seq = fields.Integer(required=True, strict=True, validate=validate.Range(1, GREATEST_SEQ))
    sha = fields.String(required=True, validate=exactly("[0-9a-f]{64}", "This must be a SHA-256 in 64 hex digits."))
    payload = fields.String(required=True, metadata={"description": "JSON as text; sha is over its UTF-8 bytes"})


class AskPush(Schema):
    """Texts are taken as they are: an entry that cannot be read is put aside, not refused."""

    texts_as_they_are = True
    writer = fields.String(
        required=True, validate=exactly(WRITER, "This must be 1 to 64 letters, digits, points, lines or hyphens.")
    )
    app = line()
    saved_seq = fields.Integer(required=True, strict=True, validate=validate.Range(0, GREATEST_SEQ))
    entries = fields.List(fields.Nested(PushedEntry), required=True, validate=validate.Length(0, GREATEST_BATCH))


class HaveShape(Schema):
    seq = fields.Integer(required=True)
    chain = fields.String(required=True)


class BackedUp(Schema):
    seq = fields.Integer(required=True)


class ResultShape(Schema):
    uid = fields.String(required=True)
    status = fields.String(
        required=True, validate=validate.OneOf(("stored", "duplicate", "quarantined", "conflict", "fork"))
    )
    sha = fields.String(required=True)
    problem = fields.String()


class AttentionShape(Schema):
    uid = fields.String(required=True)
    problem = fields.String(required=True)
    state = fields.String(required=True)


class PushedShape(Marked):
    results = fields.List(fields.Nested(ResultShape), required=True)
    have = fields.Nested(HaveShape, required=True)
    backed_up = fields.Nested(BackedUp, required=True)
    attention = fields.List(fields.Nested(AttentionShape), required=True)


class AskPull(Schema):
    after = fields.String(load_default=None)
    limit = fields.Integer(load_default=500, validate=validate.Range(1, GREATEST_PAGE))


class RowShape(Schema):
    pos = fields.Integer(required=True)
    chain = fields.String(required=True)
    uid = fields.String(required=True)
    sha = fields.String(required=True)
    payload = fields.String(required=True, allow_none=True, metadata={"description": "null: the content was erased"})
    erased = fields.Boolean(required=True)
    person = fields.String(required=True)
    received_at = fields.String(required=True)


class PulledShape(Marked):
    reset = fields.Boolean(required=True)
    rows = fields.List(fields.Nested(RowShape), required=True)
    next = fields.String(required=True)
    more = fields.Boolean(required=True)
    have = fields.Nested(HaveShape, required=True)
    backed_up = fields.Nested(BackedUp, required=True)
    pack = fields.String(required=True)


class CaseShape(Schema):
    id = fields.String(required=True)
    uid = fields.String(required=True)
    reason = fields.String(required=True)
    problem = fields.String(required=True)
    cure = fields.String(required=True)
    state = fields.String(required=True)
    job = fields.String(required=True, allow_none=True)
    person = fields.String(required=True)
    device = fields.String(required=True)
    received_at = fields.String(required=True)
    payload = fields.String(required=True)


class MissingShape(Schema):
    person = fields.String(required=True)
    device = fields.String(required=True)
    writer = fields.String(required=True)
    count = fields.Integer(required=True)


class QuarantineShape(Schema):
    cases = fields.List(fields.Nested(CaseShape), required=True)
    missing = fields.List(fields.Nested(MissingShape), required=True)


class SourceShape(Schema):
    job = fields.String(required=True)
    revision = fields.Integer(required=True)
    position = fields.Integer(required=True)
    chain = fields.String(required=True)
    program = fields.String(required=True)
    text = fields.String(required=True)
    words = fields.String(required=True)


class PartShape(Schema):
    name = fields.String(required=True)
    sha = fields.String(required=True)
    bytes = fields.Integer(required=True)
    mark = fields.String(required=True)


class Manifest(Marked):
    job = fields.String(required=True)
    title = fields.String(required=True)
    source = fields.Nested(SourceShape, required=True)
    mark = fields.String(required=True)
    parts = fields.List(fields.Nested(PartShape), required=True)
