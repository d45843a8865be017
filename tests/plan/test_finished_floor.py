import numpy as np
import pytest

from oddleg.job import (
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    BreakLine,
    Carcass,
    Job,
    Layer,
    Manner,
    OldCovering,
    Point,
    Room,
    Run,
    Stage,
    Station,
    Worktop,
)
from oddleg.plan.finding import Severity
from oddleg.plan.finished_floor import floor
from oddleg.plan.levels import Levels, StationLevel

# One run along y = 0: a carcass from 0 to 600, a bay from 600 to 1200; 560 deep, plinth line at 510.
MACHINE = Appliance("machine", "machine", ApplianceSeat.UNDER_TOP, 820.0)
RUN = Run(
    "run",
    "Sink run",
    0,
    0,
    0,
    items=(Carcass("unit", "Unit 1", 600, 720, 560), ApplianceBay("bay", "the machine's bay", 600, 560, MACHINE)),
)
UNDER, IN_BAY, OPEN = (300, 100), (900, 100), (300, 1200)
TILE = Layer("tile", "tile", Manner.FOLLOWS, 20.0, Stage.TILED)
SCREED = Layer("screed", "levelling", Manner.LEVELS, 3.0, Stage.LEVELLED)


def floors(*reads, layers=(), old=(), steps=(), lines=(), spread=0.0, open_stations=(), surface="floor"):
    """`reads`: (id, (x, y), stage, level); a station may come more than once."""
    stations = {one: Station(one, f"Station {one}", *place, surface=surface) for one, place, _, _ in reads}
    read = tuple(StationLevel(one, stage, level, 0.5, (), ()) for one, _, stage, level in reads)
    covariance = np.eye(len(read)) * spread
    levels = Levels(read, (), (), covariance, None, 0.5, False, open_stations, ())
    room = Room(
        "room", "Hall kitchen", "corner", (), Worktop(30), (), layers=layers, old_coverings=old, break_lines=steps,
        runs=(RUN,),
    )  # fmt: skip
    job = Job("job", "Job", "Hall", "client", "Europe/London", 720, (), (), (room,))
    return floor(job, room, list(stations.values()), lines, levels)


def at(surface, place):
    held = surface.at(*place)
    return None if held is None else held.level_mm


def rules(found):
    return [one.rule for one in found.findings]


def test_without_layers_all_floors_are_as_read():
    found = floors(("a", UNDER, Stage.AS_FOUND, -4.0))
    for surface in (found.as_read, found.under_legs, found.finished, found.bays["bay"]):
        assert at(surface, UNDER) == -4.0
    assert found.findings == ()


def test_nothing_read_is_a_stop_and_every_surface_says_nothing():
    found = floors()
    assert [(one.rule, one.severity) for one in found.findings] == [("floor.no_levels", Severity.STOP)]
    assert at(found.finished, OPEN) is None
    assert at(found.bays["bay"], OPEN) is None


def test_what_is_overhead_is_no_floor():
    assert rules(floors(("a", OPEN, Stage.AS_FOUND, 2400.0), surface="overhead")) == ["floor.no_levels"]


def test_a_tile_is_not_counted_twice_when_it_was_read_on():
    # Trap: surveyed on screed at 0, tiled with 20, read again on tile at +20: D would come out 20 too high.
    found = floors(
        ("a", UNDER, Stage.LEVELLED, 0.0),
        ("a", UNDER, Stage.TILED, 20.0),
        ("b", (500, 100), Stage.LEVELLED, 0.0),
        layers=(TILE,),
    )
    assert at(found.as_read, UNDER) == 20
    assert at(found.finished, UNDER) == 20
    assert at(found.finished, (500, 100)) == 0 + 20
    assert at(found.under_legs, (500, 100)) == 0 + 20
    assert found.findings == ()


def test_a_tile_that_stops_in_front_is_taken_off_for_the_legs():
    stops = Layer("tile", "tile", Manner.FOLLOWS, 20.0, Stage.TILED, under_units=False)
    found = floors(("a", OPEN, Stage.TILED, 20.0), ("b", UNDER, Stage.TILED, 1.0), layers=(stops,))
    assert at(found.under_legs, OPEN) == 20 - 20
    assert at(found.finished, OPEN) == 20
    assert at(found.under_legs, UNDER) == 1
    assert at(found.finished, UNDER) == 1 + 20


