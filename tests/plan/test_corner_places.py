"""Corners of a room that is measured otherwise than it is drawn: what is cut to another run's place is cut to the rod's.
Figures are arithmetic from openings, voids, depths and recesses."""

from dataclasses import replace

import corner_rooms as here
import pytest

from oddleg.job import EndsAt, Legs, OpeningDepth, OpeningWidth, RunEnd, WallHeight
from oddleg.plan.axes import to_room, to_run
from oddleg.plan.corner_arms import crossed_at
from oddleg.plan.plinth_layout import EndKind, plinth_lines

RECESS, BACK, FACE = 50.0, OpeningDepth.BACK, here.VOID + here.DEEP - 50.0


def measured(of_room, *openings):
    return here.plan_of(of_room, *(OpeningWidth(run, WallHeight.BATTEN, BACK, mm) for run, mm in openings)).rooms[0]


def in_a_corner(left_hand):
    """Along the window wall 3900 of units from the far end, going into the corner; down the side wall 1500."""
    legs = Legs(100.0, 170.0)
    window = (here.unit("a", 2900.0, legs=legs), here.unit("blind", 1000.0, legs=legs))
    of_room = here.room(*here.runs(window, (here.post(70.0), here.unit("b", 1500.0, legs=legs))))
    of_room = replace(of_room, runs=(replace(of_room.runs[0], anchor=None), of_room.runs[1]))
    return here.mirrored(of_room) if left_hand else of_room


@pytest.mark.parametrize("left_hand", [False, True])
@pytest.mark.parametrize("wide_mm", [3985.0, 4000.0, 4012.0])
def test_a_plinth_ends_at_the_face_of_the_other_where_the_rod_has_it(wide_mm, left_hand):
    """From the far end's mark to the line of backs is the width less the void 15; the side's face lies 560 - 50 before it."""
    of_room = in_a_corner(left_hand)
    found = measured(of_room, ("window", wide_mm))
    along = next(one for one in plinth_lines(here.job(of_room), of_room, found.placed) if one.run.id == "window")
    rod = found.setting_out.runs[0].rod
    into = not left_hand
    far_mm = rod.left_mm if into else rod.right_mm
    assert abs(along.end_mm(into) - far_mm) == pytest.approx(wide_mm - here.VOID - here.DEEP + RECESS)
    assert along.end(into).kind is EndKind.BUTTS


def test_runs_lie_in_the_room_as_the_rods_say():
    """The side's line of backs passes through the window run's end mark, its zero stays at the window's fronts."""
    found = measured(in_a_corner(False), ("window", 3985.0)).setting_out
    window, side = (one.rod for one in found.runs)
    at = to_run(side.run, to_room(window.run, 3985.0 - here.VOID, window.run.void_mm))
    assert at == pytest.approx((-here.DEEP, here.VOID))
    assert side.run == found.runs[1].line.set_out == side.placed[0].run


def ring(north, east, south, west):
    """Four runs round a room drawn 4000 square, each from the fronts of the one before into the corner behind it."""
    corners = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 4000.0), (0.0, 4000.0))
    names = ("north", "east", "south", "west")
    runs = [
        replace(
            here.runs((here.unit(f"{name}-unit", 600.0),), ())[0], id=name, name=name, anchor=None, x_mm=x, y_mm=y, bearing_deg=90.0 * n,
            left_end=RunEnd(EndsAt.OTHER_FRONTS, names[n - 1]), right_end=RunEnd(EndsAt.OTHER_BACKS, names[(n + 1) % 4]),
        )
        for n, (name, (x, y)) in enumerate(zip(names, corners, strict=True))
    ]  # fmt: skip
    return measured(here.room(*runs), *zip(names, (north, east, south, west), strict=True)).setting_out


def told(found):
    return [one for one in found.findings if one.rule == "rod.ring"]


def test_a_ring_whose_opposite_openings_agree_closes_where_it_is_measured():
    found = ring(3990.0, 4010.0, 3990.0, 4010.0)
    assert told(found) == []
    rods = [one.rod for one in found.runs]
    for n, rod in enumerate(rods):
        for other, side in ((rods[(n + 1) % 4], "right"), (rods[n - 1], "left")):
            by_marks, in_room = crossed_at(rod, other, side)
            assert in_room == pytest.approx(by_marks)


def test_opposite_openings_of_a_ring_that_differ_are_a_warning_of_how_much():
    """North and south lie between the same two lines of backs: 3990 and 3980 are 10 apart."""
    (one,) = told(ring(3990.0, 4000.0, 3980.0, 4000.0))
    assert one.amount.mm == pytest.approx(10.0)
    assert "north" in one.wrong and "south" in one.wrong
