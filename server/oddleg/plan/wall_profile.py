"""The wall of a run between its readings: straight from one to the next, at each height by itself."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from oddleg.job import WallHeight

from .heights import SAME_MM
from .wall import Wall

HEIGHT_WORDS = {
    WallHeight.FLOOR: "just over the floor",
    WallHeight.BATTEN: "at batten height",
    WallHeight.WORKTOP: "at worktop height",
    WallHeight.WALL_UNITS: "at wall-unit height",
}
# What stands is behind these; what hangs behind WALL_UNITS, tall units behind all.
STANDING = (WallHeight.FLOOR, WallHeight.BATTEN, WallHeight.WORKTOP)

Span = tuple[float, float]


@dataclass(frozen=True)
class WallPoint:
    """The wall's face at x, y of the run. `name`: of the station, or between which it was reckoned."""

    x_mm: float
    y_mm: float
    height: WallHeight
    name: str

    @property
    def words(self) -> str:
        return f"{self.name}, {HEIGHT_WORDS[self.height]}"


def wall_points(wall: Wall | None, *heights: WallHeight) -> tuple[WallPoint, ...]:
    """The spots that are read at these heights, by height and x; of two at one place the one that stands out more."""
    if wall is None:
        return ()
    found: dict[tuple[WallHeight, float], WallPoint] = {}
    for spot in wall.spots:
        if spot.wall_mm is None or spot.height not in heights:
            continue
        here = found.get((spot.height, spot.x_mm))
        if here is None or (spot.wall_mm, spot.name) > (here.y_mm, here.name):
            found[spot.height, spot.x_mm] = WallPoint(spot.x_mm, spot.wall_mm, spot.height, spot.name)
    order = list(WallHeight)
    return tuple(sorted(found.values(), key=lambda one: (order.index(one.height), one.x_mm)))


def wall_at(points: Sequence[WallPoint], x_mm: float, reach_mm: float = 0.0) -> WallPoint | None:
    """The wall at x, from points of one height in order: straight between neighbours; beyond the last one its value, as
    far as `reach_mm`; None further off, or where nothing is read."""
    if not points:
        return None
    for end, beyond_mm in ((points[0], points[0].x_mm - x_mm), (points[-1], x_mm - points[-1].x_mm)):
        if beyond_mm >= 0:
            return replace(end, x_mm=x_mm) if beyond_mm <= reach_mm + SAME_MM else None
    number = bisect_left(points, x_mm, key=lambda one: one.x_mm)
    before, after = points[number - 1], points[number]
    if abs(after.x_mm - x_mm) <= SAME_MM:
        return after
    share = (x_mm - before.x_mm) / (after.x_mm - before.x_mm)
    y_mm = before.y_mm + (after.y_mm - before.y_mm) * share
    return WallPoint(x_mm, y_mm, before.height, f"between {before.name} and {after.name}")


def points_behind(points: Sequence[WallPoint], spans: Iterable[Span]) -> tuple[WallPoint, ...]:
    """Those of the points (of one height, in order) that lie behind these spans of the run, and the wall at the spans'
    ends where it is read on both sides of them."""
    found: dict[float, WallPoint] = {}
    for left_mm, right_mm in spans:
        inside = [one for one in points if left_mm - SAME_MM <= one.x_mm <= right_mm + SAME_MM]
        ends = [at for x_mm in (left_mm, right_mm) if (at := wall_at(points, x_mm)) is not None]
        for one in (*ends, *inside):
            found[one.x_mm] = one
    return tuple(found[x_mm] for x_mm in sorted(found))


def merged(spans: Iterable[Span], apart_mm: float = 0.5) -> tuple[Span, ...]:
    """Spans in order, those that touch, overlap or lie less than `apart_mm` apart made one."""
    found: list[Span] = []
    for left_mm, right_mm in sorted(spans):
        if found and left_mm <= found[-1][1] + apart_mm:
            found[-1] = (found[-1][0], max(found[-1][1], right_mm))
        else:
            found.append((left_mm, right_mm))
    return tuple(found)
