"""Runs for the tests of rod and fit: a wall as measured and a front line as laid, made by hand."""

from dataclasses import replace

from sample_room import carcass, job, room, run

from oddleg.job import (
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    EndPanel,
    EndsAt,
    Entry,
    Filler,
    OpeningDepth,
    OpeningWidth,
    RunEnd,
    Storey,
    Tolerances,
    UnitWidth,
    WallHeight,
)
from oddleg.plan.figure import figure
from oddleg.plan.front_line import FrontLine
from oddleg.plan.rods import rods
from oddleg.plan.site import Site
from oddleg.plan.wall import EndWall, Opening, Wall, WallSpot

WALLS = {"left_end": RunEnd(EndsAt.WALL), "right_end": RunEnd(EndsAt.WALL)}
FLOOR, BATTEN, WORKTOP, WALL_UNITS = WallHeight
BACK, FRONT = OpeningDepth


def filler(id="filler", least_mm=20.0, greatest_mm=100.0, width_mm=50.0, **more):
    return Filler(id, id, width_mm, least_mm, greatest_mm, **more)


def panel(id="panel", allowance_mm=1.5, **more):
    return EndPanel(id, id, 18.0, 580.0, allowance_mm, **more)


def bay(id="bay", width_mm=600.0, **widths):
    return ApplianceBay(id, id, width_mm, 560.0, Appliance(f"{id}-machine", "machine", ApplianceSeat.UNDER_TOP, 820.0, **widths))


def wall_unit(id, width_mm=600.0, **more):
    return carcass(id, width_mm, depth_mm=320.0, legs=None, storey=Storey.WALL, **more)


def between_walls(*items, **more):
    return run(*items, **WALLS, **more)


def wall_of(one, openings=(), gaps=(), face=(), features=None):
    """`openings`: (height, depth, width); `gaps`: (side, height, depth, beyond); `face`: (x, height, y) as read."""
    return Wall(
        one, (), (),
        tuple(WallSpot(f"s{i}", f"s{i}", x, height, "read", y, figure(y), ()) for i, (x, height, y) in enumerate(face)),
        tuple(Opening(height, depth, figure(mm), f"o{i}") for i, (height, depth, mm) in enumerate(openings)),
        tuple(EndWall(side, height, depth, figure(mm), f"g{i}") for i, (side, height, depth, mm) in enumerate(gaps)),
        one.features if features is None else tuple(features), (),
    )  # fmt: skip


def line_of(one, back_mm=None, set_out=None, storey=Storey.BASE):
    """The line of backs at the run's void, or at `back_mm`; the run as set out, if it is not as drawn."""
    at_mm = one.void_mm if back_mm is None else back_mm
    nothing = figure(0.0)
    out = set_out or replace(one, void_mm=at_mm)
    return FrontLine(one, storey, back_mm is not None, at_mm, 0.0, (), nothing, nothing, nothing, None, "", out, ())


def entries(*bodies):
    return tuple(Entry(f"e{i}", i, "Ned", "2026-11-23T08:40:00Z", body) for i, body in enumerate(bodies, 1))


def room_rods(*runs, walls=(), lines=None, marked=(), **tolerances):
    """The rods of a room with these runs, in order."""
    here = Site(marked=entries(*marked))
    laid = {one.id: (line_of(one), None) for one in runs} | (lines or {})
    kept = room(*runs)
    return rods(job(kept, tolerances=Tolerances(**tolerances)), kept, here, walls, laid)


def rod_of(one, openings=(), gaps=(), features=None, marked=(), set_out=None, **tolerances):
    wall = wall_of(one, openings, gaps, features=features)
    lines = {one.id: (line_of(one, set_out=set_out), None)}
    (found,) = room_rods(one, walls=(wall,), lines=lines, marked=marked, **tolerances)
    return found


def spans(rod):
    """Left and right edge of every item, by id."""
    return {one.item.id: (one.left_mm, one.right_mm) for one in rod.placed}


def widths(rod):
    return {id: right - left for id, (left, right) in spans(rod).items()}


def edges(rod, row="base"):
    return [one.x_mm for one in rod.marks if one.row == row and one.kind != "centre"]


def mark(rod, id):
    return next(one for one in rod.marks if one.id == id)


def rules(of):
    return [one.rule for one in of.findings]


def finding(of, rule):
    return next(one for one in of.findings if one.rule == rule)


def site_of(one, openings=(), unit_widths=()):
    """What a fit works from: every opening as measured, and units' widths."""
    measured = [OpeningWidth(one.id, height, depth, mm) for height, depth, mm in openings]
    return Site(openings=entries(*measured), unit_widths=entries(*(UnitWidth(item, mm) for item, mm in unit_widths)))
