"""What holds of every rod: order, agreement of the three sides, bays, a moved zero, a mirror."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rod_runs import (
    bay,
    between_walls,
    carcass,
    filler,
    panel,
    rod_of,
    rules,
    run,
    spans,
    wall_unit,
    widths,
)

from oddleg.job import Anchor, AnchorOn, Edge, Feature, FeatureKind

MANY = settings(derandomize=True, deadline=None, max_examples=80)
SIZES = st.integers(1, 12000).map(lambda n: n / 10)
OPPOSITE = {Edge.LEFT: Edge.RIGHT, Edge.CENTRE: Edge.CENTRE, Edge.RIGHT: Edge.LEFT}


@st.composite
def rows(draw):
    items = []
    for number in range(draw(st.integers(1, 9))):
        kind = draw(st.sampled_from(["carcass", "carcass", "bay", "panel", "filler"]))
        id = f"{kind}-{number}"
        match kind:
            case "carcass":
                items.append(carcass(id, draw(SIZES)))
            case "bay":
                items.append(bay(id, draw(SIZES)))
            case "panel":
                items.append(panel(id, draw(st.sampled_from([0.0, 1.25, 1.5]))))
            case "filler":
                least, more = draw(st.integers(0, 60)), draw(st.integers(0, 80))
                items.append(filler(id, least, least + more, width_mm=least + more / 2, share=draw(st.sampled_from([0.0, 1.0, 2.0]))))
    return tuple(items)


@st.composite
def set_outs(draw):
    """Items, opening and an anchor that may or may not do."""
    items = draw(rows())
    length_mm = sum(item.width_mm for item in items)
    opening_mm = length_mm + draw(st.integers(-600, 1200)) / 10
    item = draw(st.sampled_from([None, *(one.id for one in items)]))
    on = draw(st.sampled_from(list(AnchorOn)))
    anchor = Anchor(
        on,
        "window" if on is AnchorOn.FEATURE else None,
        draw(st.sampled_from(list(Edge))),
        draw(st.integers(0, 40000)) / 10 if on is AnchorOn.MARK else None,
        item,
        draw(st.sampled_from(list(Edge))),
        draw(st.sampled_from([0.0, 12.5, -40.0])) if item else 0.0,
    )
    left_mm = draw(st.integers(-100, 3000)) + 0.0
    window = Feature("window", "window", FeatureKind.WINDOW, left_mm, left_mm + draw(st.integers(0, 1500)))
    return items, max(1.0, opening_mm), draw(st.sampled_from([None, anchor])), window


def laid(items, opening_mm, anchor, window, **more):
    return rod_of(between_walls(*items, opening_mm=opening_mm, anchor=anchor, features=(window,), **more))


@MANY
@given(set_outs())
def test_marks_are_strictly_increasing_and_all_three_sides_agree(one):
    rod = laid(*one)
    for row in ("base", "wall"):
        at_mm = [mark.x_mm for mark in rod.marks if mark.row == row]
        assert all(left < right for left, right in pairwise(at_mm))
    anchor_mm = rod.anchor_mm
    for mark in rod.marks:
        assert mark.from_left.mm + mark.from_right.mm == pytest.approx(rod.right_mm - rod.left_mm, abs=1e-6)
        assert mark.from_left.mm - mark.from_anchor.mm == pytest.approx(anchor_mm - rod.left_mm, abs=1e-6)
    orders = [mark.order for mark in rod.marks if mark.order]
    assert sorted(orders) == list(range(1, len(orders) + 1))
    assert len({mark.id for mark in rod.marks}) == len(rod.marks)


@MANY
@given(set_outs())
def test_items_keep_their_width_and_stand_edge_to_edge(one):
    """No bay below its width, nor above; fillers alone give and take, and never less than nothing."""
    rod = laid(*one)
    taken = widths(rod)
    for item in one[0]:
        if item.made_as == "filler":
            assert taken[item.id] >= -1e-9
        else:
            assert taken[item.id] == pytest.approx(item.width_mm, abs=1e-9)
    row = list(spans(rod).values())
    assert all(left[1] == pytest.approx(right[0], abs=1e-9) for left, right in pairwise(row))


@MANY
@given(set_outs())
def test_a_filler_leaves_its_limits_only_with_a_finding(one):
    rod = laid(*one)
    taken = widths(rod)
    out = [
        item
        for item in one[0]
        if item.made_as == "filler" and item.share and not item.least_mm - 1e-6 <= taken[item.id] <= item.greatest_mm + 1e-6
    ]
    told = {"rod.filler_narrow", "rod.too_long", "rod.anchor"} & set(rules(rod))
    assert not out or told
    row = list(spans(rod).values())
    past = row[0][0] < -1e-6 or row[-1][1] > rod.right_mm + 1e-6
    assert past == ("rod.too_long" in rules(rod))


@MANY
@given(rows(), st.integers(-5000, 5000).map(lambda n: n / 10))
def test_moving_the_zero_moves_every_mark_alike(items, moved_mm):
    """A row set out from a window, its ends open: the zero moved along the wall by so much, as a corner moves it."""
    window = Feature("window", "window", FeatureKind.WINDOW, 1400.0, 2600.0)
    one = run(*items, anchor=Anchor(AnchorOn.FEATURE, "window", item=items[0].id), features=(window,))
    before, after = rod_of(one), rod_of(one, set_out=replace(one, x_mm=moved_mm))
    there = {mark.id: mark for mark in before.marks if mark.kind not in ("zero", "end")}
    for mark in after.marks:
        if mark.id in there:
            assert there[mark.id].from_left.mm - mark.from_left.mm == pytest.approx(moved_mm, abs=1e-6)
            assert there[mark.id].from_anchor.mm == pytest.approx(mark.from_anchor.mm, abs=1e-6)
    assert spans(after).keys() == spans(before).keys()


def mirrored(items, opening_mm, anchor, window):
    """The same run seen in a mirror: items the other way round, the anchor's places turned about."""
    across = replace(window, left_mm=opening_mm - window.right_mm, right_mm=opening_mm - window.left_mm)
    if anchor is None:
        glass = Anchor(AnchorOn.RIGHT_END)
    else:
        ends = {AnchorOn.LEFT_END: AnchorOn.RIGHT_END, AnchorOn.RIGHT_END: AnchorOn.LEFT_END}
        glass = replace(
            anchor,
            on=ends.get(anchor.on, anchor.on),
            feature_edge=OPPOSITE[anchor.feature_edge],
            x_mm=None if anchor.x_mm is None else opening_mm - anchor.x_mm,
            item_edge=OPPOSITE[anchor.item_edge],
            item_offset_mm=-anchor.item_offset_mm,
        )
    return items[::-1], opening_mm, glass, across


@MANY
@given(set_outs())
def test_a_mirrored_run_has_mirrored_marks(one):
    rod, glass = laid(*one), laid(*mirrored(*one))
    if "rod.anchor" in rules(rod):
        # Set out from the zero, which is the other end in the mirror.
        assert "rod.anchor" in rules(glass)
        return
    opening_mm = one[1]
    for id, (left_mm, right_mm) in spans(rod).items():
        assert spans(glass)[id] == pytest.approx((opening_mm - right_mm, opening_mm - left_mm), abs=1e-6)
    assert [mark.x_mm for mark in glass.marks] == pytest.approx([opening_mm - mark.x_mm for mark in rod.marks][::-1], abs=1e-6)


def test_a_wall_row_is_mirrored_with_the_rest():
    one = between_walls(carcass("a"), wall_unit("high", 900.0), opening_mm=600.0, wall_anchor=Anchor(AnchorOn.RIGHT_END))
    assert spans(rod_of(one))["high"] == (-300, 600)
