"""In a corner a run's zero moves to the other run's line of backs: what follows is that of the same run drawn from there.

One room told twice. `from_the_corner`: the side run is drawn from the corner of the walls, and the window run's backs, 40
off their wall, move its zero by 40. `from_the_zero`: it is drawn from where its zero comes to lie, its places 40 less.
"""

from dataclasses import replace

import pytest
import sample_room as sample

from oddleg.charts import charts
from oddleg.job import (
    Anchor,
    AnchorOn,
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    Batten,
    BattenIn,
    Box,
    DatumDecision,
    Edge,
    EndPanel,
    EndsAt,
    Entry,
    Feature,
    FeatureKind,
    Filler,
    Front,
    LineUp,
    RunEnd,
    WallHeight,
    WallLine,
    WallReading,
)
from oddleg.plan import plan
from oddleg.plan.wall_stations import wall_station_id

MOVED_MM = 40.0
FRONT = Front()
MACHINE = Appliance("machine", "machine", ApplianceSeat.UNDER_TOP, 820.0, least_depth_mm=585.0)


def row(recess_mm):
    box = Box(back_recess_mm=recess_mm)
    units = [sample.carcass(f"unit-{n}", 600.0, front=FRONT, box=box) for n in (1, 2, 3)]
    bay = ApplianceBay("bay", "bay", 600.0, 560.0, MACHINE)
    return (EndPanel("panel", "panel", 18.0, 580.0, 1.5), units[0], bay, *units[1:], Filler("strip", "strip", 50.0, 20.0, 400.0))


def features(x0_mm):
    """Places as they lie from the rod's zero, and what they are."""
    return (
        Feature("socket", "socket", FeatureKind.ELECTRIC, x0_mm + 1480, x0_mm + 1560, 1000.0, 1080.0),
        Feature("pier", "pier", FeatureKind.OTHER, x0_mm + 200, x0_mm + 300, 800.0, 900.0, 12.0),
        Feature("door", "back door", FeatureKind.DOOR, x0_mm + 2500, x0_mm + 3300),
        Feature("left-door", "cellar door", FeatureKind.DOOR, x0_mm - 900, x0_mm - 10),
        Feature("trap", "low pipe", FeatureKind.OTHER, x0_mm + 700, x0_mm + 760, 0.0, 300.0, 45.0),
    )


def told(from_the_corner, supports=(), lies_in=BattenIn.VOID, recess_mm=0.0):
    x0_mm = MOVED_MM if from_the_corner else 0.0
    window = sample.run(*[sample.carcass(f"window-{n}", 600.0) for n in (1, 2)], id="window", void_mm=MOVED_MM)
    window = replace(window, right_end=RunEnd(EndsAt.OTHER_FRONTS, "side") if from_the_corner else RunEnd())
    side = sample.run(
        *row(recess_mm), id="side", x_mm=3000.0, y_mm=0.0 if from_the_corner else MOVED_MM, void_mm=20.0, features=features(x0_mm),
        left_end=RunEnd(EndsAt.OTHER_BACKS, "window") if from_the_corner else RunEnd(EndsAt.WALL), right_end=RunEnd(EndsAt.WALL),
        opening_mm=x0_mm + 2600.0, anchor=Anchor(AnchorOn.MARK, x_mm=x0_mm + 1519.5, item="bay", item_edge=Edge.RIGHT, item_offset_mm=300.0),
        batten=Batten(thickness_mm=15.0, lies_in=lies_in, supports_mm=tuple(x0_mm + x for x in supports)),
        line_up=(LineUp("unit-1", Edge.RIGHT, "socket", Edge.LEFT),),
    )  # fmt: skip
    side = replace(side, bearing_deg=90.0)
    # Alike to the left and to the right of its middle, so that the line of backs stays parallel to it.
    out = {0: 0.0, 100: 4.0, 700: -3.0, 1300: -2.5, 1900: -3.0, 2500: 4.0, 2600: 0.0}
    bodies = [WallLine("string", "string", "side", stands_off_mm=100.0), DatumDecision("room", "own", 875.0, "")]
    for x, out_mm in out.items():
        for height, more in ((WallHeight.FLOOR, -2.0), (WallHeight.BATTEN, 0.0), (WallHeight.WORKTOP, -1.0)):
            place = wall_station_id(side, x0_mm + x)
            bodies.append(WallReading("string", place, height, 100.0 - out_mm - more, f"spot {x}", x0_mm + x))
    room = sample.room(window, side)
    made = plan(sample.job(room), [Entry(f"e{n:03}", n, "Ned", "", body) for n, body in enumerate(bodies, 1)], charts())
    return made.rooms[0].setting_out.runs[1]


