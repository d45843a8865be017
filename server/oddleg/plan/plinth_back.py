"""The backs of free-standing runs: which of them show, and the run seen from behind for its plinth."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from oddleg.job import ApplianceBay, Carcass, EndPanel, Gap, OpenUnit, Point, Room

from .axes import to_room, to_run
from .heights import SAME_MM
from .rod import Placed

REACH_MM = 150.0
"""How near behind a run something must stand for its back not to show (ours: no arm and no broom gets in)."""
PROBE_MM = 25.0


def seen_from_behind(
    standing: Sequence[Placed], placed: Sequence[Placed], room: Room
) -> tuple[tuple[Placed, ...], ...]:
    """Neighbours of a free-standing run whose backs show, as they stand when you face their backs, left to right; none
    for a run at a wall. `standing`: what stands in the run; `placed`: all that stands in the room.

    The axes are turned round: x counts the other way from the same zero and y from the run's greatest front towards its
    backs, so that all rules for fronts serve for backs. Backs are in one line, so every item is as deep as that;
    nothing drops below undersides there, and nothing is cut out. A bay between two others is closed by its back panel,
    under which the plinth runs on; a bay at an end is not.
    """
    fronts = [one.front_mm for one in standing if one.front_mm is not None]
    if not standing or not fronts or standing[0].run.wall is not None:
        return ()
    run, front_mm = standing[0].run, max(fronts)
    zero = to_room(run, 0.0, front_mm)
    turned = replace(run, x_mm=zero.x_mm, y_mm=zero.y_mm, bearing_deg=run.bearing_deg + 180.0, void_mm=0.0)
    others = [one for one in placed if one.run.id != run.id]
    parts: list[list[Placed]] = [[]]
    for number, one in enumerate(standing):
        if not back_is_free(one, others, room):
            parts.append([])
            continue
        item = one.item
        if isinstance(item, Carcass | OpenUnit):
            item = replace(item, depth_mm=front_mm - one.back_mm, visible_drop_mm=0.0)
        elif isinstance(item, EndPanel | ApplianceBay):
            item = replace(item, depth_mm=front_mm - one.back_mm)
        if isinstance(item, Carcass):
            item = replace(item, plinth_cuts=())
        elif isinstance(item, ApplianceBay):
            between = 0 < number < len(standing) - 1
            item = replace(item, plinth_cuts=(), plinth_runs_through=item.plinth_runs_through or between)
        parts[-1].append(Placed(turned, item, -one.right_mm, -one.left_mm))
    return tuple(tuple(reversed(part)) for part in reversed(parts) if part)


def back_is_free(one: Placed, others: Sequence[Placed], room: Room) -> bool:
    """Whether no wall and no unit of `others`, the other runs, stands within reach behind the middle of this item."""
    middle_mm = (one.left_mm + one.right_mm) / 2
    start, stop = (to_room(one.run, middle_mm, one.back_mm - off_mm) for off_mm in (SAME_MM, REACH_MM))
    for wall in room.walls:
        if any(_crosses((start, stop), stretch) for stretch in pairwise(wall.points)):
            return False
    for off_mm in _steps(REACH_MM):
        if unit_at(to_room(one.run, middle_mm, one.back_mm - off_mm), others, one.run.id) is not None:
            return False
    return True


def unit_at(spot: Point, placed: Sequence[Placed], apart_from: str) -> Placed | None:
    """What of another run than this one stands on a spot of the room, from its wall to its front."""
    for other in placed:
        if other.run.id == apart_from or other.front_mm is None or not other.stands or isinstance(other.item, Gap):
            continue
        x_mm, y_mm = to_run(other.run, spot)
        if other.left_mm <= x_mm <= other.right_mm and 0.0 <= y_mm <= other.front_mm:
            return other
    return None


def _steps(reach_mm: float) -> Iterator[float]:
    off_mm = PROBE_MM
    while off_mm <= reach_mm:
        yield off_mm
        off_mm += PROBE_MM


def _crosses(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    def side(line: tuple[Point, Point], point: Point) -> float:
        (a, b), p = line, point
        return (b.x_mm - a.x_mm) * (p.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (p.x_mm - a.x_mm)

    return side(one, other[0]) * side(one, other[1]) <= 0 and side(other, one[0]) * side(other, one[1]) <= 0
