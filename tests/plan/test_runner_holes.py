"""Screws of drawer runners on both sides of a compartment. FP: first principles; CP: common practice."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from panel_boxes import LEFT, RIGHT, RUNNER, Filled, box, drawer, drilled, known, part, places
from sample_room import carcass, job, room, run

from oddleg.job import BottomFit, Box
from oddleg.plan.fitted_out import Face
from oddleg.plan.panels import panels


def test_a_numeric_mirror_drills_at_523():
    """FP: depth 560, first hole 37 behind the front edge on both sides; 560 - 37 = 523 is the back edge's 37."""
    made = drilled(box(), drawers=[drawer()])
    for id in (LEFT, RIGHT):
        assert [u for u, _ in places(made[id])] == [37, 37 + 224, 37 + 256]
    assert 560 - 37 not in [u for u, _ in places(made[RIGHT])]
    assert places(made[LEFT]) == places(made[RIGHT])
    assert made[LEFT].mirrored is not made[RIGHT].mirrored


def test_an_inset_front_takes_the_first_screw_to_57():
    """CP: 37 is for overlay fronts; inset front 18, set back 2: 37 + 18 + 2 = 57, which the drawer brings with it."""
    made = drilled(box(), drawers=[drawer(first_mm=37.0 + 18 + 2)])
    assert places(made[LEFT])[0][0] == 57


def test_the_height_counts_from_the_sides_lower_edge():
    """FP: line 60 over the carcass's underside; over a bottom of 18 under the sides that is 42 up the side."""
    assert places(drilled(box(), drawers=[drawer(line_mm=60.0)])[LEFT])[0][1] == 60
    under = box(box=Box(bottom=BottomFit.UNDER_SIDES))
    assert places(drilled(under, drawers=[drawer(line_mm=60.0)])[LEFT])[0][1] == 60 - 18


def test_a_divider_serves_both_compartments_each_from_its_own_face():
    made = drilled(
        box(part("a"), part("b")),
        drawers=[drawer("left", 60.0, "a"), drawer("right", 100.0, "b")],
    )
    divider = made["divider-1"]
    # It stands on the bottom of 18, and looks left: it is the right flank of the left compartment.
    assert places(divider, face=Face.SHOWN)[0] == (37, 60 - 18)
    assert places(divider, face=Face.OTHER)[0] == (37, 100 - 18)
    assert places(made[LEFT])[0] == (37, 60)
    assert places(made[RIGHT])[0] == (37, 100)


def test_the_words_say_which_runner_which_drawer_which_screw():
    hole = drilled(box(), drawers=[drawer("drawer 2")])[LEFT].holes[1]
    assert hole.words == "runner 500, drawer 2, second screw"


def test_a_runner_on_a_spacer_is_drilled_in_the_same_place_and_says_so():
    made = drilled(box(), drawers=[drawer(spacer_mm=30.0)])
    assert places(made[LEFT]) == places(drilled(box(), drawers=[drawer()])[LEFT])
    assert "on its spacer 30 thick" in made[LEFT].holes[0].words


def test_a_hole_keeps_its_id_when_another_drawer_comes_in():
    one = {hole.id for hole in drilled(box(), drawers=[drawer("b", 300.0)])[LEFT].holes}
    two = {hole.id for hole in drilled(box(), drawers=[drawer("a", 60.0), drawer("b", 300.0)])[LEFT].holes}
    assert one < two


def test_a_runner_that_no_chart_has_drills_nothing():
    assert drilled(box(), drawers=[drawer(runner="other")])[LEFT].holes == ()


@settings(derandomize=True, deadline=None, max_examples=50)
@given(
    st.floats(250, 700), st.floats(300, 2200), st.floats(20, 280), st.floats(10, 80), st.sampled_from(BottomFit),
)  # fmt: skip
def test_left_and_right_tables_are_equal_and_their_drawings_mirror(depth_mm, height_mm, line_mm, first_mm, bottom):
    made = drilled(
        box(depth_mm=depth_mm, height_mm=height_mm, box=Box(bottom=bottom)),
        drawers=[drawer("d1", line_mm, first_mm=first_mm)],
        rows=[replace(RUNNER, screws_mm=(0.0, 128.0))],
    )
    left, right = made[LEFT], made[RIGHT]
    assert [replace(one, id="") for one in left.holes] == [replace(one, id="") for one in right.holes]
    assert left.mirrored is not right.mirrored
    # FP: laid side by side as they are drawn, the holes of one are the other's seen in a mirror between them.
    assert all(
        abs((left.width_mm - a.u_mm if left.mirrored else a.u_mm) + (right.width_mm - b.u_mm if right.mirrored else b.u_mm)
        - left.width_mm) < 1e-9
        for a, b in zip(left.holes, right.holes, strict=True)
    )  # fmt: skip


@settings(derandomize=True, deadline=None, max_examples=50)
@given(st.lists(st.floats(0, 400), min_size=2, max_size=4))
def test_shifting_the_carcass_in_its_run_shifts_nothing_in_its_panels(widths):
    """FP: panels are told in their own axes; what stands to the left of a carcass does not come into them."""
    here = box(part("a"), part("b"))
    filled = Filled((), (drawer("d", 60.0, "b"),))
    alone = panels(job(room(run(here.item))), here, known(), filled, (), ())
    others = [carcass(f"c{i}", 200.0 + width) for i, width in enumerate(widths)]
    among = panels(job(room(run(*others, here.item, x_mm=sum(widths)))), here, known(), filled, (), ())
    assert alone == among
