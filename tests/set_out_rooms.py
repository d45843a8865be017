"""Walls, runs and rods for tests of front line and batten: a wall is given as (x, y) at each height, y out into the
room, so that every figure can be checked by arithmetic."""

from __future__ import annotations

from dataclasses import replace

import sample_room as sample

from oddleg.job import Batten, Front, WallHeight
from oddleg.plan.figure import figure
from oddleg.plan.front_lines import front_lines
from oddleg.plan.rod import placed_items
from oddleg.plan.set_out import Rod
from oddleg.plan.wall import Wall, WallSpot

BATTEN = WallHeight.BATTEN
LEVEL = ((0.0, 0.0), (600.0, 0.0), (1200.0, 0.0))


def units(count=2, width_mm=600.0, prefix="unit", **more):
    return tuple(sample.carcass(f"{prefix}-{n}", width_mm, **{"front": Front(), **more}) for n in range(1, count + 1))


def run(*items, void_mm=10.0, **more):
    return sample.run(*(items or units()), void_mm=void_mm, **more)


def wall(of_run, points=None, **heights):
    """`points` are read at batten height; others by name, `floor=...`, `worktop=...`, `wall_units=...`."""
    given = {WallHeight(name): at for name, at in heights.items()} | ({BATTEN: points} if points else {})
    spots = tuple(
        WallSpot(f"{height.value}-{n}", f"wall {n}", x, height, "read", y, figure(y), ("r",))
        for height, at in given.items()
        for n, (x, y) in enumerate(at, 1)
    )
    return Wall(of_run, (), (), spots, (), (), of_run.features, ())


def lines_of(*walls, runs=None, corners=(), worktop=None, **job):
    """Front lines by run, standing and hanging, for a room of these walls' runs (or of `runs`)."""
    room = sample.room(*(runs or [one.run for one in walls]), **({"worktop": worktop} if worktop else {}))
    return front_lines(sample.job(room, **job), room, walls, corners)


def line_of(of_wall, **more):
    return lines_of(of_wall, **more)[of_wall.run.id][0]


def rod(line, left_mm=0.0, right_mm=None):
    placed = placed_items(line.set_out)
    end_mm = max((one.right_mm for one in placed if one.stands), default=0.0) if right_mm is None else right_mm
    return Rod(line.set_out, left_mm, end_mm, None, "", left_mm, "", placed, (), (), None, (), (), ())


def with_batten(of_run, **more):
    return replace(of_run, batten=Batten(**more))


def rules(findings):
    return [one.rule for one in findings]


def finding(findings, rule):
    return next(one for one in findings if one.rule == rule)
