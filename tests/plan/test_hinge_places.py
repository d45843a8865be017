"""Hinges of doors: count, cups, overlay, through to the holes. FP: first principles; figures of charts are invented."""

import pytest
from hardware_rows import carcass, compartment, every_row, hinge, member, plate, stack
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_room import job, room, run

from oddleg.job import BottomFit, Box, FittingOut, Front, FrontFit, HungOn
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.fitted_out import Face, HoleFor, PanelKind
from oddleg.plan.front_stacks import filled
from oddleg.plan.panels import panels

LEFT, RIGHT = PanelKind.LEFT.value, PanelKind.RIGHT.value


def door(id="door", hung=HungOn.LEFT, **more):
    return member(id, hung=hung, **{"hinge": "hinge-110", "plate": "plate-0", **more})


def made(item, *rows):
    known = every_row(*rows)
    here, box = job(room(run(item))), carcass_box(item)
    found = filled(here, box, known)
    return found, {one.id: one for one in panels(here, box, known, found, (), ())}


def hang(*members, rows=(), front=None, stack_of=None, **item):
    given = stack(*members, **(stack_of or {}))
    return made(carcass("b60", compartment(stack=given), front=front or Front(), **item), *rows)


def rules(found):
    return [one.rule for one in found.findings]


def plates(panel):
    return sorted(one.v_mm for one in panel.holes if one.hole_for is HoleFor.PLATE)


REVEALS = {"top_mm": 3.0, "bottom_mm": 2.0}
LIGHT = Front(density_kg_m3=600.0)
CUP_100 = {"cups_mm": (100.0, 600.0)}


def test_a_plate_counts_from_the_panel_and_not_from_the_door():
    """Trap 43, FP: door 715 on 720, reveals 3 and 2; cup 100 up the door: plate at 102, holes 32 apart: 86 and 118."""
    found, boards = hang(door(**CUP_100), stack_of=REVEALS)
    assert found.fronts[0].height_mm == 720 - 3 - 2 == 715
    assert plates(boards[LEFT])[:2] == [102 - 16, 102 + 16] == [86, 118]
    assert plates(boards[RIGHT]) == []


def test_with_the_bottom_under_the_sides_the_plate_is_18_lower_on_them():
    """Trap 43, FP: 102 - 18 = 84."""
    _, boards = hang(door(**CUP_100), stack_of=REVEALS, box=Box(bottom=BottomFit.UNDER_SIDES))
    assert sum(plates(boards[LEFT])[:2]) / 2 == 102 - 18 == 84


def test_cups_lie_at_the_charts_distance_from_both_ends_and_evenly_between():
    """900 < 1500 <= 1600: three, and 0.597 x 1.5 x 0.02 x 600 = 10.7 kg is up to 13: three. 100, 1400 and midway."""
    found, _ = hang(door(), height_mm=1500.0, front=LIGHT)
    assert found.fronts[0].cups_mm == (100, 750, 1400)


def test_the_count_is_the_larger_of_both_rules():
    """FP: 0.597 x 0.717 x 0.02 x 1000 = 8.6 kg: by height (up to 900) two, by weight (7 to 13) three."""
    found, _ = hang(door(), stack_of={"top_mm": 3.0}, front=Front(density_kg_m3=1000.0))
    (leaf,) = found.fronts
    assert leaf.weight_kg == pytest.approx(0.597 * 0.717 * 0.020 * 1000)
    assert len(leaf.cups_mm) == 3
    assert leaf.hinges_words == "3 hinges: 2 for a height of 717, 3 for 8.6 kg"


def test_a_door_beyond_the_table_is_a_stop():
    found, _ = hang(door(), rows=[hinge(up_to_mm=(600.0, 700.0))])
    assert "hinge.beyond_table" in rules(found)


def test_the_edge_distance_is_overlay_less_constant_and_plate_height():
    """FP: the door covers 18 - 1.5 = 16.5 of the side; 16.5 - 13 + 0 = 3.5; cup's middle at 3.5 + 17.5 = 21."""
    found, boards = hang(door())
    assert (found.fronts[0].overlay_mm, found.fronts[0].edge_mm) == (16.5, 3.5)
    cups = [one for one in boards["front-door"].holes if one.hole_for is HoleFor.CUP]
    # Seen from behind, a door hung on the left has its hinge edge on the right.
    assert {one.u_mm for one in cups} == {597 - (3.5 + 17.5)}


def test_a_plate_that_gives_no_edge_distance_is_told_with_one_that_does():
    """Overlay 16.5, constant 13: a plate 8 high asks for 11.5, allowed are 3 to 7: plates from -0.5 to 3.5 would do."""
    found, _ = hang(door(plate="plate-8"), rows=[plate(id="plate-8", name="plate 8", height_mm=8.0)])
    (wrong,) = [one for one in found.findings if one.rule == "hinge.edge_distance"]
    assert wrong.amount.mm == 11.5 - 7
    assert wrong.cure == "Take plate 0 (0 high)."


def test_where_no_known_plate_does_the_heights_that_would_are_told():
    """Half of a divider: 9 - 1.5 = 7.5 over it; edge 3 to 7 wants 3 + 13 - 7.5 = 8.5 to 12.5."""
    item = carcass("b60", compartment("a", stack=stack(door(hung=HungOn.RIGHT))), compartment("b"))
    found, _ = made(item)
    (wrong,) = [one for one in found.findings if one.rule == "hinge.edge_distance"]
    assert "8.5 to 12.5 high" in wrong.cure