def shown(one):
    """Everything that the two tellings share, in the axes of the rod."""
    batten = one.batten
    return {
        "marks": [(mark.id, mark.from_left.text, mark.from_anchor.text, mark.from_right.text) for mark in one.rod.marks],
        "offsets": [(offset.words, offset.offset.text) for offset in one.rod.offsets],
        "fillers": [(filler.item, filler.width.text) for filler in one.rod.fillers],
        "fixings": [(fixing.at.text, fixing.void and fixing.void.text, fixing.packing and fixing.packing.text, fixing.packs, fixing.on, fixing.zone) for fixing in batten.fixings],
        "pieces": [(piece.left.text, piece.right.text) for piece in batten.pieces],
        "cut out": [(left.text, right.text, left.why) for left, right in batten.cut_outs],
        "least": (batten.least.text, batten.least_at.text),
        "scribes": [(scribe.cut_depth.text, [(words, off.text) for words, off in scribe.scribe]) for scribe in one.scribes],
        "void": (one.line.least_void.text, one.line.greatest_void.text, one.line.depth_needed.text),
        "told": sorted((finding.rule, finding.wrong, finding.cure) for finding in (*batten.findings, *one.behind)),
    }  # fmt: skip


@pytest.mark.parametrize(
    "changed",
    [{}, {"supports": (150.0, 400.0, 700.0, 1530.0, 1790.0, 2300.0)}, {"lies_in": BattenIn.RECESS, "recess_mm": 25.0}],
    ids=["in the void", "on studs", "in the recess"],
)
def test_a_zero_that_moved_changes_nothing_that_is_counted_from_it(changed):
    corner, zero = told(True, **changed), told(False, **changed)
    assert corner.line.zero_mm == pytest.approx(MOVED_MM) and zero.line.zero_mm == pytest.approx(0.0)
    one, other = shown(corner), shown(zero)
    for name in one:
        assert one[name] == other[name], name
    assert {"batten.opening", "front_line.stands_out"} <= {rule for rule, _, _ in one["told"]}


def test_what_is_counted_from_it_is_where_it_was_measured():
    """FP: panel 19.5, unit 600, bay 600, 600 and 600: to 2419.5; the strip takes 2600 - 2419.5. Void 20 over the wall's 4."""
    found = shown(told(True))
    at = {id: left for id, left, _, _ in found["marks"]}
    assert (at["unit-1-left"], at["bay-left"], at["unit-2-left"], at["strip-left"], at["end"]) == ("19.5", "619.5", "1219.5", "2419.5", "2600")
    assert found["fillers"] == [("strip", "180.5")]
    assert found["offsets"] == [("right edge of unit-1 to left edge of socket", "−860.5")]
    assert found["void"][0] == "20"
    assert found["pieces"][-1][1] == "2500", "up to the door"


def test_an_end_panel_is_scribed_to_the_wall_at_its_own_middle():
    """FP: at 9.75 the wall stands out 4 x 9.75 / 100 at batten height, 1 less at the worktop, 2 less at the floor; backs at
    24: the deepest void is 24 + 2 - 0.39, at the floor."""
    (scribe,) = told(True).scribes
    assert scribe.cut_depth.mm == pytest.approx(580 + 24 + 2 - 0.39)
    assert [round(off.mm, 6) for _, off in scribe.scribe] == [0, 2, 1]


def test_a_bay_is_held_against_the_wall_behind_it():
    """FP: the wall stands out most at the bay's left edge, 619.5: from 4 at 100 to -3 at 700; void 24 less that, bay 560,
    the front of 20 beside it."""
    one = told(True)
    face_mm = 4 - (4 + 3) * (619.5 - 100) / (700 - 100)
    (cut,) = [finding for finding in one.behind if finding.rule == "batten.cut_at_bay"]
    assert 24 - face_mm == pytest.approx(26.06, abs=0.005), "26 to the half mm"
    assert "there would be 580 (void 26 + bay 560 + front 20 = 606 without it)" in cut.wrong


def test_a_door_left_of_the_units_is_not_in_the_battens_way():
    assert [finding.concerns[-1] for finding in told(True).batten.findings if finding.rule == "batten.opening"] == ["door"]
