"""End panels and posts that run to the floor: length = level of their top less what they stand on."""

import pytest
from datum_rooms import all_placed, floor_of, job_of, room_of, rules, run_of, surface, unit

from oddleg.job import CornerPost, EndPanel, SetOn, Storey
from oddleg.plan.floor_panels import floor_panels

LEVEL = floor_of(surface(lambda x, y: 0.0))


def panel(**more):
    return EndPanel("panel", "end panel", 18.0, 580.0, **more)


def made(*items, floor=LEVEL, datum_mm=875.0, **run):
    room = room_of(run_of(*items, **run))
    return floor_panels(job_of(room), all_placed(room), floor, datum_mm, {})


@pytest.mark.parametrize(("set_on", "length_mm"), [(SetOn.WHAT_IS_THERE, 875), (SetOn.FINISHED_FLOOR, 855)])
def test_a_panel_is_the_datum_less_what_it_stands_on(set_on, length_mm):
    """Trap 36, FP: D 875 over 0 with 20 of floor laid up to it afterwards: 875; with the floor laid before: 855."""
    floor = floor_of(surface(lambda x, y: 0.0), surface(lambda x, y: 20.0))
    (one,), findings = made(unit(), panel(set_on=set_on), floor=floor)
    assert [length.mm for _, length in one.edges] == [length_mm, length_mm]
    assert one.scribe.mm == 0 and findings == ()


def test_the_scribe_is_what_the_floor_falls_from_front_to_back():
    """FP: 1 mm in 100 down towards the wall: 580 deep: 5.8 longer at the back; cut to the longer."""
    (one,), _ = made(unit(), panel(), floor=floor_of(surface(lambda x, y: y / 100)))
    assert [(name, length.mm) for name, length in one.edges] == [("front", pytest.approx(869.2)), ("back", 875)]
    assert one.longest.mm == 875 and one.scribe.mm == pytest.approx(5.8)


def test_a_hollow_in_the_middle_makes_it_longer_than_both_edges():
    (one,), _ = made(unit(), panel(), floor=floor_of(surface(lambda x, y: -4.0 if 200 < y < 400 else 0.0)))
    assert one.longest.mm == 879 and one.scribe.mm == 4


def test_a_raised_run_raises_its_panels():
    (one,), _ = made(unit(), panel(), datum_offset_mm=100.0)
    assert one.longest.mm == 975


def test_a_tall_panel_ends_at_the_tall_units_top():
    """FP: 875 - 720 + 1970 = 2125."""
    tall = unit("tall", height_mm=1970.0, storey=Storey.TALL)
    (one,), _ = made(tall, panel(storey=Storey.TALL))
    assert one.longest.mm == 875 - 720 + 1970 == 2125


def test_a_tall_panel_without_a_tall_unit_is_a_finding():
    assert rules(made(unit(), panel(storey=Storey.TALL))[1]) == ["plinth.panel_unknown"]


def test_a_post_to_the_floor_is_measured_at_its_left_and_right():
    post = CornerPost("post", "post", 60.0, to_floor=True)
    (one,), _ = made(unit(), post, floor=floor_of(surface(lambda x, y: -x / 100)))
    assert [(name, length.mm) for name, length in one.edges] == [("left", 881), ("right", pytest.approx(881.6))]


def test_what_does_not_run_to_the_floor_is_left_out():
    assert made(unit(), panel(to_floor=False), CornerPost("post", "post", 60.0)) == ((), ())


def test_a_panel_over_no_known_floor_has_no_length():
    nowhere = floor_of(surface(lambda x, y: None if y > 500 else 0.0, ((0, 0),)))
    assert rules(made(unit(), panel(), floor=nowhere)[1]) == ["plinth.panel_unknown"]
