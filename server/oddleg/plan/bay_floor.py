"""The finished floor that an appliance meets: the highest spot on its way in and out, the lowest under it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from oddleg.job import ApplianceBay, Point

from .axes import to_room, to_run
from .finished_floor import Floor
from .rod import Placed
from .surfaces import Surface, SurfaceLevel

SAMPLE_MM = 50.0


@dataclass(frozen=True)
class BayFloor:
    """`highest`: on the way in and out. `lowest`: under the appliance. None where nothing there is known; `whole` tells
    whether every spot looked at was."""

    highest: SurfaceLevel | None
    lowest: SurfaceLevel | None
    whole: bool


def way_out_mm(bay: ApplianceBay) -> float:
    """How far out of the front line the floor counts, mm: as the job says, else the appliance's own depth (greatest,
    else least, else the bay's), since so far out some of it is still under the top."""
    appliance = bay.appliance
    for depth_mm in (bay.way_out_mm, appliance.greatest_depth_mm, appliance.least_depth_mm):
        if depth_mm is not None:
            return depth_mm
    return bay.depth_mm


def bay_floor(placed: Placed, bay: ApplianceBay, floor: Floor) -> BayFloor:
    """Looks at the bay's footprint on the bay's own finished floor, and at the open finished floor in front of it.

    A surface that is linear between its stations is highest and lowest at a station or on the edge of what is looked
    at: every station inside is taken exactly, and the edges at the corners and every 50 mm or closer, so a bend that
    falls between two samples is missed by at most 25 mm of the steepest slope (0.25 mm on a floor of 10 mm per m).
    """
    front_mm = placed.back_mm + bay.depth_mm
    inside = _levels(floor.bays.get(bay.id), placed, placed.back_mm, front_mm)
    before = _levels(floor.finished, placed, front_mm, front_mm + way_out_mm(bay))
    known_inside = [level for level in inside if level is not None]
    known_before = [level for level in before if level is not None]
    return BayFloor(
        max(known_inside + known_before, key=lambda level: level.level_mm, default=None),
        min(known_inside, key=lambda level: level.level_mm, default=None),
        len(known_inside) == len(inside) and len(known_before) == len(before),
    )


def _levels(surface: Surface | None, placed: Placed, back_mm: float, front_mm: float) -> list[SurfaceLevel | None]:
    if surface is None:
        return [None]
    spots = list(_edge(placed, back_mm, front_mm))
    for spot in surface.spots:
        x_mm, y_mm = to_run(placed.run, Point(spot.x_mm, spot.y_mm))
        if placed.left_mm < x_mm < placed.right_mm and back_mm < y_mm < front_mm:
            spots.append(Point(spot.x_mm, spot.y_mm))
    return [surface.at(spot.x_mm, spot.y_mm) for spot in spots]


def _edge(placed: Placed, back_mm: float, front_mm: float) -> Iterator[Point]:
    left_mm, right_mm = placed.left_mm, placed.right_mm
    corners = ((left_mm, back_mm), (right_mm, back_mm), (right_mm, front_mm), (left_mm, front_mm))
    for (x0, y0), (x1, y1) in zip(corners, corners[1:] + corners[:1], strict=True):
        pieces = max(1, math.ceil(math.hypot(x1 - x0, y1 - y0) / SAMPLE_MM))
        for i in range(pieces):
            yield to_room(placed.run, x0 + (x1 - x0) * i / pieces, y0 + (y1 - y0) * i / pieces)
