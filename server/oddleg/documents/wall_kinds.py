"""The kinds of entry that a run is set out from: lines, walls, openings, corners, features, units, marks."""

from __future__ import annotations

from decimal import Decimal

from marshmallow import ValidationError

from oddleg.job import (
    CornerTriangle,
    EndGap,
    Feature,
    FeatureKind,
    Marked,
    MeasuredFeature,
    OpeningDepth,
    OpeningWidth,
    UnitWidth,
    WallHeight,
    WallLine,
    WallReading,
)

from .entry_fields import Data, EntryKind, Typed, of_field
from .fields import Choice, Slug, Strict, Text
from .numbers import decimal_text
from .sizes import place

GREATEST_FROM_LINE_MM = 20_000


class WallLineData(Strict):
    name = Text(greatest=80)
    run = Slug()
    square_to = Slug(allow_none=True)
    stands_off = Typed(-GREATEST_FROM_LINE_MM, GREATEST_FROM_LINE_MM, allow_none=True)


class WallReadingData(Strict):
    line = Slug()
    height = Choice(WallHeight)
    side = Choice(("proud",), allow_none=True)
    name = Text(greatest=80)
    x_mm = place()


class OpeningData(Strict):
    height = Choice(WallHeight)
    depth = Choice(OpeningDepth)


class EndGapData(Strict):
    side = Choice(("left", "right"))
    height = Choice(WallHeight)
    depth = Choice(OpeningDepth)


class CornerTriangleData(Strict):
    other_run = Slug()
    along = Typed(1, 50_000)
    other_along = Typed(1, 50_000)
    across = Typed(1, 100_000)


class FeatureData(Strict):
    run = Slug()
    name = Text(greatest=80)
    what = Choice(FeatureKind)
    left = Typed(-1_000_000, 1_000_000)
    right = Typed(-1_000_000, 1_000_000)
    bottom = Typed(-20_000, 20_000, allow_none=True)
    top = Typed(-20_000, 20_000, allow_none=True)
    stands_out = Typed(-5_000, 5_000, allow_none=True)
    above = Choice(("bench_mark", "datum"))


class UnitWidthData(Strict):
    pass


class MarkedData(Strict):
    mark = Text(greatest=200)


def wall_line(outer: Data, data: Data, value: Decimal | None) -> WallLine:
    if data["square_to"] == outer["target"]:
        raise ValidationError({"square_to": ["A line cannot be square to itself; name the other line, or none."]})
    return WallLine(outer["target"], data["name"], data["run"], data["square_to"], data["stands_off"])


def wall_reading(outer: Data, data: Data, value: Decimal | None) -> WallReading:
    assert value is not None
    return WallReading(
        line=data["line"],
        station=outer["target"],
        height=data["height"],
        value_mm=of_field("value", value, -GREATEST_FROM_LINE_MM, GREATEST_FROM_LINE_MM),
        name=data["name"],
        x_mm=data["x_mm"],
    )


def opening(outer: Data, data: Data, value: Decimal | None) -> OpeningWidth:
    assert value is not None
    return OpeningWidth(outer["target"], data["height"], data["depth"], of_field("value", value, 50, 50_000))


def end_gap(outer: Data, data: Data, value: Decimal | None) -> EndGap:
    """Negative where the wall comes in past the mark."""
    assert value is not None
    beyond_mm = of_field("value", value, -5_000, 5_000)
    return EndGap(outer["target"], data["side"], data["height"], data["depth"], beyond_mm)


def corner_triangle(outer: Data, data: Data, value: Decimal | None) -> CornerTriangle:
    if data["other_run"] == outer["target"]:
        raise ValidationError({"other_run": ["A corner lies between two runs; name the other one."]})
    sides = {name: Decimal(str(data[name])) for name in ("along", "other_along", "across")}
    longest = max(sides, key=lambda name: sides[name])
    one, other = (mm for name, mm in sides.items() if name != longest)
    if sides[longest] >= one + other:
        texts = [decimal_text(mm) for mm in (one, other, one + other, sides[longest])]
        cannot = "These three cannot close: {} and {} reach {} mm together, and this side is {} mm.".format(*texts)
        raise ValidationError({longest: [f"{cannot} Measure all three again."]})
    return CornerTriangle(outer["target"], data["other_run"], data["along"], data["other_along"], data["across"])


def feature(outer: Data, data: Data, value: Decimal | None) -> MeasuredFeature:
    if data["left"] > data["right"]:
        raise ValidationError({"left": ["It lies to the right of the right edge; left and right are swapped."]})
    if data["bottom"] is not None and data["top"] is not None and data["bottom"] > data["top"]:
        raise ValidationError({"bottom": ["It lies above the top; the two heights are swapped."]})
    measured = Feature(
        id=outer["target"],
        name=data["name"],
        kind=data["what"],
        left_mm=data["left"],
        right_mm=data["right"],
        bottom_mm=data["bottom"],
        top_mm=data["top"],
        stands_out_mm=data["stands_out"] or 0.0,
    )
    return MeasuredFeature(data["run"], measured, above_datum=data["above"] == "datum")


def unit_width(outer: Data, data: Data, value: Decimal | None) -> UnitWidth:
    assert value is not None
    return UnitWidth(outer["target"], of_field("value", value, 1, 20_000))


def marked(outer: Data, data: Data, value: Decimal | None) -> Marked:
    assert value is not None
    at_mm = of_field("value", value, -50_000, 50_000)
    return Marked(outer["target"], data["mark"], at_mm, outer["shown"]["part_mark"] or "")


WALL_KINDS = {
    "wall_line": EntryKind(WallLineData(), wall_line),
    "wall_reading": EntryKind(
        WallReadingData(),
        wall_reading,
        number=True,
        minus="proud",
        sign_words="Where the wall stands out beyond the line, say so; the number itself has no sign.",
        never_signed=True,
    ),
    "opening": EntryKind(OpeningData(), opening, number=True),
    "end_gap": EntryKind(EndGapData(), end_gap, number=True),
    "corner_triangle": EntryKind(CornerTriangleData(), corner_triangle),
    "feature": EntryKind(FeatureData(), feature),
    "unit_width": EntryKind(UnitWidthData(), unit_width, number=True),
    "marked": EntryKind(MarkedData(), marked, number=True),
}
