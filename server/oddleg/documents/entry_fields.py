"""What entries are made of: moments, uids, numbers as typed; and what a kind of entry is."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from marshmallow import ValidationError

from oddleg.job import Body

from .fields import Choice, Described, Kind, Strict, Text
from .numbers import DECIMALS, NumberError, decimal_text, parsed

Data = Mapping[str, Any]


class Moment(Kind):
    """A moment in UTC as phones write it: 2026-11-23T08:40:00.000Z."""

    def taken(self, value: Any) -> str:
        if isinstance(value, str) and re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?Z", value, re.ASCII):
            try:
                datetime.fromisoformat(value)
                return value
            except ValueError:
                pass
        raise ValidationError("This is not a moment in UTC, as in 2026-11-23T08:40:00.000Z.")

    def described(self) -> Described:
        return {"type": "string", "format": "date-time"}


class Uid(Kind):
    """The uid of an entry: a UUID in small letters (RFC 9562)."""

    def taken(self, value: Any) -> str:
        if not isinstance(value, str) or not re.fullmatch(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", value):
            raise ValidationError("This is not the uid of an entry, a UUID in small letters.")
        return value

    def described(self) -> Described:
        return {"type": "string", "format": "uuid"}


class Anything(Kind):
    """An object or null; what is in it is checked by the entry's kind."""

    def taken(self, value: Any) -> Any:
        if not isinstance(value, dict):
            raise ValidationError("This must be an object in curly brackets, or null in an undo.")
        return value

    def described(self) -> Described:
        return {"type": "object"}


class Typed(Kind):
    """A number as typed, `{raw, unit, value}`, read again; `value` is in mm whatever the unit."""

    def __init__(self, least_mm: float, greatest_mm: float, **more: Any) -> None:
        super().__init__(**more)
        self.least_mm, self.greatest_mm = least_mm, greatest_mm

    def taken(self, value: Any) -> float:
        given = TYPED.load(value)
        try:
            found = parsed(given["raw"], given["unit"])
        except NumberError as error:
            raise ValidationError({"raw": [str(error)]}) from None
        if given["value"] != decimal_text(found):
            raise ValidationError({"value": [f"{given['raw']} {given['unit']} reads as {decimal_text(found)} mm."]})
        return within(found, self.least_mm, self.greatest_mm)

    def described(self) -> Described:
        text = {"type": "string"}
        return {"type": "object", "properties": {"raw": text, "unit": text, "value": text}}


def within(value: Decimal, least_mm: float, greatest_mm: float) -> float:
    if not least_mm <= value <= greatest_mm:
        allowed = f"allowed: {least_mm} to {greatest_mm} mm"
        raise ValidationError(f"{decimal_text(value)} mm is out of range; {allowed}.")
    return float(value)


def unit_field(**more: Any) -> Choice:
    return Choice(tuple(DECIMALS), **more)


class TypedNumber(Strict):
    raw = Text(0, 400)
    unit = unit_field()
    value = Text(1, 400)


def of_field(name: str, value: Decimal, least_mm: float, greatest_mm: float) -> float:
    try:
        return within(value, least_mm, greatest_mm)
    except ValidationError as error:
        raise ValidationError({name: error.messages}) from None


@dataclass(frozen=True)
class EntryKind:
    """`number`: the entry has a number of its own, in `raw`, `unit` and `value`. `minus`: the word of its `side` that
    makes the number negative. `sign_words`: why a sign may not be typed where a side is given; `never_signed`: nor
    where none is."""

    data: Strict
    body: Callable[[Data, Data, Decimal | None], Body]
    number: bool = False
    minus: str | None = None
    sign_words: str = ""
    never_signed: bool = False


TYPED = TypedNumber()
