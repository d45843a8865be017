"""Rods on lines that were laid: in the room, a run that goes into a corner ends where the other run's backs lie, and one
that begins beside the other begins where its carcass fronts are. FP: a U of three walls, 4000 across, corners at either
hand."""

from dataclasses import replace

import pytest
from rod_runs import (
    BACK,
    BATTEN,
    WALL_UNITS,
    carcass,
    edges,
    filler,
    job,
    line_of,
    room,
    room_rods,
    run,
    spans,
    wall_of,
    wall_unit,
)

from oddleg.job import Anchor, AnchorOn, EndsAt, Filler, Gap, RunEnd, Storey
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
    return {rod.run.id: rod for rod in rods(job(kept), kept, Site(), walls, lines)}


def at(rod, x_mm):
    return to_room(rod.run, x_mm, rod.run.void_mm)


def test_both_ends_of_a_u_lie_on_the_other_runs_backs():
    """4000 less the void of 15 on either side: 3970; the fillers take 370 in halves."""
    rod = rods_of({})["middle"]
    assert rod.opening.mm == pytest.approx(4000 - 2 * VOID)
    assert (at(rod, 0.0).x_mm, at(rod, rod.right_mm).x_mm) == pytest.approx((VOID, 4000 - VOID))
    assert spans(rod)["m"] == pytest.approx(((3970 - 3600) / 2, (3970 + 3600) / 2))


def test_an_unscribed_filler_behind_the_units_of_the_other_run_is_a_space():
    left, middle, right = u_of_runs()
    space = Filler("fr", "space", 100.0, 20.0, 300.0, scribed=False)
    kept = room(left, replace(middle, items=(*middle.items[:2], space)), right)
    found = {rod.run.id: rod for rod in rods(job(kept), kept, Site(), (), front_lines(job(kept), kept, (), ()))}
    one = found["middle"].fillers[1]
    assert (one.cut_words, one.cut_from) == ("stays open", None)
    assert one.words == "space: a space behind right, not scribed: nothing is cut for it."
    assert found["middle"].fillers[0].cut_words == "cut from"


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


HUNG = {"storey": Storey.WALL}


def hung_row(*row, others=(), other_hung_mm=22.0, face=(), **more):
    """A 4000 run into the corner of another, whose backs lie 22 from its wall: the end mark is 3978. `others`: what
    hangs on the other run; `other_hung_mm`: its line of backs for that; `face`: (y down its wall, how far that stands
    out at wall-unit height)."""
    one = run(
        carcass("a"), *row, id="a-run", left_end=RunEnd(EndsAt.WALL), right_end=RunEnd(EndsAt.OTHER_BACKS, "b-run"),
        opening_mm=4000.0, **more,
    )  # fmt: skip
    other = replace(run(carcass("b"), *others, id="b-run"), x_mm=4000.0, bearing_deg=90.0)
    lines = {"b-run": (line_of(other, back_mm=22.0), line_of(other, back_mm=other_hung_mm, storey=Storey.WALL))}
    flat = [(0.0, BATTEN, 0.0), (600.0, BATTEN, 0.0)]
    walls = (wall_of(one), wall_of(other, face=[*flat, *((y, WALL_UNITS, out) for y, out in face)]))
    return room_rods(one, other, walls=walls, lines=lines, scribe_mm=5.0)[0]


def to_the_wall(**more):
    return Filler("f", "f", 50.0, 20.0, 100.0, **HUNG, **more)


def test_a_filler_of_what_hangs_reaches_the_plaster_where_the_other_run_hangs_nothing():
    """3978 - 3930 = 48 up to the mark; the wall stands 4 back at wall-unit height: 48 + 22 + 4 = 74 shows, and is cut
    from 74 + 5 to scribe. A gap for a window hangs nothing either."""
    row = (wall_unit("high", 3930.0), to_the_wall())
    for others in ((), (Gap("w", "window", 900.0, **HUNG),), (Gap("w", "w", 900.0, **HUNG), wall_unit("far"))):
        rod = hung_row(*row, others=others, face=[(0.0, -4.0), (600.0, -4.0)])
        (found,) = rod.fillers
        assert spans(rod)["f"] == pytest.approx((3930.0, 3978.0)) and edges(rod, "wall")[-1] == pytest.approx(3978.0)
        assert (found.width.mm, found.narrow.mm, found.wide.mm, found.cut_from.mm) == pytest.approx((48, 74, 74, 79))


def test_its_limits_are_for_what_shows_up_to_the_plaster():
    """It may show 100: 78 up to the mark and 22 beyond it; 3978 - 3880 = 98 are there, so that 20 stay open."""
    rod = hung_row(wall_unit("high", 3880.0), to_the_wall(), face=[(0.0, 0.0), (600.0, 0.0)])
    assert spans(rod)["f"] == pytest.approx((3880.0, 3958.0))
    # What stands leaves 3978 - 600 as well.
    assert [one.amount.mm for one in rod.findings if one.rule == "rod.left_over"] == pytest.approx([3378.0, 20.0])


def test_behind_what_hangs_on_the_other_run_it_ends_at_that_ones_backs():
    """Their line of backs lies 9 further out than that of what stands: 3978 - 9; the plaster is of no account."""
    others = (wall_unit("beside"),)
    rod = hung_row(wall_unit("high", 3930.0), to_the_wall(), others=others, other_hung_mm=31.0, face=[(0.0, -4.0)])
    assert spans(rod)["f"] == pytest.approx((3930.0, 3969.0))
    assert rod.fillers[0].wide.mm == pytest.approx(39.0)
    assert rod.end_words[-1].endswith(" What hangs ends 9 before it, on the line of backs of what hangs on b-run.")
    further_back = hung_row(wall_unit("high", 3930.0), to_the_wall(), others=others, other_hung_mm=15.0)
    assert spans(further_back)["f"][1] == pytest.approx(3978.0)


def test_plaster_that_stands_out_past_the_mark_up_there_ends_what_hangs():
    """30 out at wall-unit height, the backs at 22: what hangs ends 8 before the mark, what stands at it."""
    rod = hung_row(wall_unit("high", 900.0), face=[(0.0, 30.0), (600.0, 30.0)], wall_anchor=Anchor(AnchorOn.RIGHT_END))
    assert spans(rod)["high"] == pytest.approx((4000 - 30 - 900, 4000 - 30)) and rod.right_mm == pytest.approx(3978)
    assert "Wall units: it ends 8 before the end mark." in rod.anchor_words


def test_the_corner_at_the_other_hand_gives_the_same_filler():
    """The zero lies on the left run's backs, 22 from the plaster: 38 beside the mark show 60."""
    left = run(carcass("l"), id="left", x_mm=0.0, y_mm=2400.0)
    left = replace(left, bearing_deg=270.0, opening_mm=2400.0)
    one = run(
        to_the_wall(), wall_unit("high", 900.0), id="one", x_mm=22.0, left_end=RunEnd(EndsAt.OTHER_BACKS, "left"),
        wall_anchor=Anchor(AnchorOn.MARK, item="high", item_edge="left", x_mm=38.0),
    )  # fmt: skip
    lines = {"left": (line_of(left, back_mm=22.0), None)}
    rod = next(rod for rod in room_rods(one, left, walls=(wall_of(one), wall_of(left)), lines=lines) if rod.run.id == "one")
    assert spans(rod)["f"] == pytest.approx((0.0, 38.0))
    assert rod.fillers[0].wide.mm == pytest.approx(60.0)
