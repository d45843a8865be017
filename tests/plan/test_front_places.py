"""How wide fronts are and where they hang. First principles."""

import pytest
from hardware_rows import carcass, compartment, known, member, stack
from sample_room import job, room, run

from oddleg.job import Front, FrontFit, FrontIs, HungOn
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.front_places import stands_mm
from oddleg.plan.front_stacks import filled

INSET = Front(FrontFit.INSET, thickness_mm=18.0, set_back_mm=2.0)


def fill(*compartments, **item):
    box = carcass_box(carcass("b60", *compartments, **item))
    return filled(job(room(run(box.item))), box, known())


def fixed(id, **more):
    return compartment(id, stack=stack(member(id, front=FrontIs.FIXED), **more))


def edges(found):
    return [(one.left_mm, one.left_mm + one.width_mm) for one in found.fronts]


def test_an_overlay_front_covers_both_sides_up_to_what_is_kept_beside_it():
    """600 - 2 x 1.5 = 597."""
    assert edges(fill(fixed("a"))) == [(1.5, 598.5)]


def test_two_overlay_fronts_share_a_divider_half_and_half():
    """(564 - 18) / 2 = 273 each: the divider from 291 to 309, its middle at 300; 1.5 kept on either side of that."""
    assert edges(fill(fixed("a"), fixed("b"))) == [(1.5, 298.5), (301.5, 598.5)]


def test_an_inset_front_stands_inside_its_compartment():
    """From 18 to 291 and from 309 to 582, 2 short on each side."""
    found = fill(fixed("a", side_mm=2.0), fixed("b", side_mm=2.0), front=INSET)
    assert edges(found) == [(18 + 2, 291 - 2), (309 + 2, 582 - 2)]


def test_a_pair_keeps_the_stacks_gap_between():
    found = fill(compartment(stack=stack(member("m", hung=HungOn.PAIR), gap_mm=4.0)))
    assert edges(found) == [(1.5, 298), (302, 598.5)]
    assert [one.name for one in found.fronts] == ["left leaf of m", "right leaf of m"]


def test_a_fronts_weight_is_its_volume_at_its_boards_density():
    """0.597 x 0.72 x 0.02 m3 at 750 kg/m3."""
    assert fill(fixed("a")).fronts[0].weight_kg == pytest.approx(0.597 * 0.72 * 0.02 * 750)


def test_a_space_has_no_board_and_no_weight():
    (one,) = fill(compartment(stack=stack(member("m", front=FrontIs.SPACE)))).fronts
    assert (one.thickness_mm, one.weight_kg, one.height_mm) == (0, 0, 720)


def test_hardware_starts_at_the_front_edge_or_behind_an_inset_front():
    """Trap 41: 18 + 2, and a frame's 20 on top; an overlay front takes nothing, whatever its set-back says."""
    assert stands_mm(Front(thickness_mm=18.0, set_back_mm=2.0)) == 0
    assert stands_mm(INSET) == 20
    assert stands_mm(Front(FrontFit.FRAME, thickness_mm=18.0, set_back_mm=2.0, frame_thickness_mm=20.0)) == 40


def test_fronts_over_the_blind_part_of_a_corner_unit_are_told():
    """900 wide and 400 blind leaves 500; a front across all of it is 897. Divided at 500 only the left half opens."""
    over = fill(compartment(stack=stack(member(hung=HungOn.LEFT))), width_mm=900.0, blind_mm=400.0)
    (wrong,) = [one for one in over.findings if one.rule == "stack.over_blind"]
    assert wrong.amount.mm == 897 - 500
    open_part = compartment("a", width_mm=473.0, stack=stack(member(hung=HungOn.LEFT)))
    divided = fill(open_part, compartment("b"), width_mm=900.0, blind_mm=400.0)
    assert "stack.over_blind" not in [one.rule for one in divided.findings]
