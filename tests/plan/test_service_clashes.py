"""What stands out of a wall, hangs below a top or goes through sides, against boards, drawers and appliances. FP: units
600 x 720 x 560 of 18 board, void 20, datum 875, so the underside lies at 155."""

from __future__ import annotations

from dataclasses import replace

import pytest
import sample_room as sample
from service_rooms import passage, run, services, socket, unit

from oddleg.job import Appliance, ApplianceSeat, Box, ComesFrom, Compartment, FittingOut, FrontIs, Shelf, TopIs
from oddleg.plan.boards import boards
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.fitted_out import DrawerBox, FittedOut, PlacedFront
from oddleg.plan.hardware import Hardware
from oddleg.plan.service_clashes import panel_room, service_clashes


def drawer(low_mm=500.0, high_mm=690.0, rear_u_mm=510.0):
    return DrawerBox("drawer", "top drawer", "inside", "runner", "front", 18.0, 582.0, 560.0, 37.0, 0.0, rear_u_mm, low_mm, high_mm)


def clashes(item, *points, drawers=(), fronts=(), beside=(), **more):
    found = services(run(item, *beside, services=points, **more))
    box = carcass_box(item)
    made = FittedOut(item.id, 1, item.name, box, (), tuple(fronts), tuple(drawers), boards(box, Hardware(), ()))
    return service_clashes(sample.job(), found, (made,))


def rules(found):
    return sorted(one.rule for one in found)


def shelved(up_mm, set_back_mm=0.0, **more):
    shelf = Shelf("shelf", "shelf", up_mm, fixed=True, set_back_mm=set_back_mm)
    return unit(fitting_out=FittingOut((Compartment("inside", "inside", shelves=(shelf,)),)), **more)


def test_panels_take_up_the_room_that_they_are_cut_for():
    """FP: every board of a box lies in it, and left and right side, bottom and top bound it."""
    box = carcass_box(shelved(300.0))
    rooms = {one.id: panel_room(one) for one in boards(box, Hardware(), ())}
    assert rooms["left_side"] == ((0, 18), (0, 560), (0, 720)) and rooms["right_side"] == ((582, 600), (0, 560), (0, 720))
    assert rooms["bottom"] == ((18, 582), (0, 560), (0, 18)) and rooms["top"] == ((18, 582), (0, 560), (702, 720))
    assert rooms["back"] == ((18, 582), (552, 560), (18, 702)) and rooms["shelf-inside-shelf"] == ((18, 582), (0, 552), (318, 336))


def test_what_stands_out_into_a_shelf_is_told_with_how_far():
    """FP: shelf from 155 + 318 = 473 to 491; a valve at 480 stands 60 out, 40 past the void; the shelf ends at 552, so 32
    of it."""
    (hits, before) = clashes(shelved(300.0), socket(up_mm=480.0, stands_out_mm=60.0))
    assert (hits.rule, hits.amount.mm) == ("service.board", 32) and before.rule == "service.behind_board"
    assert clashes(shelved(300.0), socket(up_mm=300.0, stands_out_mm=60.0)) == ()


def test_a_shelf_set_at_the_back_before_a_cut_out_is_told_though_nothing_stands_out():
    assert rules(clashes(shelved(300.0), socket(up_mm=480.0))) == ["service.behind_board"]


def test_a_side_is_notched_only_for_what_stands_out_past_the_void():
    """FP: 570 to 660 over the right side at 582 to 600."""
    beside = (unit("b"),)
    assert rules(clashes(unit(), socket(x_mm=615.0, stands_out_mm=20.0), beside=beside)) == []
    (hit,) = clashes(unit(), socket(x_mm=615.0, stands_out_mm=50.0), beside=beside)
    assert hit.amount.mm == 30 and "right side" in hit.place


@pytest.mark.parametrize(("rear_u_mm", "hit"), [(520.0, False), (521.0, True)])
def test_a_drawer_that_reaches_back_over_what_stands_out_is_a_stop(rear_u_mm, hit):
    """FP: 60 out is 40 past the void: it comes to u = 560 - 40 = 520. Void behind the runner included."""
    found = clashes(unit(), socket(up_mm=700.0, stands_out_mm=60.0), drawers=(drawer(rear_u_mm=rear_u_mm),))
    assert ("service.drawer" in rules(found)) is hit
    assert "service.behind_drawer" in rules(found), "the cut-out lies behind it either way"


