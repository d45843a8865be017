"""Fitting charts: the rows that ship and the workshop's own, looked through, drawn, saved whole or not at all."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import Response, request
from marshmallow import Schema, ValidationError

from oddleg.charts import ChartRead, Column, Problem, columns, read_csv, read_rows, row_texts, write_csv
from oddleg.charts.chart_rows import row_read
from oddleg.charts.columns import Holds
from oddleg.documents.fields import by_path
from oddleg.documents.strict_json import parse_json
from oddleg.drawings import svg
from oddleg.drawings.chart_row import chart_row_drawing
from oddleg.job import HardwareKind, HardwareRow
from oddleg.plan.hardware import KIND_WORDS
from oddleg.store import charts as store
from oddleg.store.refusals import BadDocument, NotHere

from . import chart_shapes as shapes
from .request_body import Resource, body
from .services import BASE, caller, services
from .signing_in import office_only

charts = Resource("charts", __name__, url_prefix=f"{BASE}/charts", description="Fitting charts.")

CSV = "text/csv"
DRAWING_WIDTH_MM = 110.0
GREATEST_TOLD = 200
"""Problems and good rows that an answer tells; `more` and `count` say how many there are."""

WORDS_TO_COME = {Holds.ID: "new", Holds.WORDS: "not named yet", Holds.DAY: ""}

ROWS_OR_CSV = {
    "requestBody": {
        "required": True,
        "description": "rows as texts by column, or a CSV as a spreadsheet saved it",
        "content": {
            "application/json": {"schema": shapes.AskRows},
            CSV: {"schema": {"type": "string"}},
        },
    }
}


@charts.get("")
@charts.response(200, shapes.ChartsShape)
def list_charts() -> dict[str, Any]:
    """Every kind of hardware with its columns and the rows that jobs can name."""
    rows = store.listed_rows()
    return {
        "kinds": [
            {
                "kind": str(kind),
                "name": KIND_WORDS[kind],
                "columns": [_column(one) for one in columns(kind)],
                "rows": [_row(one) for one in rows if one.kind == kind],
            }
            for kind in HardwareKind
        ]
    }


def _row(one: store.ListedRow) -> dict[str, Any]:
    return {
        "id": one.row.id,
        "name": one.row.name,
        "sha": one.row.sha,
        "ours": one.ours,
        "ships": one.ships,
        "person": one.person,
        "at": one.at,
        "texts": row_texts(one.row),
    }


@charts.get("/<kind>.csv")
@charts.doc(responses={200: {"description": "The chart", "content": {CSV: {"schema": {"type": "string"}}}}})
def export(kind: str) -> Response:
    """All rows of one kind as CSV, as it can be brought in again."""
    of = kind_of(kind)
    rows = [one.row for one in store.listed_rows() if one.kind == of]
    answer = Response(write_csv(of, rows), mimetype=CSV)
    answer.headers["Content-Disposition"] = f'attachment; filename="{of}.csv"'
    return answer


@charts.post("/check")
@charts.arguments(shapes.AskKind, location="query")
@charts.doc(**ROWS_OR_CSV)
@charts.response(200, shapes.CheckedShape)
@office_only
def check(asked: dict[str, str]) -> dict[str, Any]:
    """Looks rows or a CSV through and saves nothing: what is wrong by line and column, and the rows that are right."""
    read = sent_rows(HardwareKind(asked["kind"]))
    return {
        "kind": asked["kind"],
        "problems": [_problem(one) for one in read.problems[:GREATEST_TOLD]],
        "more": max(0, len(read.problems) - GREATEST_TOLD),
        "rows": [row_texts(row) for row in read.rows[:GREATEST_TOLD]],
        "count": len(read.rows),
    }


@charts.post("/drawing")
@charts.arguments(shapes.AskDrawing)
@charts.response(200, shapes.DrawnRowShape)
@office_only
def draw(asked: dict[str, Any]) -> dict[str, Any]:
    """Draws a row as it is typed, as far as its figures can be used, and says what is wrong with them."""
    kind = HardwareKind(asked["kind"])
    read = read_rows(kind, [asked["row"]])
    row = as_far_as_it_goes(kind, asked["row"])
    drawing = None
    if row is not None:
        one = chart_row_drawing(row, DRAWING_WIDTH_MM)
        drawing = {"title": one.title, "alt": one.alt, "svg": svg(one, "chart-row")}
    return {"problems": [_problem(one) for one in read.problems], "drawing": drawing}


def as_far_as_it_goes(kind: HardwareKind, texts: Mapping[str, str]) -> HardwareRow | None:
    """The row to draw: its figures all have to be there, its words need not, and figures may be at odds."""
    row, wrongs = row_read(kind, texts)
    if row is not None:
        return row
    wrong = {one.column for one in wrongs}
    words = {one.name: WORDS_TO_COME[one.holds] for one in columns(kind) if one.holds in WORDS_TO_COME}
    if not wrong <= set(words):
        return None
    return row_read(kind, {**texts, **{name: word for name, word in words.items() if name in wrong}})[0]


@charts.post("/<kind>")
@charts.doc(**ROWS_OR_CSV)
@charts.response(200, shapes.SavedShape)
@office_only
def save(kind: str) -> dict[str, Any]:
    """Saves all rows as the workshop's own, or, where one is wrong, none."""
    read = sent_rows(kind_of(kind))
    if read.problems:
        errors: dict[str, list[str]] = {}
        for one in read.problems[:GREATEST_TOLD]:
            errors.setdefault(f"line {one.line}, {one.column}" if one.column else f"line {one.line}", []).append(
                one.wrong
            )
        raise BadDocument(errors, "Nothing was saved. Put right what is listed and send all of it again.")
    of = kind_of(kind)
    saved = store.save_rows(caller(), of, read.rows, services().now())
    return {"kind": str(of), "rows": [_row(one) for one in saved]}


