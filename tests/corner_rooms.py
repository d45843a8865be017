"""Rooms with a corner for the tests of corners and fronts: a window run that comes to it, a side run that leaves it.

The window wall lies along X from 0 to 4000, the side wall goes down from there; both voids are 15, carcasses 560 deep,
fronts 20 with handles of 35 unless a test says otherwise. `mirrored` is the same room in a looking-glass.
"""

from dataclasses import replace

from oddleg.charts import charts
from oddleg.job import (
    Anchor,
    AnchorOn,
    BenchMark,
    Carcass,
    CornerPost,
    CornerTriangle,
    EndsAt,
    Entry,
    Front,
    FrontMoves,
    Handing,
    Job,
    Point,
    Room,
    Run,
    RunEnd,
    Tolerances,
    WallHeight,
    Worktop,
)
from oddleg.job import Wall as RoomWall
from oddleg.plan import plan
from oddleg.plan.figure import figure
from oddleg.plan.front_lines import front_lines
from oddleg.plan.rods import rods
from oddleg.plan.site import Site
from oddleg.plan.wall import Wall, WallSpot, WallStation

VOID, DEEP, FRONT, HANDLE, PLAY = 15.0, 560.0, 20.0, 35.0, 5.0
DOOR = Front(thickness_mm=FRONT, handle_projection_mm=HANDLE)
DRAWER = replace(DOOR, moves=FrontMoves.DRAWER)


def unit(id, width_mm, handing=Handing.NONE, front=DOOR, **more):
    values = {"height_mm": 720.0, "depth_mm": DEEP, "handing": handing, "front": front, **more}
    return Carcass(id, id.replace("-", " "), width_mm, **values)


def drawers(id, width_mm, **more):
    return unit(id, width_mm, front=DRAWER, **more)


def post(width_mm, id="post"):
    return CornerPost(id, id.replace("-", " "), width_mm)


def runs(left_items, right_items, length_mm=4000.0, left_at=EndsAt.OTHER_BACKS, right_at=EndsAt.OTHER_FRONTS, side_mm=3000.0):
    left = Run(
        "window", "Window run", 0.0, 0.0, 0.0, "north", VOID, items=tuple(left_items), opening_mm=length_mm, anchor=Anchor(AnchorOn.RIGHT_END),
        left_end=RunEnd(EndsAt.WALL), right_end=RunEnd(left_at, "side" if left_at in (EndsAt.OTHER_BACKS, EndsAt.OTHER_FRONTS) else None),
    )  # fmt: skip
    right = Run(
        "side", "Side run", length_mm, VOID + DEEP, 90.0, "east", VOID, items=tuple(right_items), opening_mm=side_mm,
        left_end=RunEnd(right_at, "window" if right_at in (EndsAt.OTHER_BACKS, EndsAt.OTHER_FRONTS) else None),
    )  # fmt: skip
    return left, right


def room(*of_runs, **more):
    walls = (
        RoomWall("north", "window wall", (Point(0, 0), Point(4000, 0))),
        RoomWall("east", "side wall", (Point(4000, 0), Point(4000, 3000))),
    )
    values = {"worktop": Worktop(30.0), "bench_marks": (BenchMark("mark", "door frame"),), **more}
    return Room("kitchen", "Kitchen", "left of the window", walls, runs=of_runs, **values)


def job(of_room, **tolerances):
    return Job("job", "Job", "Place", "Client", "Europe/London", 720.0, (), (), (of_room,), tolerances=Tolerances(**tolerances))


def triangle(along_mm, other_along_mm, across_mm, run="window", other="side"):
    return CornerTriangle(run, other, along_mm, other_along_mm, across_mm)


def site(*bodies, **more):
    entries = [Entry(f"e{i}", i, "ned", "2026-11-23T10:00:00.000Z", body) for i, body in enumerate(bodies, 1)]
    return Site(triangles=tuple(one for one in entries if isinstance(one.body, CornerTriangle)), **more)


def wall(run, points=(), line="line", height=WallHeight.BATTEN, **more):
    """The wall of a run as read at one height: (x, y out of the wall)."""
    stations = tuple(WallStation(f"{run.id}-{x:g}", f"wall {x:g}", x, (height,), "batten") for x, _ in points)
    spots = tuple(
        WallSpot(one.id, one.name, x, height, "read", y, figure(y), ("r",)) for one, (x, y) in zip(stations, points, strict=True)
    )
    values = {"openings": (), "end_walls": (), "features": run.features, **more}
    lines = ((line, f"laser line of {run.name}", len(points)),) if points else ()
    return Wall(run, lines, stations, spots, findings=(), **values)


def set_out(of_room, walls=(), corners=(), **tolerances):
    """The job, and the room's rods and lines, from walls and corners as given."""
    of_job = job(of_room, **tolerances)
    lines = front_lines(of_job, of_room, walls, corners)
    return of_job, rods(of_job, of_room, Site(), walls, lines), lines


def mirrored(of_room, width_mm=4000.0, deep_mm=3000.0):
    """The room in a looking-glass: X counts the other way, so right hands are left hands. A run's zero is then where its
    right end was: of the run along the window wall the other one's line of backs, of that down the side wall its far end."""
    turned = []
    for run in of_room.runs:
        x_mm, y_mm = (width_mm - run.opening_mm + VOID, run.y_mm) if run.bearing_deg == 0 else (width_mm - run.x_mm, deep_mm)
        length_mm = run.opening_mm if run.bearing_deg == 0 else deep_mm - run.y_mm
        turned.append(
            replace(
                run, anchor=None if run.anchor else Anchor(AnchorOn.RIGHT_END), x_mm=x_mm, y_mm=y_mm, bearing_deg=-run.bearing_deg % 360,
                left_end=run.right_end, right_end=run.left_end, items=tuple(_mirrored(one) for one in reversed(run.items)),
                features=tuple(replace(one, left_mm=length_mm - one.right_mm, right_mm=length_mm - one.left_mm) for one in run.features),
            )
        )  # fmt: skip
    return replace(of_room, runs=tuple(turned))


def _mirrored(item):
    turned = {Handing.LEFT: Handing.RIGHT, Handing.RIGHT: Handing.LEFT}
    return replace(item, handing=turned.get(item.handing, item.handing)) if isinstance(item, Carcass) else item


def plan_of(of_room, *bodies, **tolerances):
    """The plan of the room after these entries."""
    entries = tuple(Entry(f"e{i}", i, "ned", "2026-11-23T10:00:00.000Z", body) for i, body in enumerate(bodies, 1))
    return plan(job(of_room, **tolerances), entries, charts())