def test_a_levelling_layer_is_a_plane():
    # Trap: floor 0 to -14, least 3: +3 everywhere, 17 thick at the low end.
    found = floors(
        ("a", UNDER, Stage.STRIPPED, 0.0),
        ("b", IN_BAY, Stage.STRIPPED, -7.0),
        ("c", OPEN, Stage.STRIPPED, -14.0),
        layers=(SCREED,),
    )
    for place in (UNDER, IN_BAY, OPEN):
        assert at(found.under_legs, place) == at(found.finished, place) == at(found.bays["bay"], place) == 0 + 3
    assert at(found.as_read, OPEN) == -14


def test_tile_on_a_levelling_layer_on_boards_goes_up_in_order():
    boards = Layer("boards", "boards", Manner.FOLLOWS, 9.0, Stage.STRIPPED)
    found = floors(("a", UNDER, Stage.AS_FOUND, 0.0), ("b", OPEN, Stage.AS_FOUND, -14.0), layers=(boards, SCREED, TILE))
    assert at(found.finished, OPEN) == 0 + 9 + 3 + 20


def test_a_levelling_layer_in_front_only_takes_the_high_spot_where_it_lies():
    front = Layer("screed", "levelling", Manner.LEVELS, 3.0, Stage.LEVELLED, under_units=False, bays=())
    found = floors(("a", UNDER, Stage.STRIPPED, 6.0), ("b", OPEN, Stage.STRIPPED, -2.0), layers=(front,))
    assert at(found.under_legs, UNDER) == 6
    assert at(found.finished, OPEN) == -2 + 3
    assert at(found.finished, UNDER) == -2 + 3
    assert at(found.bays["bay"], UNDER) == 6


def test_without_a_station_where_it_lies_a_levelling_layer_goes_by_all_and_says_so():
    front = Layer("screed", "levelling", Manner.LEVELS, 3.0, Stage.LEVELLED, under_units=False, bays=())
    found = floors(("a", UNDER, Stage.STRIPPED, 6.0), layers=(front,))
    assert at(found.finished, UNDER) == 6 + 3
    assert rules(found) == ["floor.no_station_where_it_lies"]


def test_a_levelling_layer_that_is_in_counts_where_it_was_read():
    found = floors(
        ("a", UNDER, Stage.STRIPPED, 0.0),
        ("a", UNDER, Stage.LEVELLED, 4.0),
        ("b", OPEN, Stage.LEVELLED, 5.0),
        ("c", (0, 1200), Stage.STRIPPED, -14.0),
        layers=(SCREED, TILE),
    )
    assert at(found.finished, UNDER) == 4 + 20
    assert at(found.finished, OPEN) == 5 + 20
    # Not read again: in the plane of the two that were.
    assert at(found.finished, (0, 1200)) == pytest.approx((4 + 5) / 2 + 20)
    assert rules(found) == ["floor.plane_read_elsewhere"]
    assert "Station c" in found.findings[0].wrong


def test_a_levelling_layer_that_is_in_cannot_be_taken_off_again():
    front = Layer("screed", "levelling", Manner.LEVELS, 3.0, Stage.LEVELLED, under_units=False, bays=())
    found = floors(("a", OPEN, Stage.LEVELLED, 3.0), ("b", UNDER, Stage.LEVELLED, 0.0), layers=(front,))
    assert {spot.id for spot in found.under_legs.spots} == {"b"}
    assert {spot.id for spot in found.bays["bay"].spots} == {"b"}
    assert {spot.id for spot in found.finished.spots} == {"a", "b"}
    (said,) = found.findings
    assert (said.rule, said.severity) == ("floor.not_serving", Severity.WARN)
    assert "a" in said.concerns
    assert "what legs stand on and the floor in the machine's bay" in said.wrong


def test_three_floors_under_one_unit():
    # Trap: subfloor 0, 20 of boards that stop at the front legs: legs 155 from 0, plinth 135 from +20, at an underside of 155.
    boards = Layer("boards", "boards", Manner.FOLLOWS, 20.0, Stage.TILED, under_units=False)
    found = floors(("a", UNDER, Stage.LEVELLED, 0.0), layers=(boards,))
    underside = 155
    assert underside - at(found.under_legs, UNDER) == 155
    assert underside - at(found.finished, UNDER) == 135


