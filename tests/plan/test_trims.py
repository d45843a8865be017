"""Cornice and light rail: lengths to the long point of mitres, worked out by hand."""

import dataclasses

import pytest
from datum_rooms import job_of, room_of, rules, run_of, unit
from rod_runs import BACK, BATTEN, FRONT, WALL_UNITS, WALLS, line_of, rod_of, wall_of
from tall_rooms import made, rods_of

from oddleg.job import EndsAt, Filler, Front, FrontFit, Gap, Run, RunEnd, Storey, Trim, WallUnits
from oddleg.plan.heights import heights
from oddleg.plan.hung_ends import HungEnd
from oddleg.plan.setting_out import RunSetOut
from oddleg.plan.trims import trim_lengths
from oddleg.plan.worktop_depth import front_face_mm

FREE = WallUnits(tops_in_line=False)
CORNICE = Trim(overhang_mm=30.0)
DOOR = Front(thickness_mm=20.0)


def hung(name, width_mm=600.0, height_mm=720.0, depth_mm=320.0, **more):
    return unit(name, width_mm, height_mm=height_mm, depth_mm=depth_mm, storey=Storey.WALL, front=DOOR, **more)


def wall_unit(name, *sizes, **more):
    return dataclasses.replace(hung(name, *sizes, **more), legs=None)


def trims(room, **more):
    return {(one.run, one.what): [round(length.mm, 6) for _, length in one.pieces] for one in made(room, **more).trims}


def lengths(*items, what="cornice", trim=CORNICE, ends_mm=None, wall_units=FREE, **run):
    room = room_of(run_of(*items, **{what.replace(" ", "_"): trim}, **run), wall_units=wall_units)
    return trims(room, ends_mm=ends_mm)["run", what]


def test_a_free_stretch_is_longer_by_the_overhang_at_both_ends_and_returns_to_the_wall():
    """FP: 2 x 600 + 2 x 30 = 1260; back: void 10 + depth 320 + front 20 + overhang 30 = 380."""
    assert lengths(wall_unit("a"), wall_unit("b"), void_mm=10.0) == [1260, 380, 380]


def test_without_returns_it_ends_flush():
    assert lengths(wall_unit("a"), wall_unit("b"), trim=Trim(30.0, returns=False)) == [1200]


def test_against_a_wall_it_is_cut_square_and_covers_the_filler_there():
    """FP: from the wall at the zero over a filler of 40 and 600, plus 30 at the free end."""
    filler = Filler("f", "filler", 40.0, 20.0, 60.0, storey=Storey.WALL)
    found = lengths(filler, wall_unit("a"), left_end=RunEnd(EndsAt.WALL))
    assert found == [40 + 600 + 30, 320 + 20 + 30]


def test_a_window_parts_it():
    """FP: 600 + 60 either side, four returns."""
    gap = Gap("g", "window", 1200.0, storey=Storey.WALL)
    assert lengths(wall_unit("a"), gap, wall_unit("b")) == [660, 370, 370, 660, 370, 370]


def test_beside_a_tall_unit_it_butts_square():
    """FP: the tall unit's side is at 600, its top at 1250 in line: 600 + 30 at the free right end."""
    tall = unit("tall", height_mm=1970.0, storey=Storey.TALL)
    gap = Gap("g", "over the tall unit", 600.0, storey=Storey.WALL)
    assert lengths(tall, gap, wall_unit("a"), wall_units=WallUnits()) == [630, 370]


def test_a_light_rail_goes_round_the_lower_unit_and_butts_against_it():
    """FP: tops in line: undersides differ; the 720 unit hangs lower: its rail returns on both sides, 660; that of the
    360 one ends square against it, 600 + 30."""
    tall = unit("tall", height_mm=1970.0, storey=Storey.TALL)
    gap = Gap("g", "over the tall unit", 600.0, storey=Storey.WALL)
    away = Gap("w", "window", 900.0, storey=Storey.WALL)
    items = (tall, gap, away, wall_unit("a"), wall_unit("b", 600.0, 360.0))
    assert lengths(*items, what="light rail", wall_units=WallUnits()) == [660, 370, 370, 630, 370]
    assert lengths(*items, wall_units=WallUnits()) == [1260, 370, 370]