@charts.delete("/<kind>/<row>")
@charts.response(204)
@office_only
def withdraw(kind: str, row: str) -> None:
    """Offers a row of the workshop's own no more. Jobs that use it keep it."""
    store.withdraw_row(caller(), kind_of(kind), row, services().now())


def kind_of(word: str) -> HardwareKind:
    """The kind in an address. Raises NotHere."""
    if word not in list(HardwareKind):
        raise NotHere(f"There is no kind of hardware {word[:80]!r}; there are {', '.join(HardwareKind)}.")
    return HardwareKind(word)


def sent_rows(kind: HardwareKind) -> ChartRead:
    """What the body holds, rows of texts or a CSV, read by the chart's columns. Raises BadDocument, DocumentError."""
    if request.mimetype == CSV:
        return read_csv(body(), kind)
    sent = loaded(shapes.AskRows(), parse_json(body()))
    if ("rows" in sent) == ("csv" in sent):
        raise BadDocument({"rows": ["Send either rows or csv."]})
    if "csv" in sent:
        return read_csv(sent["csv"].encode(), kind)
    if not sent["rows"]:
        raise BadDocument({"rows": ["There is no row in it; send at least one."]})
    return read_rows(kind, sent["rows"])


def loaded(schema: Schema, value: Any) -> dict[str, Any]:
    try:
        found: dict[str, Any] = schema.load(value)
    except ValidationError as error:
        raise BadDocument(by_path(error.messages)) from None
    return found


def _problem(one: Problem) -> dict[str, Any]:
    return {"line": one.line, "column": one.column, "wrong": one.wrong}


def _column(one: Column) -> dict[str, Any]:
    return {
        "name": one.name,
        "words": one.words,
        "unit": one.unit,
        "allowed": one.allowed,
        "choices": list(one.choices) if one.holds is Holds.CHOICE else [],
        "needed": one.needed,
    }
