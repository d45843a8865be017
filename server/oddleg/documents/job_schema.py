"""The job file as JSON Schema (draft 2020-12), made from the records that check it."""

from __future__ import annotations

from typing import Any

from marshmallow import fields

from .fields import Described, Listing, OneOf, Part, Record, described
from .job_file import FORMAT, JobRecord


def job_schema() -> Described:
    """What one document must look like. What holds between fields (ids, ranges the wrong way round) is not in it."""
    kinds: dict[str, type[Record]] = {}
    gather(JobRecord, kinds)
    top = record_schema(JobRecord)
    top["properties"] = {"format": {"type": "integer", "const": FORMAT}, **top["properties"]}
    top["required"] = ["format", *top["required"]]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"Oddleg job file, format {FORMAT}",
        **top,
        "$defs": {name: record_schema(kind) for name, kind in sorted(kinds.items())},
    }


def record_schema(record: type[Record]) -> Described:
    known = record().fields
    return {
        "type": "object",
        "description": (record.makes.__doc__ or "").split("\n\n")[0],
        "properties": {name: described(field) for name, field in known.items()},
        "required": [name for name, field in known.items() if field.required],
        "additionalProperties": False,
    }


def gather(record: type[Record], kinds: dict[str, type[Record]]) -> None:
    """Every record within a record, by the name of what it makes."""
    for inner in (each for field in record().fields.values() for each in records_of(field)):
        if inner.makes.__name__ not in kinds:
            kinds[inner.makes.__name__] = inner
            gather(inner, kinds)


def records_of(field: fields.Field) -> list[Any]:
    match field:
        case Listing():
            return records_of(field.inner)
        case Part():
            return [field.nested]
        case OneOf():
            return list(field.kinds.values())
        case _:
            return []