def test_a_deeper_unit_parts_it_and_the_shallower_butts_against_its_side():
    """FP: 600 + 60 round the one 400 deep, back 450; 600 + 30 along the other."""
    assert lengths(wall_unit("a", 600.0, 720.0, 400.0), wall_unit("b")) == [660, 450, 450, 630, 370]


def corner():
    """Two wall runs in a corner at X 3000: the first goes into it, the second begins beside its front faces (Y 340)."""
    first = run_of(wall_unit("a", 1800.0), wall_unit("b", 1200.0), name="first", cornice=CORNICE)
    second = Run("second", "Second", 3000.0, 340.0, 90.0, "side", items=(wall_unit("c", 900.0),), cornice=CORNICE)
    return room_of(first, second, wall_units=FREE)


def test_in_an_inside_corner_both_end_at_the_others_front_faces():
    """FP: faces of the second at X 3000 - 340 = 2660: the first is 2660 + 30 long; the second's starts at Y 340, the
    first's faces: 900 + 30."""
    assert trims(corner()) == {("first", "cornice"): [2690, 370], ("second", "cornice"): [930, 370]}


def test_the_corner_at_the_other_hand_gives_the_same_lengths():
    first = run_of(wall_unit("b", 1200.0), wall_unit("a", 1800.0), name="first", cornice=CORNICE)
    second = Run("second", "Second", 0.0, 340.0 + 900.0, 270.0, "side", items=(wall_unit("c", 900.0),), cornice=CORNICE)
    assert trims(room_of(first, second, wall_units=FREE)) == {
        ("first", "cornice"): [2690, 370],
        ("second", "cornice"): [930, 370],
    }


def test_a_run_that_ends_before_the_corner_is_free_there():
    """FP: 1800 of the first hang; the second's faces are at X 2660: 1800 + 60, two returns."""
    first = run_of(wall_unit("a", 1800.0), name="first", cornice=CORNICE)
    room = dataclasses.replace(corner(), runs=(first, corner().runs[1]))
    assert trims(room)["first", "cornice"] == [1860, 370, 370]


def test_a_run_down_the_other_wall_that_begins_further_on_is_no_corner():
    """FP: the second begins 1500 down the wall: the first hangs free over its whole 3000."""
    first, second = corner().runs
    room = dataclasses.replace(corner(), runs=(first, dataclasses.replace(second, y_mm=1500.0)))
    assert trims(room) == {("first", "cornice"): [3060, 370, 370], ("second", "cornice"): [960, 370, 370]}


def test_the_total_is_all_pieces_together():
    (trim,) = made(room_of(run_of(wall_unit("a"), cornice=CORNICE), wall_units=FREE)).trims
    assert trim.total.mm == 660 + 2 * 370


def test_a_trim_where_nothing_hangs_is_a_note():
    of = made(room_of(run_of(unit("a"), cornice=CORNICE)))
    assert of.trims == () and rules(of.findings) == ["tall.trim_of_nothing"]


def test_a_front_stands_out_by_its_thickness_unless_it_is_inset():
    """FP: overlay its thickness; inset nothing; a face frame its own thickness."""
    one = wall_unit("a")
    fits = {fit: Front(fit, 20.0, frame_thickness_mm=25.0) for fit in FrontFit}
    assert [front_face_mm(dataclasses.replace(one, front=fits[fit])) for fit in FrontFit] == [20, 0, 25]
    assert front_face_mm(dataclasses.replace(one, front=None)) == 0


def test_a_filler_at_a_free_end_belongs_to_it_though_nothing_is_scribed():
    """FP: 600 + 40 of filler + 30 at either end; a strip beside a unit is part of its face."""
    filler = Filler("f", "filler", 40.0, 20.0, 60.0, storey=Storey.WALL, scribed=False)
    assert lengths(wall_unit("a"), filler) == [600 + 40 + 2 * 30, 370, 370]


