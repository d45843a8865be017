"""Fitting charts and the hardware of a job, as they are asked and answered."""

from __future__ import annotations

from marshmallow import RAISE, Schema, fields, validate

from oddleg.job import HardwareKind

from .shapes import exactly

KINDS = validate.OneOf([str(kind) for kind in HardwareKind], error=f"This must be one of {', '.join(HardwareKind)}.")
GREATEST_ROWS = 10_000
GREATEST_COLUMNS = 100
SHA = "[0-9a-f]{16}"


class Asked(Schema):
    class Meta:
        unknown = RAISE


def row_of_texts(required: bool = False) -> fields.Dict:
    return fields.Dict(
        required=required,
        keys=fields.String(),
        values=fields.String(),
        validate=validate.Length(max=GREATEST_COLUMNS, error=f"A row has at most {GREATEST_COLUMNS} columns."),
        metadata={"description": "texts by column, as they would stand in the CSV"},
    )


class AskRows(Asked):
    """Rows as they were typed, or the text of a CSV; one of the two."""

    rows = fields.List(
        row_of_texts(),
        validate=validate.Length(max=GREATEST_ROWS, error=f"At most {GREATEST_ROWS} rows are taken at once."),
    )
    csv = fields.String()


class AskKind(Schema):
    kind = fields.String(required=True, validate=KINDS)


class AskDrawing(Asked):
    kind = fields.String(required=True, validate=KINDS)
    row = row_of_texts(required=True)


class AskVersion(Asked):
    kind = fields.String(required=True, validate=KINDS)
    row = fields.String(required=True, validate=validate.Length(1, 64))
    sha = fields.String(required=True, validate=exactly(SHA, "This must be a row's sha, 16 hex digits."))


class ColumnShape(Schema):
    name = fields.String(required=True)
    words = fields.String(required=True, metadata={"description": "what the figure is, in plain words"})
    unit = fields.String(required=True)
    allowed = fields.String(required=True)
    choices = fields.List(fields.String(), required=True, metadata={"description": "words; empty: any"})
    needed = fields.Boolean(required=True)


class ChartRowShape(Schema):
    id = fields.String(required=True)
    name = fields.String(required=True)
    sha = fields.String(required=True)
    ours = fields.Boolean(required=True, metadata={"description": "the workshop's own"})
    ships = fields.Boolean(required=True, metadata={"description": "a row with this id ships with the program"})
    person = fields.String(required=True, allow_none=True)
    at = fields.String(required=True, allow_none=True)
    texts = fields.Dict(keys=fields.String(), values=fields.String(), required=True)


class KindShape(Schema):
    kind = fields.String(required=True)
    name = fields.String(required=True)
    columns = fields.List(fields.Nested(ColumnShape), required=True)
    rows = fields.List(fields.Nested(ChartRowShape), required=True)


class ChartsShape(Schema):
    kinds = fields.List(fields.Nested(KindShape), required=True)


class ProblemShape(Schema):
    """`line`: of the file, the header being 1; of typed rows the first is 1. `column` empty: the whole line."""

    line = fields.Integer(required=True)
    column = fields.String(required=True)
    wrong = fields.String(required=True)


class CheckedShape(Schema):
    kind = fields.String(required=True)
    problems = fields.List(fields.Nested(ProblemShape), required=True)
    more = fields.Integer(required=True, metadata={"description": "further problems, which are not told"})
    rows = fields.List(
        fields.Dict(keys=fields.String(), values=fields.String()),
        required=True,
        metadata={"description": "rows that are right; the first of them where there are many"},
    )
    count = fields.Integer(required=True, metadata={"description": "how many rows are right"})


class SavedShape(Schema):
    kind = fields.String(required=True)
    rows = fields.List(fields.Nested(ChartRowShape), required=True)


class DrawingShape(Schema):
    title = fields.String(required=True)
    alt = fields.String(required=True)
    svg = fields.String(required=True)


class DrawnRowShape(Schema):
    problems = fields.List(fields.Nested(ProblemShape), required=True)
    drawing = fields.Nested(DrawingShape, required=True, allow_none=True)


class PinShape(Schema):
    """`sha`: as the job uses it; `current`: as the charts have it now (null: withdrawn, or in no chart)."""

    kind = fields.String(required=True)
    kind_name = fields.String(required=True)
    row = fields.String(required=True)
    name = fields.String(required=True)
    sha = fields.String(required=True)
    current = fields.String(required=True, allow_none=True)
    newer = fields.Boolean(required=True)
    items = fields.List(fields.String(), required=True, metadata={"description": "names of the items that name it"})
    changed = fields.List(fields.Dict(), required=True, metadata={"description": "columns whose text differs"})


class HardwareShape(Schema):
    revision = fields.Integer(required=True)
    pins = fields.List(fields.Nested(PinShape), required=True)


class ChangesShape(Schema):
    """What moves: holes, boards, and findings that the job has not yet. Places are figures, or null."""

    kind = fields.String(required=True)
    row = fields.String(required=True)
    sha = fields.String(required=True)
    revision = fields.Integer(required=True)
    holes = fields.List(fields.Dict(), required=True)
    boards = fields.List(fields.Dict(), required=True)
    findings = fields.List(fields.Dict(), required=True)
