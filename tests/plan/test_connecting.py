"""Screws that join neighbours. FP: first principles."""

from dataclasses import replace

import pytest
from panel_boxes import CONNECTOR, LEFT, RIGHT, Filled, door, drawer, known, part, places
from sample_room import carcass, job, room, run

from oddleg.job import BackIs, BottomFit, Box, Filler, FittingOut, HungOn, Shelf, Storey
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.connecting import connected
from oddleg.plan.fitted_out import HoleFor
from oddleg.plan.panels import panels
from oddleg.plan.rod import placed_items

JOINED = FittingOut(connector="connector")
# FP: 80 from both ends of a side of 720; 20 behind the front edge, 60 before the rear edge at 560; but in front of a
# back of 8 that lies between: 552 - 10 - 2.5 = 539.5, so 500 stands.
CORNERS = [(20, 80), (500, 80), (20, 640), (500, 640)]


def unit(id, **more):
    return carcass(id, **{"fitting_out": JOINED, **more})


def join(*items, filled=None, rows=(), **more):
    """Panels by item and id, and the findings."""
    here = run(*items)
    work = job(room(here), **more)
    fitted = [one for one in items if not isinstance(one, Filler)]
    boxes = {one.id: carcass_box(one) for one in fitted}
    made = {
        id: panels(work, box, known(*rows), (filled or {}).get(id, Filled()), (), ()) for id, box in boxes.items()
    }
    found, told = connected(work, known(*rows), placed_items(here), made, boxes)
    return {id: {panel.id: panel for panel in here} for id, here in found.items()}, told


def test_neighbours_get_the_same_four_screws_through_both_sides():
    made, told = join(unit("a"), unit("b"))
    assert places(made["a"][RIGHT]) == places(made["b"][LEFT]) == CORNERS
    assert {one.depth_mm for one in made["a"][RIGHT].holes} == {None}
    assert made["a"][LEFT].holes == made["b"][RIGHT].holes == ()
    assert told == ()


def test_the_words_name_the_neighbour():
    made, _ = join(unit("a"), unit("b"))
    assert made["a"][RIGHT].holes[0].words == "connecting screw to b, front line, lower one"
    assert made["b"][LEFT].holes[0].of == "a"


def test_one_of_two_that_names_a_screw_is_enough():
    made, _ = join(carcass("a"), unit("b"))
    assert len(made["a"][RIGHT].holes) == 4


def test_a_filler_between_them_joins_nothing():
    made, told = join(unit("a"), Filler("f", "f", 50.0, 20.0, 100.0), unit("b"))
    assert made["a"][RIGHT].holes == () and told == ()


def test_a_screw_gives_way_to_a_hole_on_either_side_towards_the_middle():
    """FP: a plate's screws at 37 behind the front edge, 64 and 96 up, rims of 2.5 each: the screw at 20, 17 away across,
    needs 15 from centre to centre: sqrt(17^2) is enough. With clear 20 it needs 25: up by sqrt(25^2 - 17^2) = 18.4 from
    the upper one at 96: 114.4, the first whole step from 80 is 35: 115."""
    filled = {"b": Filled((door(hung=HungOn.LEFT, compartment="b", cups_mm=(80.0,)),), ())}
    made, _ = join(unit("a"), unit("b"), filled=filled)
    assert places(made["a"][RIGHT])[0] == (20, 80)
    wide = replace(CONNECTOR, clear_mm=20.0)
    made, _ = join(unit("a"), unit("b"), filled=filled, rows=[wide])
    lower = [(u, v) for u, v in places(made["a"][RIGHT]) if v < 360]
    assert lower == [(500, 80), (20, 115)]
    assert places(made["b"][LEFT], HoleFor.CONNECTOR) == places(made["a"][RIGHT])


def test_a_screw_gives_way_to_a_shelf_by_the_least_move():
    """FP: a fixed shelf from 18 + 60 = 78 to 96; rim 2.5 and clear 10 below it is 65.5, above it 108.5. From 80 that is
    15 whole steps down against 29 up."""
    shelf = FittingOut((part("p", shelves=(Shelf("s", "shelf", 60.0, fixed=True),)),), connector="connector")
    made, _ = join(unit("a"), unit("b", fitting_out=shelf))
    assert {v for _, v in places(made["a"][RIGHT]) if v < 360} == {80 - 15}


