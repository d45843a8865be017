"""What a phone is told of a carcass's panels, and how ticks of holes are told beside the plan as it is now."""

from dataclasses import replace

import pytest
import sample_panels as sample
import sample_plan

from oddleg.job import Drilled, Entry
from oddleg.plan.fitted_out import PanelKind
from oddleg.plan.panels_part import panels_part
from oddleg.plan.part_values import mark_of
from oddleg.plan.sticks import sticks


def entry(body, uid="e1"):
    fields = dict.fromkeys(Entry.__dataclass_fields__)
    return Entry(**{**fields, "uid": uid, "body": body})


def told(panels=sample.ALL, drilled=(), made=False):
    room = sample_plan.room_plan()
    room = replace(room, site=replace(room.site, drilled=tuple(entry(one) for one in drilled)))
    fitted = sample.fitted(panels)
    if made:
        fitted = replace(fitted, sticks=sticks(sample_plan.job(), fitted.box, panels))
    return panels_part(sample_plan.job(), room, fitted)


def holes(part, panel="unit-1-left"):
    return {one["id"]: one for one in next(one for one in part["panels"] if one["id"] == panel)["holes"]}


def drilled(u_mm, v_mm, hole="d4-1", panel="unit-1-left", item="unit-1"):
    return Drilled(item, panel, hole, u_mm, v_mm, "abcdef")


def test_holes_are_told_to_a_tenth_and_say_where_they_come_from():
    # 577.45 is half way between tenths: half goes away from zero.
    hole = holes(told((sample.drawer_side(),)))["d4-1"]
    assert (hole["u"]["text"], hole["v"]["text"], hole["diameter"]["text"], hole["depth"]["text"]) == (
        "37", "577.5", "5", "13",
    )  # fmt: skip
    assert hole["v"]["mm"] == 577.45
    assert "From the lower edge" in hole["v"]["why"] and "runner-500" in hole["v"]["why"]
    assert (hole["drilled"], hole["moved"]) == (None, None)


def test_it_says_what_a_label_says_of_the_carcass():
    """Trap 68: place, handing, cut-outs yes or no."""
    part = told()
    assert (part["handing"], part["cut_outs"]) == ("no door", "cut-outs: none")


def test_a_hole_right_through_has_no_depth():
    assert holes(told((sample.rail(),)), "unit-1-front-rail")["r0"]["depth"] is None


def test_left_and_right_are_told_alike():
    part = told((sample.drawer_side(), sample.drawer_side(PanelKind.RIGHT)))
    keys = ("number", "u", "v", "diameter", "depth")
    left, right = ([{key: one[key] for key in keys} for one in panel["holes"]] for panel in part["panels"])
    assert left == right


@pytest.mark.parametrize(
    ("at", "moved"),
    [
        ((37.0, 577.5), None),
        # A tenth is what is shown: no more than that is no move.
        ((37.0, 577.4), None),
        ((37.0, 577.2), "drilled at 37, 577.2; now 37, 577.5"),
        ((57.0, 577.5), "drilled at 57, 577.5; now 37, 577.5"),
    ],
)
def test_a_drilled_hole_says_whether_it_has_moved_since(at, moved):
    hole = holes(told((sample.drawer_side(),), (drilled(*at),)))["d4-1"]
    assert hole["drilled"] == {"u": f"{at[0]:g}", "v": f"{at[1]:g}"}
    assert hole["moved"] == moved


def test_a_tick_is_for_its_own_panel_and_item_alone():
    part = told((sample.drawer_side(), sample.drawer_side(PanelKind.RIGHT)), (drilled(37.0, 577.5),))
    assert holes(part)["d4-1"]["drilled"] and not holes(part, "unit-1-right")["d4-1"]["drilled"]
    other = told((sample.drawer_side(),), (drilled(37.0, 577.5, item="unit-2"),))
    assert not holes(other)["d4-1"]["drilled"]


def test_a_tick_changes_no_mark_but_a_move_does():
    plain, good, moved = (
        told((sample.drawer_side(),), ticks) for ticks in ((), (drilled(37.0, 577.5),), (drilled(37.0, 570.0),))
    )
    assert mark_of(plain) == mark_of(good) != mark_of(moved)


def test_cut_outs_are_told_from_all_four_edges():
    (panel,) = told((sample.wide_back(),))["panels"]
    first, second, third = panel["cut_outs"]
    # 1200 - 100 - 160 and 684 - 300 - 90.
    assert [first[key]["text"] for key in ("left", "foot", "from_right", "from_top")] == ["100", "300", "940", "294"]
    assert second["open_to"] == ["bottom"] and third["radius"] is None and third["round"]
    # A hole saw is put on the middle: 950 + 125/2, 420 + 125/2, and from there to 1200 and 684.
    assert [third[key]["text"] for key in ("left", "foot", "from_right", "from_top")] == [
        "1012.5", "482.5", "187.5", "201.5",
    ]  # fmt: skip


def test_every_face_that_is_worked_names_its_drawing():
    part = told()
    fields = [view["drawing"] for panel in part["panels"] for view in panel["views"]]
    assert "panel-unit-1-divider-other" in fields and len(fields) == len(sample.ALL) + 1


def test_a_runner_line_is_counted_from_the_sides_lower_edge():
    """Trap 43: v counts from the panel. With the bottom (18) under the sides a line at 37.3 is 19.3 up the side."""
    room, fitted = sample_plan.room_plan(), sample.fitted()
    under = replace(fitted, box=replace(fitted.box, side_foot_mm=18.0))
    lines = [panels_part(sample_plan.job(), room, one)["drawers"][0]["line"]["text"] for one in (fitted, under)]
    assert lines == ["37.3", "19.3"]


def test_sticks_are_told_with_every_line_that_they_serve():
    part = told((sample.drawer_side(), sample.drawer_side(PanelKind.RIGHT)), made=True)
    runner, upright = part["sticks"]
    assert [one["text"] for one in (runner["offset"], *runner["also"])] == ["37.3", "217.4", "397.4", "577.5"]
    assert [one["at"]["text"] for one in upright["marks"]] == ["37.3", "217.4", "397.4", "577.5"]
