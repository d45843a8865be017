"""The kinds of entry, schema 1: the fields around each, what its data holds, and the body that it makes.

Those of setting out (walls, openings, corners, features, marks) are in `wall_kinds.py`, those of services and of
holes drilled in `fitting_kinds.py`.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from marshmallow import ValidationError

from oddleg.job import (
    AddedStation,
    Blocked,
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

from .entry_fields import Anything, Data, EntryKind, Moment, Typed, Uid, of_field, unit_field
from .fields import Choice, Described, Inside, Kind, Number, Slug, Strict, Text
from .fitting_kinds import FITTING_KINDS
from .numbers import NumberError, parsed
from .sizes import place
from .wall_kinds import WALL_KINDS

LEG_NAMES = tuple(row + place for row in "BF" for place in ("L", "ML", "M", "MR", "R"))
GREATEST_READING_MM = 100_000


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
    at = Inside(At)
    raw = Text(0, 400, allow_none=True)
    unit = unit_field(allow_none=True)
    value = Text(1, 400, allow_none=True)
    shown = Inside(Shown)
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
    line = Inside(LineData, allow_none=True)


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


SCHEMA_1 = Schema1()
KINDS = {
    "set_up": EntryKind(SetUpData(), set_up),
    "reading": EntryKind(
        ReadingData(),
        reading,
        number=True,
        minus="below",
        sign_words="It says above or below the line, so the number must have no sign.",
    ),
    "station": EntryKind(StationData(), station),
    "two_peg": EntryKind(TwoPegData(), two_peg),
    "two_wall": EntryKind(TwoWallData(), two_wall),
    "decision": EntryKind(DecisionData(), decision, number=True),
    "legs_set": EntryKind(LegsSetData(), legs_set),
    "blocked": EntryKind(BlockedData(), blocked),
    "good_enough": EntryKind(GoodEnoughData(), good_enough),
    "note": EntryKind(NoteData(), note),
    **WALL_KINDS,
    **FITTING_KINDS,
}