def test_a_screw_is_never_behind_a_runner():
    """FP: the runner's line at 80 lies in the way over its whole length: rim 2.5, clear 10, half a hole 2.5: 95."""
    filled = {"a": Filled((), (drawer("d", 80.0, "a"),))}
    made, _ = join(unit("a"), unit("b"), filled=filled)
    assert {v for _, v in places(made["a"][RIGHT], HoleFor.CONNECTOR) if v < 360} == {95}


def test_the_back_line_keeps_in_front_of_a_back_that_is_set_in():
    """FP: back 8 set in 60: inside depth 492; less clear 10 and half a hole 2.5."""
    made, _ = join(unit("a"), unit("b", box=Box(back_recess_mm=60.0)))
    assert {u for u, _ in places(made["b"][LEFT])} == {20, 492 - 12.5}


def test_of_unequal_neighbours_only_what_lies_on_the_other_is_joined():
    """FP: tall and base units stand on one level: the screws keep within the 720 that both have. A tall unit 600 deep
    stands 40 further out: what is 20 behind the base unit's front edge is 60 behind its own."""
    tall = unit("t", height_mm=2000.0, storey=Storey.TALL, depth_mm=600.0)
    made, _ = join(unit("a"), tall)
    assert places(made["a"][RIGHT]) == CORNERS
    assert places(made["t"][LEFT]) == [(u + 40, v) for u, v in CORNERS]


def test_wall_units_hang_with_their_undersides_in_line():
    hung = {"storey": Storey.WALL, "legs": None, "depth_mm": 320.0}
    made, _ = join(unit("a", height_mm=600.0, **hung), unit("b", height_mm=900.0, **hung))
    assert {v for _, v in places(made["a"][RIGHT])} == {v for _, v in places(made["b"][LEFT])} == {80, 600 - 80}


def test_sides_on_a_bottom_start_higher():
    """FP: the same level is 18 less up a side that stands on a bottom of 18; both lie on each other from 18 on."""
    made, _ = join(unit("a"), unit("b", box=Box(bottom=BottomFit.UNDER_SIDES)))
    assert [v for _, v in places(made["a"][RIGHT])] == [98, 98, 640, 640]
    assert [v for _, v in places(made["b"][LEFT])] == [80, 80, 622, 622]


def test_where_nothing_is_free_it_is_told_and_not_drilled():
    made, told = join(unit("a"), unit("b"), rows=[replace(CONNECTOR, clear_mm=400.0)])
    assert made["a"][RIGHT].holes == ()
    assert [one.rule for one in told] == ["hole.connector_no_place"]
    assert "the lower one on the front line" in told[0].wrong


@pytest.mark.parametrize(("board_mm", "out_mm"), [(15.0, 32 - 30), (22.0, 44 - 38)])
def test_a_screw_that_does_not_suit_both_boards_is_a_stop(board_mm, out_mm):
    box = Box(board_mm=board_mm)
    _, told = join(unit("a", box=box), unit("b", box=box))
    assert [one.rule for one in told] == ["hole.connector_boards"] and told[0].amount.mm == out_mm


def test_a_back_on_the_rear_edges_does_not_move_the_front_line():
    made, _ = join(unit("a", box=Box(back=BackIs.ON)), unit("b"))
    assert {u for u, _ in places(made["a"][RIGHT])} == {20, 552 - 60}


def test_every_screw_keeps_its_distance_from_every_hole_of_both_sides():
    """FP, held against all holes, whatever they are for."""
    filled = {
        "a": Filled((door(hung=HungOn.RIGHT, compartment="a", cups_mm=(70.0, 640.0)),), ()),
        "b": Filled((), tuple(drawer(f"d{i}", 50.0 + 170 * i, "b") for i in range(4))),
    }
    made, _ = join(unit("a"), unit("b"), filled=filled)
    for panel in (made["a"][RIGHT], made["b"][LEFT]):
        screws = [one for one in panel.holes if one.hole_for is HoleFor.CONNECTOR]
        assert len(screws) == 4
        for screw in screws:
            for other in panel.holes:
                if other.hole_for is not HoleFor.CONNECTOR:
                    apart = ((screw.u_mm - other.u_mm) ** 2 + (screw.v_mm - other.v_mm) ** 2) ** 0.5
                    assert apart - screw.diameter_mm / 2 - other.diameter_mm / 2 >= CONNECTOR.clear_mm - 1e-9
