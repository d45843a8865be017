"""A room's plan made by hand, for tests of what shows it: drawings and sheets. Everything in it is made up."""

import numpy as np
from sample_plinth import plinth
from sample_set_out import plain

from oddleg.job import (
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    BenchMark,
    Carcass,
    Doorway,
    Filler,
    Handing,
    Job,
    Laser,
    Legs,
    Point,
    Room,
    Run,
    SetUp,
    Stage,
    Station,
    Tolerances,
    Wall,
    Worktop,
)  # fmt: skip
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.datum import Chain, Choice, ChoiceName, Datum, Decided, Demand, End, Slack
from oddleg.plan.figure import Figure, figure
from oddleg.plan.finding import Finding, Severity
from oddleg.plan.finished_floor import Floor
from oddleg.plan.legs import LegHeight, LegPlace, UnitLegs
from oddleg.plan.levels import Levels, Misclosure, Plane, StationLevel
from oddleg.plan.rod import placed_items
from oddleg.plan.setting_out import SettingOut
from oddleg.plan.site import Site
from oddleg.plan.stations import PlannedStation, StationList
from oddleg.plan.surfaces import Spot, Surface, SurfaceLevel

LEGS = Legs(120.0, 180.0)


def carcass(number, width_mm=600.0, handing=Handing.LEFT, name=None):
    return Carcass(f"unit-{number}", name or f"base {number}", width_mm, 720.0, 560.0, handing=handing, legs=LEGS)


def room():
    window = (
        Filler("filler", "filler", 50.0, 30.0, 80.0),
        carcass(1, 800.0, Handing.PAIR, "drawers"),
        ApplianceBay(
            "bay", "dishwasher bay", 600.0, 560.0, Appliance("dish", "dishwasher", ApplianceSeat.UNDER_TOP, 820.0)
        ),
        carcass(2, 1000.0, Handing.PAIR, "sink base"),
        carcass(3, 600.0, Handing.RIGHT, "pans"),
    )
    counter = (carcass(4, 900.0, Handing.PAIR, "counter left"), carcass(5, 400.0, Handing.RIGHT, "counter right"))
    corners = [Point(0.0, 0.0), Point(4400.0, 0.0), Point(4400.0, 3600.0), Point(0.0, 3600.0)]
    names = ("window wall", "side wall", "hall wall", "store wall")
    walls = tuple(Wall(f"w{i}", names[i], (corners[i], corners[(i + 1) % 4])) for i in range(4))
    return Room(
        "kitchen", "Kitchen", "the corner left of the window", walls, Worktop(30.0),
        (BenchMark("mark", "cross in the threshold", 0.0, 1900.0, 3560.0),),
        doorways=(Doorway("door", "door to the hall", Point(1500.0, 3600.0), Point(2300.0, 3600.0)),),
        runs=(
            Run("window-run", "Window run", 0.0, 0.0, 0.0, "w0", 15.0, items=window),
            Run("counter", "Counter", 1500.0, 1900.0, 0.0, None, items=counter),
        ),
    )  # fmt: skip


def job(title="Hollow Lane hall, kitchen"):
    return Job(
        "hollow-lane",
        title,
        "Hollow Lane",
        "Hall committee",
        "Europe/London",
        720.0,
        (Laser("l", "laser"),),
        (),
        (room(),),
    )


def level_mm(x_mm, y_mm):
    return -0.5 - x_mm / 400 - y_mm / 1000


SPOTS = {
    "back one": (90.0, 55.0), "back two": (1100.0, 55.0), "back three": (2000.0, 55.0), "back four": (3010.0, 55.0),
    "front four": (3010.0, 515.0), "front three": (2000.0, 515.0), "front two": (1100.0, 515.0), "front one": (90.0, 515.0),
    "counter one": (1540.0, 1940.0), "counter two": (2760.0, 1940.0), "counter three": (2760.0, 2400.0), "counter four": (1540.0, 2400.0),
    "way one": (1150.0, 900.0), "door one": (1900.0, 3500.0),
}  # fmt: skip


def station_list(open_one=True):
    stations = []
    for name, (x_mm, y_mm) in SPOTS.items():
        state = {"front three": "open" if open_one else "read", "way one": "blocked", "door one": "unread"}.get(
            name, "read"
        )
        level = figure(level_mm(x_mm, y_mm), why="From one reading.", signed=True) if state == "read" else None
        station = Station(name.replace(" ", "-"), name, x_mm, y_mm, "legs")
        stations.append(
            PlannedStation(station, 1, True, False, state, level, 1 if level else 2 if state == "open" else 0)
        )
    return StationList(tuple(stations), ())


def surface(open_one=True):
    spots = [
        Spot(
            one.station.id,
            one.station.name,
            one.station.x_mm,
            one.station.y_mm,
            level_mm(one.station.x_mm, one.station.y_mm),
        )
        for one in station_list(open_one).stations
        if one.level is not None
    ]
    return Surface(spots, np.eye(len(spots)) * 0.25, [], [], Tolerances())


def set_ups():
    return (SetUp("s1", "set-up one", "kitchen", Stage.STRIPPED, x_mm=3600.0, y_mm=1500.0),)


NUMBERS = {f"unit-{n}": n for n in range(1, 6)}


