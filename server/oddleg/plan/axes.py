"""The one file that converts between run axes and room axes. Both are left-handed with z up: nothing is mirrored."""

from __future__ import annotations

import math

from oddleg.job import Point, Run


def to_room(run: Run, x_mm: float, y_mm: float) -> Point:
    """A point of the run (x to the right from its zero, y out of the wall) in room axes.

    The bearing turns the run's x axis clockwise seen from above, where X goes right and Y down the page; so y, a
    quarter turn clockwise from x, is (-sin, cos).
    """
    cos, sin = _cos_sin(run.bearing_deg)
    return Point(run.x_mm + x_mm * cos - y_mm * sin, run.y_mm + x_mm * sin + y_mm * cos)


def to_run(run: Run, point: Point) -> tuple[float, float]:
    """A point of the room as (x, y) of the run: the inverse of `to_room`."""
    cos, sin = _cos_sin(run.bearing_deg)
    dx, dy = point.x_mm - run.x_mm, point.y_mm - run.y_mm
    return dx * cos + dy * sin, dy * cos - dx * sin


def _cos_sin(bearing_deg: float) -> tuple[float, float]:
    """Exact at quarter turns, so that a square room has square coordinates."""
    quarters, rest = divmod(bearing_deg, 90.0)
    if rest == 0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarters) % 4]
    return math.cos(math.radians(bearing_deg)), math.sin(math.radians(bearing_deg))