def test_each_end_is_told_by_its_side():
    (trim,) = made(room_of(run_of(wall_unit("a"), cornice=CORNICE), wall_units=FREE)).trims
    assert trim.pieces[0][0] == "front, along Unit a: at the left mitred for its return; at the right mitred for its return"


def test_in_a_corner_where_the_other_run_hangs_nothing_it_runs_on_to_the_plaster():
    """FP: 600 to the end mark, 22 on to the plaster, 30 at the free left end; behind what hangs on the other run the
    end is as free as its mark."""
    room = room_of(run_of(wall_unit("a"), cornice=CORNICE), wall_units=FREE)
    job = job_of(room)
    (rod,) = rods_of(room)
    rising = {(one.of, one.concerns[0]): one for one in heights(job, room, rod.placed)}

    def ends_at(hung):
        laid = dataclasses.replace(rod, hung_ends=(None, hung))
        (trim,), _ = trim_lengths(job, (laid,), rising)
        return [length.mm for _, length in trim.pieces]

    assert ends_at(HungEnd(22.0, other_hangs=False)) == [30 + 600 + 22, 370]
    assert ends_at(HungEnd(22.0, other_hangs=True)) == [660, 370, 370]


def pieces_of(rod, line=None, wall=None):
    room = room_of(rod.run, wall_units=FREE)
    job = job_of(room)
    rising = {(one.of, one.concerns[0]): one for one in heights(job, room, rod.placed)}
    runs = () if line is None else (RunSetOut(rod.run, wall, line, line, rod, None, (), ()),)
    (trim,), _ = trim_lengths(job, (rod,), rising, runs)
    return trim.pieces


def test_a_return_runs_back_to_the_wall_as_it_is_read_there():
    """FP: 320 + 20 + 30 = 370 from the line of backs, which lies at 15; the wall lies 5 behind its zero line at the
    left and 3 in front of it at the right, read at wall-unit height: 20 and 12 more. What is read lower is no matter."""
    run = run_of(wall_unit("a"), cornice=CORNICE, void_mm=15.0)
    (rod,) = rods_of(room_of(run, wall_units=FREE))
    wall = wall_of(run, face=[(0.0, WALL_UNITS, -5.0), (600.0, WALL_UNITS, 3.0), (0.0, BATTEN, -40.0)])
    found = pieces_of(rod, line_of(run, 15.0, storey=Storey.WALL), wall)
    assert [length.mm for _, length in found] == pytest.approx([660, 370 + 20, 370 + 12])
    assert all(words.endswith("cut long and fitted to the wall") for words, _ in found[1:])
    assert "void 20 as read there" in found[1][1].why


def test_a_return_where_nothing_is_read_takes_the_void_that_is_wanted():
    run = run_of(wall_unit("a"), cornice=CORNICE, void_mm=15.0)
    (rod,) = rods_of(room_of(run, wall_units=FREE))
    assert [length.mm for _, length in pieces_of(rod)] == [660, 385, 385]


def test_against_a_wall_it_reaches_the_plaster_where_that_lies_furthest_beyond_the_mark():
    """FP: 600 between the marks, 2 and 3.5 beyond them at wall-unit height; what is measured lower is no matter there,
    but the most of it is taken where nothing is measured higher."""
    run = run_of(wall_unit("a"), cornice=CORNICE, opening_mm=600.0, **WALLS)
    high = [("left", WALL_UNITS, FRONT, 2.0), ("left", WALL_UNITS, BACK, 1.0), ("right", WALL_UNITS, FRONT, 3.5)]
    low = [("left", BATTEN, FRONT, 9.0), ("right", BATTEN, FRONT, 9.0)]
    ((words, length),) = pieces_of(rod_of(run, gaps=[*high, *low]))
    assert length.mm == 600 + 2 + 3.5 and words.count("cut long and fitted to the wall") == 2
    ((_, length),) = pieces_of(rod_of(run, gaps=low))
    assert length.mm == 600 + 9 + 9
