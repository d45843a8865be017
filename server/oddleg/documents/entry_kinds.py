"""The kinds of entry, schema 1: what the data of each holds, and the body that it makes."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from marshmallow import ValidationError, fields

from oddleg.job import (
    AddedStation,
    Blocked,
    Body,
    DatumDecision,
    GoodEnough,
    LegsSet,
    Note,
    Reading,
    SetUp,
    Stage,
    TwoPeg,
    TwoWall,
    Way,
)

from .fields import Choice, Described, Kind, Number, Slug, Strict, Text
from .numbers import DECIMALS, NumberError, decimal_text, parsed
from .sizes import place

LEG_NAMES = tuple(row + place for row in "BF" for place in ("L", "ML", "M", "MR", "R"))
GREATEST_READING_MM = 100_000


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


class Heights(Kind):
    """Heights as shown, by leg."""

    def taken(self, value: Any) -> tuple[tuple[str, float], ...]:
        if not isinstance(value, dict) or not value:
            raise ValidationError(f"This must be an object with a height for each of {', '.join(LEG_NAMES)}.")
        if unknown := [name for name in value if name not in LEG_NAMES]:
            raise ValidationError({unknown[0]: [f"There is no such leg; allowed: {', '.join(LEG_NAMES)}."]})
        return tuple((name, self.height(name, value[name])) for name in LEG_NAMES if name in value)

    def height(self, name: str, text: Any) -> float:
        try:
            return of_field(name, parsed(text if isinstance(text, str) else "", "mm"), 0, 1_000)
        except NumberError as error:
            raise ValidationError({name: [str(error)]}) from None

    def described(self) -> Described:
        return {"type": "object", "additionalProperties": {"type": "string"}}


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


class At(Strict):
    utc = Moment()
    offset_minutes = Number(-1_440, 1_440, "minutes", whole=True)
    server_offset_ms = Number(-1e15, 1e15, "ms", allow_none=True)
    measured_at = Moment(allow_none=True)


class Shown(Strict):
    expected = Text(0, 64, allow_none=True)
    part_mark = Text(0, 64, allow_none=True)


class Schema1(Strict):
    schema = Number(1, 1, "", whole=True)
    job = Slug()
    kind = Text(greatest=64)
    target = Slug()
    at = fields.Nested(At)
    raw = Text(0, 400, allow_none=True)
    unit = unit_field(allow_none=True)
    value = Text(1, 400, allow_none=True)
    shown = fields.Nested(Shown)
    replaces = Uid(allow_none=True)
    data = Anything(allow_none=True)


class LineData(Strict):
    level = Typed(-20_000, 20_000)
    give_or_take = Typed(0, 100)


class SetUpData(Strict):
    name = Text(greatest=80)
    room = Slug()
    stage = Choice(Stage)
    laser = Slug(allow_none=True)
    instrument = Slug(allow_none=True)
    x_mm = place(allow_none=True)
    y_mm = place(allow_none=True)
    line = fields.Nested(LineData, allow_none=True)


class ReadingData(Strict):
    set_up = Slug()
    way = Choice(Way)
    side = Choice(("above", "below"), allow_none=True)
    name = Text(greatest=80)
    x_mm = place(allow_none=True)
    y_mm = place(allow_none=True)


class StationData(Strict):
    name = Text(greatest=80)
    room = Slug()
    x_mm = place()
    y_mm = place()
    serves = Text(0)
    surface = Choice(("floor", "overhead"))


class TwoPegData(Strict):
    axis = Choice(("along", "across"))
    middle_a = Typed(-GREATEST_READING_MM, GREATEST_READING_MM)
    middle_b = Typed(-GREATEST_READING_MM, GREATEST_READING_MM)
    end_a = Typed(-GREATEST_READING_MM, GREATEST_READING_MM)
    end_b = Typed(-GREATEST_READING_MM, GREATEST_READING_MM)
    end_to_a = Typed(0, 200_000)
    end_to_b = Typed(0, 200_000)
    resolution_mm = Number(0.01, 100)


class TwoWallData(Strict):
    axis = Choice(("along", "across"))
    offset = Typed(-1_000, 1_000)
    walls_apart = Typed(1, 200_000)
    resolution_mm = Number(0.01, 100)


class DecisionData(Strict):
    name = Choice(("datum",))
    choice = Text(greatest=64)


class LegsSetData(Strict):
    heights = Heights()


class BlockedData(Strict):
    reason = Text(0, 500, lines=True)


class GoodEnoughData(Strict):
    pass


class NoteData(Strict):
    text = Text(1, 10_000, lines=True)


Data = Mapping[str, Any]


def set_up(outer: Data, data: Data, value: Decimal | None) -> SetUp:
    both_or_none(data)
    line = data["line"]
    return SetUp(
        id=outer["target"],
        name=data["name"],
        room=data["room"],
        stage=data["stage"],
        laser=data["laser"],
        instrument=data["instrument"],
        x_mm=data["x_mm"],
        y_mm=data["y_mm"],
        line_level_mm=line["level"] if line else None,
        line_give_or_take_mm=line["give_or_take"] if line else None,
    )


def reading(outer: Data, data: Data, value: Decimal | None) -> Reading:
    both_or_none(data)
    assert value is not None
    if data["side"] is not None and data["way"] is not Way.OFFSET:
        raise ValidationError({"side": ["Only an offset lies above or below the line."]})
    least = -GREATEST_READING_MM if data["way"] is Way.OFFSET else 0
    return Reading(
        set_up=data["set_up"],
        station=outer["target"],
        way=data["way"],
        value_mm=of_field("value", value, least, GREATEST_READING_MM),
        name=data["name"],
        x_mm=data["x_mm"],
        y_mm=data["y_mm"],
    )


def station(outer: Data, data: Data, value: Decimal | None) -> AddedStation:
    return AddedStation(id=outer["target"], **data)


def two_peg(outer: Data, data: Data, value: Decimal | None) -> TwoPeg:
    return TwoPeg(
        laser=outer["target"],
        axis=data["axis"],
        middle_a_mm=data["middle_a"],
        middle_b_mm=data["middle_b"],
        end_a_mm=data["end_a"],
        end_b_mm=data["end_b"],
        end_to_a_m=data["end_to_a"] / 1000,
        end_to_b_m=data["end_to_b"] / 1000,
        resolution_mm=data["resolution_mm"],
    )


def two_wall(outer: Data, data: Data, value: Decimal | None) -> TwoWall:
    return TwoWall(
        laser=outer["target"],
        axis=data["axis"],
        offset_mm=data["offset"],
        walls_apart_m=data["walls_apart"] / 1000,
        resolution_mm=data["resolution_mm"],
    )


def decision(outer: Data, data: Data, value: Decimal | None) -> DatumDecision:
    assert value is not None
    return DatumDecision(
        room=outer["target"],
        choice=data["choice"],
        datum_mm=of_field("value", value, -20_000, 20_000),
        part_mark=outer["shown"]["part_mark"] or "",
    )


def legs_set(outer: Data, data: Data, value: Decimal | None) -> LegsSet:
    return LegsSet(item=outer["target"], heights_mm=data["heights"], part_mark=outer["shown"]["part_mark"] or "")


def blocked(outer: Data, data: Data, value: Decimal | None) -> Blocked:
    return Blocked(station=outer["target"], reason=data["reason"])


def good_enough(outer: Data, data: Data, value: Decimal | None) -> GoodEnough:
    return GoodEnough(room=outer["target"])


def note(outer: Data, data: Data, value: Decimal | None) -> Note:
    return Note(target=outer["target"], text=data["text"])


def both_or_none(data: Data) -> None:
    if (data["x_mm"] is None) != (data["y_mm"] is None):
        raise ValidationError({"x_mm": ["A place on the plan has both an X and a Y, or it is left open."]})


def of_field(name: str, value: Decimal, least_mm: float, greatest_mm: float) -> float:
    try:
        return within(value, least_mm, greatest_mm)
    except ValidationError as error:
        raise ValidationError({name: error.messages}) from None


@dataclass(frozen=True)
class EntryKind:
    """`number`: the entry has a number of its own, in `raw`, `unit` and `value`."""

    data: Strict
    body: Callable[[Data, Data, Decimal | None], Body]
    number: bool = False


SCHEMA_1 = Schema1()
TYPED = TypedNumber()
KINDS = {
    "set_up": EntryKind(SetUpData(), set_up),
    "reading": EntryKind(ReadingData(), reading, number=True),
    "station": EntryKind(StationData(), station),
    "two_peg": EntryKind(TwoPegData(), two_peg),
    "two_wall": EntryKind(TwoWallData(), two_wall),
    "decision": EntryKind(DecisionData(), decision, number=True),
    "legs_set": EntryKind(LegsSetData(), legs_set),
    "blocked": EntryKind(BlockedData(), blocked),
    "good_enough": EntryKind(GoodEnoughData(), good_enough),
    "note": EntryKind(NoteData(), note),
}
