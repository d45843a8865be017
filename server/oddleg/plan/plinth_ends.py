"""Where plinths end at walls, as the run was set out: the end's plumbed mark, and how far the wall lies from it."""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.job import EndsAt, OpeningDepth, WallHeight

from .plinth_layout import WallEnd
from .setting_out import RunSetOut
from .wall import EndWall


def plinth_wall_ends(runs: Sequence[RunSetOut]) -> dict[tuple[str, bool], WallEnd]:
    """By run id and whether it is the right-hand end: for each end that is at a wall, the zero or end mark, out by what
    the wall was measured to lie beyond it at the floor, the front before the back; the mark itself where nobody did."""
    found = {}
    for one in runs:
        run = one.rod.run
        for right, end in ((False, run.left_end), (True, run.right_end)):
            if end.at is not EndsAt.WALL:
                continue
            mark_mm = one.rod.right_mm if right else one.rod.left_mm
            mark, on = ("end mark", 1.0) if right else ("zero mark", -1.0)
            beyond = _beyond(one, "right" if right else "left")
            if beyond is None:
                found[run.id, right] = WallEnd(mark_mm, f"against the wall, taken at the {mark}: measure it there")
            else:
                words = f"against the wall, {beyond.beyond.text} beyond the {mark}"
                found[run.id, right] = WallEnd(mark_mm + on * beyond.beyond.mm, words)
    return found


def _beyond(one: RunSetOut, side: str) -> EndWall | None:
    walls = [] if one.wall is None else [each for each in one.wall.end_walls if each.side == side]
    at_floor = [each for each in walls if each.height is WallHeight.FLOOR]
    order = (OpeningDepth.FRONT, OpeningDepth.BACK)
    return min(at_floor, key=lambda each: order.index(each.depth), default=None)
