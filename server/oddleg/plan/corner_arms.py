"""Runs that meet as they are set out, each as seen from the corner, and the void behind the one across."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from oddleg.job import EndsAt, Point, Room, Run, WallHeight

from .axes import to_run
from .front_line import FrontLine
from .meeting_runs import OFF_SQUARE_DEG, SQUARE_DEG, Arm, crossing, drawn_angle_deg, end_of, names_at, naming
from .set_out import Rod
from .set_out_run import depth_at
from .wall import Wall
from .wall_profile import STANDING, points_behind, wall_at, wall_points

Lines = Mapping[str, tuple[FrontLine, FrontLine | None]]

HANGING = (WallHeight.WALL_UNITS,)
# So far past the last reading a wall still counts as it was read there.
READ_REACH_MM = 600.0


def arms(room: Room, rods: Sequence[Rod]) -> Iterator[tuple[Arm, Arm]]:
    """Both ways round, (own, across), of every square pair of which one run names the other.

    The lines of backs cross at the mark of a run that ends at the other's line of backs, and a carcass depth past that
    of one that ends at its fronts. Of a run that does not name the other, and of one whose opening nobody knows, it is
    taken where they cross in the room: set-out runs that meet are square there.
    """
    by_id = {rod.run.id: rod for rod in rods}
    for left, right in naming(room):
        if left.id not in by_id or right.id not in by_id:
            continue
        left_rod, right_rod = by_id[left.id], by_id[right.id]
        if abs(drawn_angle_deg(left_rod.run, right_rod.run) - SQUARE_DEG) > OFF_SQUARE_DEG:
            continue
        crossed = crossing(left_rod.run, right_rod.run, left_rod.run.void_mm, right_rod.run.void_mm)
        if crossed is None:
            continue
        one = Arm(left_rod.run, left_rod.placed, "right", _from_mm(left_rod, right, "right", crossed[0]))
        other = Arm(right_rod.run, right_rod.placed, "left", _from_mm(right_rod, left, "left", crossed[1]))
        yield one, other
        yield other, one


def crossed_at(rod: Rod, other: Rod, side: str) -> tuple[float, float] | None:
    """x, on the rod, of where the lines of backs of what stands cross at this end: by the rod's marks, and where they
    do in the room. None where the runs are not square to each other, or nobody knows where the rod ends."""
    left, right = (rod, other) if side == "right" else (other, rod)
    if abs(drawn_angle_deg(left.run, right.run) - SQUARE_DEG) > OFF_SQUARE_DEG or (
        side == "right" and rod.opening is None
    ):
        return None
    crossed = crossing(rod.run, other.run, rod.run.void_mm, other.run.void_mm)
    return None if crossed is None else (_from_mm(rod, other.run, side, crossed[0]), crossed[0])


def _from_mm(rod: Rod, other: Run, side: str, crossed_mm: float) -> float:
    if names_at(rod.run, side) != other.id or (side == "right" and rod.opening is None):
        return crossed_mm
    deep_mm = 0.0
    if end_of(rod.run, side) is EndsAt.OTHER_FRONTS:
        deep_mm = depth_at(other, to_run(other, Point(rod.run.x_mm, rod.run.y_mm))[0])
    return rod.right_mm + deep_mm if side == "right" else rod.left_mm - deep_mm


def void_behind_mm(arm: Arm, deep_mm: float, hangs: bool, walls: Sequence[Wall], lines: Lines) -> float:
    return void_behind(arm, deep_mm, hangs, walls, lines)[0]


def void_behind(
    arm: Arm, deep_mm: float, hangs: bool, walls: Sequence[Wall], lines: Lines
) -> tuple[float, WallHeight | None]:
    """The least void between the wall of a run and its line of backs (of what stands) along the first `deep_mm` from
    the corner, at the heights of what stands or of what hangs, and at which of them; where nothing is read there, the
    least of the run, and None."""
    stands, hung = lines[arm.run.id]
    wall = next((one for one in walls if one.run.id == arm.run.id), None)
    ends = [arm.from_mm, arm.from_mm + (deep_mm if arm.side == "left" else -deep_mm)]
    left_mm, right_mm = min(ends) + stands.zero_mm, max(ends) + stands.zero_mm
    voids = []
    for height in HANGING if hangs else STANDING:
        points = wall_points(wall, height)
        near = [wall_at(points, x_mm, READ_REACH_MM) for x_mm in (left_mm, right_mm)]
        for point in (*points_behind(points, [(left_mm, right_mm)]), *(one for one in near if one is not None)):
            voids.append((stands.back_at(point.x_mm) - point.y_mm, height))
    if voids:
        return min(voids, key=lambda one: one[0])
    if hangs and hung is not None:
        return hung.least_void.mm - (hung.set_out.void_mm - stands.set_out.void_mm), None
    return stands.least_void.mm, None
