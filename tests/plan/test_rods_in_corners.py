"""Rods on lines that were laid: in the room, a run that goes into a corner ends where the other run's backs lie, and one
that begins beside the other begins where its carcass fronts are. FP: a U of three walls, 4000 across, corners at either
hand."""

from dataclasses import replace

import pytest
from rod_runs import BACK, BATTEN, carcass, filler, job, room, run, spans, wall_of

from oddleg.job import EndsAt, RunEnd
from oddleg.plan.axes import to_room
from oddleg.plan.front_lines import front_lines
from oddleg.plan.rods import rods
from oddleg.plan.site import Site

VOID, DEPTH = 15.0, 560.0


def u_of_runs():
    """Left run up the left wall, middle run along the top into both corners, right run down the right wall."""
    into = {"left_end": RunEnd(EndsAt.OTHER_BACKS, "left"), "right_end": RunEnd(EndsAt.OTHER_BACKS, "right")}
    middle = run(filler("fl", greatest_mm=300.0), carcass("m", 3600.0), filler("fr", greatest_mm=300.0), id="middle", x_mm=VOID, void_mm=VOID, opening_mm=4000.0, **into)
    beside = VOID + DEPTH
    left = run(
        carcass("l", 1800.0), filler("gap-left", greatest_mm=700.0), id="left", x_mm=0.0, y_mm=2400.0, void_mm=VOID,
        left_end=RunEnd(EndsAt.OPEN), right_end=RunEnd(EndsAt.OTHER_FRONTS, "middle"), opening_mm=2400.0,
    )  # fmt: skip
    right = run(
        carcass("r", 1800.0), id="right", x_mm=4000.0, y_mm=beside, void_mm=VOID,
        left_end=RunEnd(EndsAt.OTHER_FRONTS, "middle"), right_end=RunEnd(EndsAt.OPEN),
    )  # fmt: skip
    return replace(left, bearing_deg=270.0), middle, replace(right, bearing_deg=90.0)


def rods_of(faces, openings=()):
    """`faces`: what was read of each wall at batten height, run id to (x, y)."""
    runs = u_of_runs()
    kept = room(*runs)
    walls = tuple(
        wall_of(one, [(BATTEN, BACK, mm) for of, mm in openings if of == one.id], face=[(x, BATTEN, y) for x, y in faces.get(one.id, ())])
        for one in runs
    )  # fmt: skip
    lines = front_lines(job(kept), kept, walls, ())
    return {rod.run.id: rod for rod in rods(job(kept), kept, Site(), walls, lines, ())}


def at(rod, x_mm):
    return to_room(rod.run, x_mm, rod.run.void_mm)


def test_both_ends_of_a_u_lie_on_the_other_runs_backs():
    """4000 less the void of 15 on either side: 3970; the fillers take 370 in halves."""
    rod = rods_of({})["middle"]
    assert rod.opening.mm == pytest.approx(4000 - 2 * VOID)
    assert (at(rod, 0.0).x_mm, at(rod, rod.right_mm).x_mm) == pytest.approx((VOID, 4000 - VOID))
    assert spans(rod)["m"] == pytest.approx(((3970 - 3600) / 2, (3970 + 3600) / 2))


def test_runs_beside_it_begin_and_end_at_its_carcass_fronts():
    """In the room its fronts lie 15 + 560 from the top wall; the left run has 2400 less that."""
    found = rods_of({})
    assert at(found["right"], 0.0).y_mm == pytest.approx(VOID + DEPTH)
    assert found["left"].opening.mm == pytest.approx(2400 - VOID - DEPTH)
    assert at(found["left"], found["left"].right_mm).y_mm == pytest.approx(VOID + DEPTH)


def test_undulating_walls_take_run_length_at_either_hand():
    """Trap 25. The right wall bulges by 7 at its middle: its straight line of backs comes to 15 + 7 = 22, flat in the
    corner: 22 of the opening. The left wall's line stays at 15 and the zero lies on it."""
    bulge = [(0.0, 0.0), (900.0, 7.0), (1800.0, 0.0)]
    flat = [(0.0, 0.0), (1800.0, 0.0)]
    found = rods_of({"right": bulge, "left": flat, "middle": [(0.0, 0.0), (4000.0, 0.0)]}, [("middle", 4000.0)])
    middle, right = found["middle"], found["right"]
    assert middle.opening.mm == pytest.approx(4000 - 22 - VOID)
    assert at(middle, 0.0).x_mm == pytest.approx(VOID)
    assert at(middle, middle.right_mm).x_mm == pytest.approx(4000 - 22) == pytest.approx(at(right, 900.0).x_mm)