def leg(id, height, preset, **more):
    words = {"B": "back", "F": "front"}[id[0]], {"L": "left", "M": "middle", "R": "right"}[id[1]]
    place = LegPlace(id, f"{words[0]} {words[1]} leg", 0.0, 0.0, Point(0.0, 0.0))
    columns = more.pop("columns", {"L": 1, "R": 0})
    floor = SurfaceLevel(0.0, 0.5, (), "read there", 0.0)
    return LegHeight(
        place, floor, figure(height, 1.0, f"{height} from the floor there."), figure(height - preset, 1.0, signed=True),
        id[0] == "B", columns[id[1]], 0 if id[0] == "F" else 1, **more,
    )  # fmt: skip


def demand(name, end, at_mm):
    return Demand(name, name, end, at_mm, figure(at_mm), "Lower feet.", ())


LEAST = demand("dishwasher under the top", End.LEAST, 863.0)
GREATEST = demand("front right leg of unit 3 at its longest", End.GREATEST, 886.5)


def choice(name, title, at_mm, feasible=True, nearest=None):
    used = at_mm if feasible else nearest
    gaps = None if used is None else (figure(used - 720.0 - 1.0), figure(used - 720.0 + 9.0))
    legs = None if used is None else (Figure(used - 721.0, "150"), Figure(used - 711.0, "161"))
    return Choice(
        name, title, "Rule in words.", None if at_mm is None else figure(at_mm), feasible, "" if at_mm else "no wish is stated",
        None if feasible else LEAST, None if nearest is None else figure(nearest), None if used is None else figure(used + 30.0), legs, gaps,
        2, 1, 5, figure(4.0),
    )  # fmt: skip


def choices():
    return (
        choice(ChoiceName.UNCUT, "Board uncut at the high spot", 871.5),
        choice(ChoiceName.SPLIT, "Split the difference", 866.0),
        choice(ChoiceName.WANTED, "Wanted height", 880.0),
        choice(ChoiceName.LEAST_CUTTING, "Least cutting", 871.5),
        choice(ChoiceName.LOWEST, "Lowest possible", 846.0, feasible=False, nearest=863.0),
    )


def datum(decided=True):
    chosen = (
        Decided("uncut_at_high_spot", figure(871.5), "entry", "Ned", "2026-11-23T10:12:00.000Z") if decided else None
    )
    slacks = (Slack(LEAST, figure(8.5)), Slack(GREATEST, figure(15.0)))
    chain = Chain((("worktop top", figure(901.5)), ("tall top", figure(2121.5))))
    return Datum(
        "kitchen",
        (LEAST, GREATEST),
        LEAST,
        GREATEST,
        -23.5,
        slacks,
        choices(),
        chosen,
        chain,
        ("worktop thickness",),
        (),
    )


def unit(number, heights, preset, **more):
    """Heights by leg id; six of them make three columns."""
    placed = next(one for run in room().runs for one in placed_items(run) if one.item.id == f"unit-{number}")
    columns = {"L": 2, "M": 1, "R": 0} if len(heights) > 4 else {"L": 1, "R": 0}
    legs = tuple(leg(id, height, preset, columns=columns, **more.get(id, {})) for id, height in heights.items())
    return UnitLegs(placed, number, figure(871.5), figure(151.5), figure(preset, 1.0), legs, (), ())


def units():
    return (
        unit(1, {"BL": 153, "BR": 155, "FL": 153, "FR": 155}, 153),
        unit(2, {"BL": 157, "BM": 158, "BR": 159, "FL": 157, "FM": 158, "FR": 160}, 157),
        unit(
            3,
            {"BL": 159, "BR": 161, "FL": 160, "FR": 161},
            161,
            FL={"set_at": figure(158, 1.0), "wind": figure(2, 1.0, signed=True)},
        ),
    )


def room_plan(decided=True, with_units=None, open_one=True, of_room=None, set_outs=None):
    """`set_outs`: of its runs, by hand; without them each is set out from its zero."""
    one = of_room or room()
    out = SettingOut(set_outs or tuple(plain(run) for run in one.runs), (), (), (), ())
    here = out.placed
    spots = surface(open_one)
    listed = station_list(open_one)
    levels = tuple(
        StationLevel(each.station.id, Stage.STRIPPED, each.level.mm, 0.9, ("r1",), ("s1",))
        for each in listed.stations
        if each.level
    )
    adjusted = Levels(
        levels,
        (Plane("s1", 1204.3, 0.6),),
        (),
        np.eye(len(levels)),
        Misclosure(0.4, 1.4, ("s1",), ()),
        0.5,
        False,
        ("front-three",),
        (OPEN,),
    )
    floor = Floor(spots, spots, spots, {}, ())
    if with_units is None:
        with_units = units() if decided else ()
    return RoomPlan(
        one, Site(), out, here, listed, tuple((each, 14) for each in set_ups()), (), adjusted, floor,
        (("highest", figure(-1.0, signed=True)), ("lowest", figure(-10.0, signed=True))), (), datum(decided), with_units, (),
        plinth() if decided else None,
    )  # fmt: skip


OPEN = Finding(
    "levels.repeat",
    Severity.STOP,
    "front three",
    "Two readings differ by 6 mm.",
    "Read it again and undo the wrong one.",
    "the job's limit",
)


def plan(*rooms, title="Hollow Lane hall, kitchen"):
    return Plan(job(title), rooms or (room_plan(),), ())