def test_a_bay_that_is_not_boarded_in_a_room_that_is():
    # Trap: a machine of 820 went in at D 840 and never comes out over +22: short by 2.
    boards = Layer("boards", "boards", Manner.FOLLOWS, 22.0, Stage.TILED, under_units=False, bays=())
    found = floors(("a", IN_BAY, Stage.LEVELLED, 0.0), layers=(boards,))
    assert at(found.bays["bay"], IN_BAY) == 0
    assert 820 + at(found.finished, IN_BAY) - 840 == 2


def test_a_layer_may_go_into_a_named_bay_only():
    boards = Layer("boards", "boards", Manner.FOLLOWS, 22.0, Stage.TILED, under_units=False, bays=("bay",))
    found = floors(("a", IN_BAY, Stage.TILED, 22.0), layers=(boards,))
    assert at(found.bays["bay"], IN_BAY) == 22
    assert at(found.under_legs, IN_BAY) == 0


def test_a_step_stays_a_step_through_the_layers():
    step = BreakLine("step", "old and new screed", (Point(1500, -500), Point(1500, 500)))
    found = floors(
        ("a", (1200, 0), Stage.STRIPPED, 0.0),
        ("b", (1800, 0), Stage.STRIPPED, 12.0),
        layers=(TILE,),
        steps=(step,),
        lines=[("a", "b")],
    )
    assert at(found.finished, (1450, 0)) == 0 + 20
    assert at(found.finished, (1550, 0)) == 12 + 20


def test_an_old_covering_is_taken_off_and_always_brings_the_caution():
    lino = OldCovering("lino", "old lino", 4.0)
    found = floors(("a", UNDER, Stage.AS_FOUND, 4.0), ("b", OPEN, Stage.STRIPPED, -1.0), layers=(TILE,), old=(lino,))
    assert at(found.as_read, UNDER) == 4
    assert at(found.under_legs, UNDER) == 4 - 4 + 20
    assert at(found.under_legs, OPEN) == -1 + 20
    (said,) = found.findings
    assert (said.rule, said.caution) == ("floor.old_covering", True)
    assert "asbestos" in said.wrong
    assert "licensed" in said.cure


def test_a_covering_of_unknown_thickness_serves_only_as_it_is():
    lino = OldCovering("lino", "old lino", None)
    found = floors(("a", UNDER, Stage.AS_FOUND, 4.0), ("b", OPEN, Stage.STRIPPED, -1.0), old=(lino,))
    assert {spot.id for spot in found.as_read.spots} == {"a", "b"}
    assert {spot.id for spot in found.under_legs.spots} == {"b"}
    assert rules(found) == ["floor.old_covering", "floor.covering_thickness"]


def test_a_layer_thinner_than_the_job_says_is_asked_about():
    found = floors(("a", UNDER, Stage.LEVELLED, 0.0), ("a", UNDER, Stage.TILED, 12.0), layers=(TILE,))
    (said,) = found.findings
    assert said.rule == "floor.thickness_differs"
    assert said.amount.mm == pytest.approx(12 - 0 - 20)
    assert said.place == "Station a"
    assert at(found.finished, UNDER) == 12


def test_a_station_of_contradictory_repeats_is_a_hole():
    found = floors(("a", UNDER, Stage.STRIPPED, 0.0), ("b", OPEN, Stage.STRIPPED, 9.0), open_stations=("b",))
    assert {spot.id for spot in found.as_read.spots} == {"a"}


def test_a_station_on_the_step_is_named():
    step = BreakLine("step", "threshold", (Point(300, 0), Point(300, 3000)))
    assert "floor.station_on_step" in rules(floors(("a", OPEN, Stage.STRIPPED, 0.0), steps=(step,)))


def test_layers_shift_levels_and_leave_their_give_or_take():
    found = floors(("a", UNDER, Stage.STRIPPED, 0.0), layers=(TILE,), spread=4.0)
    assert found.under_legs.at(*UNDER).half_width_mm == pytest.approx(1.96 * 2)


def test_a_plane_is_as_sure_as_its_high_spot_and_does_not_average_away():
    found = floors(("a", UNDER, Stage.STRIPPED, 0.0), ("b", OPEN, Stage.STRIPPED, -9.0), layers=(SCREED,), spread=4.0)
    middle = found.finished.at((UNDER[0] + OPEN[0]) / 2, (UNDER[1] + OPEN[1]) / 2)
    assert middle.half_width_mm == pytest.approx(1.96 * 2 + 1.0)