def hob(**more):
    return Appliance("hob", "hob", ApplianceSeat.IN_TOP, 1.0, drop_mm=52.0, air_gap_mm=20.0, greatest_width_mm=500.0, **more)


@pytest.mark.parametrize(("high_mm", "hit"), [(678.0, False), (679.0, True)])
def test_a_drawer_below_a_hob_stays_below_what_must_be_clear(high_mm, hit):
    """Trap 47: clear to D - 42: 720 - 42 = 678."""
    found = clashes(unit(appliances=(hob(),), box=Box(18.0, top=TopIs.RAILS)), drawers=(drawer(high_mm=high_mm),))
    stops = [one for one in found if one.rule == "service.drawer"]
    assert [one.amount.mm for one in stops] == ([1] if hit else [])


def test_rails_and_tops_in_the_way_of_what_hangs_are_told():
    rails = clashes(unit(appliances=(hob(),), box=Box(18.0, top=TopIs.RAILS)))
    assert [(one.rule, one.amount.mm) for one in rails] == [("service.hangs_into", 18)] * 2
    (top,) = clashes(unit(appliances=(hob(),)))
    assert "top of sink" in top.place


def test_a_cut_out_behind_a_bowl_is_told():
    bowl = Appliance("bowl", "bowl", ApplianceSeat.IN_TOP, 1.0, drop_mm=230.0, air_gap_mm=0.0, greatest_width_mm=500.0)
    item = unit(appliances=(bowl,))
    assert "service.behind_hanging" in rules(clashes(item, socket(up_mm=750.0)))
    assert "service.behind_hanging" not in rules(clashes(item, socket(up_mm=600.0)))


def test_a_passage_goes_past_shelves_and_drawers():
    """FP: 300 below the top is 420 up, 390 to 450 across; 80 before the rear edge is u 450 to 510."""
    beside = {"beside": (unit("b"),), "passages": (passage("sink", "b"),)}
    assert rules(clashes(shelved(400.0), **beside)) == ["service.board"]
    assert rules(clashes(shelved(450.0), **beside)) == []
    assert rules(clashes(unit(), drawers=(drawer(low_mm=400.0),), **beside)) == ["service.drawer"]


def test_a_socket_behind_a_built_in_oven_belongs_into_the_cupboard_beside():
    """CP: reached with the appliance in place."""
    oven = Appliance("oven", "oven", ApplianceSeat.IN_CARCASS, 600.0, built_in=True)
    niche = PlacedFront("niche", "niche", "niche", "inside", FrontIs.SPACE, 0.0, 100.0, 600.0, 595.0, 0.0, 0.0)
    item = unit(appliances=(oven,))
    (told,) = clashes(item, socket(), fronts=(niche,))
    assert told.rule == "service.behind_appliance" and told.caution
    assert clashes(item, socket(), fronts=(replace(niche, foot_mm=400.0, height_mm=300.0),)) == ()


def test_a_cut_out_behind_fronts_that_never_open_is_told():
    fixed = PlacedFront("panel", "panel", "fixed front", "inside", FrontIs.FIXED, 0.0, 0.0, 600.0, 357.0, 18.0, 0.0)
    door = replace(fixed, id="door", front=FrontIs.DOOR, foot_mm=360.0)
    item = unit(fitting_out=FittingOut((Compartment("inside", "inside"),)))
    assert rules(clashes(item, socket(), fronts=(fixed,))) == ["service.behind_fixed"]
    assert clashes(item, socket(), fronts=(fixed, door)) == ()


def test_units_without_services_clash_with_nothing():
    assert clashes(shelved(300.0), drawers=(drawer(),)) == ()


def test_what_comes_up_through_a_bottom_is_told_once_with_the_place_of_its_hole():
    stub = socket(comes_from=ComesFrom.FLOOR, up_mm=None, y_mm=300.0, stands_out_mm=200.0)
    item = unit()
    assert "service.through_bottom" in rules(services(run(item, services=(stub,))).findings)
    assert rules(clashes(item, stub)) == []
