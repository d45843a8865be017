"""Records of how a run is set out: ends, anchor, front line, batten, what the wall carries, trims, plinth cut-outs."""

from __future__ import annotations

from oddleg.job import (
    Anchor,
    AnchorOn,
    Batten,
    BattenIn,
    Edge,
    EndsAt,
    Feature,
    FeatureKind,
    FrontLineRule,
    LineIs,
    LineUp,
    PlinthCut,
    PlinthCutKind,
    RunEnd,
    Trim,
)

from .fields import Choice, Listing, Number, Record, Slug, Text, YesNo, reversed_limits
from .sizes import along, board, level, play, size

GREATEST_SUPPORTS = 500


class RunEndRecord(Record):
    makes = RunEnd
    at = Choice(EndsAt)
    run = Slug(allow_none=True)

    def clashes(self, made: RunEnd) -> dict[str, str]:
        in_a_corner = made.at in (EndsAt.OTHER_BACKS, EndsAt.OTHER_FRONTS)
        if in_a_corner and made.run is None:
            return {"run": "An end in a corner names the run that it meets there; give that run's id."}
        if not in_a_corner and made.run is not None:
            return {"run": "Only an end in a corner (other_backs, other_fronts) names another run; give null here."}
        return {}


class FeatureRecord(Record):
    makes = Feature
    id = Slug()
    name = Text(greatest=80)
    kind = Choice(FeatureKind)
    left_mm = along()
    right_mm = along()
    bottom_mm = level(allow_none=True)
    top_mm = level(allow_none=True)
    stands_out_mm = Number(-5_000, 5_000)

    def clashes(self, made: Feature) -> dict[str, str]:
        return reversed_limits(made, ("left_mm", "right_mm"), ("bottom_mm", "top_mm"))


class AnchorRecord(Record):
    makes = Anchor
    on = Choice(AnchorOn)
    feature = Slug(allow_none=True)
    feature_edge = Choice(Edge)
    x_mm = along(allow_none=True)
    item = Slug(allow_none=True)
    item_edge = Choice(Edge)
    item_offset_mm = Number(-20_000, 20_000)
    what = Text(0, 80)

    def clashes(self, made: Anchor) -> dict[str, str]:
        found = {}
        if (made.on is AnchorOn.FEATURE) != (made.feature is not None):
            found["feature"] = (
                "An anchor on a feature names it; give the id of one of this run's features."
                if made.feature is None
                else "Only an anchor on a feature names one; give null here, or feature for on."
            )
        if (made.on is AnchorOn.MARK) != (made.x_mm is not None):
            found["x_mm"] = (
                "An anchor on a mark says where the mark is, in mm from the run's zero."
                if made.x_mm is None
                else "Only an anchor on a mark has an x; give null here, or mark for on."
            )
        if made.item is None and made.item_offset_mm != 0:
            found["item_offset_mm"] = "It is from an edge of an item, and no item is named; name one, or give 0."
        return found


class LineUpRecord(Record):
    makes = LineUp
    item = Slug()
    item_edge = Choice(Edge)
    on = Slug()
    on_edge = Choice(Edge)

    def clashes(self, made: LineUp) -> dict[str, str]:
        if made.item == made.on:
            return {"on": "An item always lines up with itself; name another item, or a feature."}
        return {}


class FrontLineRuleRecord(Record):
    makes = FrontLineRule
    line = Choice(LineIs)
    from_x_mm = along(allow_none=True)
    to_x_mm = along(allow_none=True)
    run = Slug(allow_none=True)
    feature = Slug(allow_none=True)

    def clashes(self, made: FrontLineRule) -> dict[str, str]:
        found = {}
        parallel = made.line is LineIs.PARALLEL
        for name in ("from_x_mm", "to_x_mm"):
            x = getattr(made, name)
            if parallel and x is None and made.feature is None:
                found[name] = (
                    "A parallel line needs the feature, or the two points on the wall, that it is parallel to; give "
                    "both points."
                )
            if parallel and x is not None and made.feature is not None:
                found[name] = "A line that is parallel at a feature has that one's edges for points; give null here."
            if not parallel and x is not None:
                found[name] = "Only a parallel line is given by points on the wall; give null here."
        if not parallel and made.feature is not None:
            found["feature"] = "Only a parallel line is given by a feature; give null here."
        if (made.line is LineIs.SQUARE) != (made.run is not None):
            found["run"] = (
                "A square line needs the run that it is square to; give that run's id."
                if made.run is None
                else "Only a square line names another run; give null here."
            )
        if not found and made.from_x_mm is not None and made.to_x_mm is not None and made.from_x_mm >= made.to_x_mm:
            found["to_x_mm"] = "It must lie to the right of from_x_mm: two points at one place give no direction."
        return found


class BattenRecord(Record):
    makes = Batten
    thickness_mm = board()
    height_mm = board()
    stock_mm = Number(100, 20_000)
    spacing_mm = Number(50, 5_000)
    end_mm = Number(0, 1_000)
    lies_in = Choice(BattenIn)
    supports_mm = Listing(along(), greatest=GREATEST_SUPPORTS)

    def clashes(self, made: Batten) -> dict[str, str]:
        found = {}
        if 2 * made.end_mm >= made.stock_mm:
            found["end_mm"] = (
                f"Kept from both ends of a length, it must be less than half of stock_mm, {made.stock_mm:g}."
            )
        if len(set(made.supports_mm)) < len(made.supports_mm):
            found["supports_mm"] = "The same x is in it twice; give each stud or patress once."
        return found


class PlinthCutRecord(Record):
    makes = PlinthCut
    kind = Choice(PlinthCutKind)
    left_mm = play()
    width_mm = size()
    height_mm = board()
    source = Text(0)
    up_mm = Number(0, 300, allow_none=True)

    def clashes(self, made: PlinthCut) -> dict[str, str]:
        if made.kind is PlinthCutKind.NOTCH and made.up_mm is not None:
            return {"up_mm": "A notch lies at the plinth's top edge, so it has no height of its own; give null here."}
        return {}


class TrimRecord(Record):
    makes = Trim
    overhang_mm = Number(0, 500)
    returns = YesNo()