def test_a_door_on_a_divider_is_drilled_into_the_face_that_looks_at_it():
    """In the right compartment the divider's other face; in the left one the face shown."""
    ten = plate(id="plate-10", name="plate 10", height_mm=10.0)
    for part, hung_on, face in (("a", HungOn.RIGHT, Face.SHOWN), ("b", HungOn.LEFT, Face.OTHER)):
        of = {part: {"stack": stack(door(hung=hung_on, plate="plate-10"))}}
        found, boards = made(carcass("b60", *(compartment(id, **of.get(id, {})) for id in "ab")), ten)
        assert found.fronts[0].overlay_mm == 18 / 2 - 1.5
        assert found.fronts[0].edge_mm == 7.5 - 13 + 10
        assert {one.face for one in boards["divider-1"].holes} == {face}
        assert not boards[LEFT].holes and not boards[RIGHT].holes


def test_a_pair_splits_with_the_gap_between_and_hangs_on_both_sides():
    """FP: (597 - 3) / 2 = 297 each."""
    found, boards = hang(door(hung=HungOn.PAIR))
    left, right = found.fronts
    assert (left.id, right.id, left.member, right.member) == ("door-left", "door-right", "door", "door")
    assert (left.width_mm, right.width_mm) == ((597 - 3) / 2, (597 - 3) / 2)
    assert right.left_mm - left.left_mm - left.width_mm == 3
    assert plates(boards[LEFT]) == plates(boards[RIGHT]) != []
    cups = [
        {one.u_mm for one in boards[f"front-{id}"].holes if one.hole_for is HoleFor.CUP} for id in (left.id, right.id)
    ]
    assert cups == [{297 - 21}, {21}]


def test_an_inset_door_takes_its_plates_back_by_thickness_and_set_back():
    """Trap 41: 37 + 18 + 2 = 57. A hinge for inset doors: -1.5 - (-5) + 0 = 3.5."""
    inset = Front(FrontFit.INSET, thickness_mm=18.0, set_back_mm=2.0)
    found, boards = hang(door(), front=inset, rows=[hinge(constant_mm=-5.0)])
    assert found.fronts[0].edge_mm == 3.5
    assert {one.u_mm for one in boards[LEFT].holes} == {37 + 18 + 2}
    assert "hinge.edge_distance" not in rules(found)


def test_cups_that_are_given_are_kept_and_checked_against_the_door():
    """A cup of 35 with screws 45 apart and 2.5 in diameter reaches (45 + 2.5) / 2 = 23.75 from its middle."""
    found, _ = hang(door(cups_mm=(20.0, 600.0)))
    assert found.fronts[0].cups_mm == (20, 600)
    (wrong,) = [one for one in found.findings if one.rule == "hinge.cup_outside"]
    assert wrong.amount.mm == 23.75 - 20
    assert "hinge.cup_outside" not in rules(hang(door(cups_mm=(23.75, 720 - 23.75)))[0])


def test_fewer_cups_than_the_chart_asks_for_is_to_be_decided():
    found, _ = hang(door(cups_mm=(100.0, 1400.0)), height_mm=1500.0, front=LIGHT)
    (wrong,) = [one for one in found.findings if one.rule == "hinge.too_few"]
    assert wrong.severity.value == "warn" and "needs 3" in wrong.wrong


@pytest.mark.parametrize(("thick_mm", "told"), [(14.9, True), (15.0, False), (26.0, False), (27.0, True)])
def test_a_door_is_held_to_the_thickness_of_its_hinges_chart(thick_mm, told):
    found, _ = hang(door(), front=Front(thickness_mm=thick_mm))
    assert ("hinge.door_thickness" in rules(found)) is told


def test_a_door_too_low_for_its_hinges_has_none_and_is_told():
    """100 from either end of 220: 20 apart, less than a cup of 35."""
    found, boards = hang(door(), height_mm=220.0)
    assert found.fronts[0].cups_mm == () and "hinge.no_room" in rules(found)
    assert not boards[LEFT].holes


def test_a_door_whose_hinge_is_in_no_chart_hangs_without_cups():
    found, boards = hang(door(hinge="unheard-of", plate="neither"))
    assert found.fronts[0].cups_mm == () and found.fronts[0].edge_mm is None
    assert not boards["front-door"].holes


@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    st.floats(150, 1200), st.floats(250, 2400), st.floats(0, 5), st.sampled_from(FrontFit), st.floats(0.1, 0.9),
)  # fmt: skip
def test_a_door_hung_on_the_other_side_is_the_mirror_image(width_mm, height_mm, side_mm, fit, part):
    """FP: seen in a mirror, left is right and nothing else changes."""
    left, right = (
        made(
            carcass(
                "b60",
                compartment(stack=stack(door(hung=hung_on), member("top", share=part), side_mm=side_mm)),
                width_mm=width_mm,
                height_mm=height_mm,
                front=Front(fit),
                fitting_out=FittingOut(),
            )
        )
        for hung_on in (HungOn.LEFT, HungOn.RIGHT)
    )
    assert [(one.u_mm, one.v_mm) for one in left[1][LEFT].holes] == [
        (one.u_mm, one.v_mm) for one in right[1][RIGHT].holes
    ]
    for one, other in zip(left[0].fronts, right[0].fronts, strict=True):
        assert one.edge_mm == pytest.approx(other.edge_mm) if one.edge_mm is not None else other.edge_mm is None
        assert one.cups_mm == other.cups_mm
    if "front-door" in left[1]:
        mirrored = sorted((width_mm_of(left) - one.u_mm, one.v_mm) for one in left[1]["front-door"].holes)
        own = sorted((one.u_mm, one.v_mm) for one in right[1]["front-door"].holes)
        assert [pytest.approx(one, abs=1e-6) for one in mirrored] == own
    assert rules(left[0]) == rules(right[0])


def width_mm_of(side):
    return side[1]["front-door"].width_mm
