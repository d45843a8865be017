"""Where what hangs on a run ends in a corner that its units go into: at the plaster, or where the other run's hang."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from oddleg.job import EndsAt, Gap, Point, Run, RunEnd, WallHeight

from .axes import to_room, to_run
from .front_line import FrontLine
from .rod import placed_items, row_items

NEAR_MM = 60.0
"""What hangs no further from the corner than this hangs there (ours: a filler's room)."""


@dataclass(frozen=True)
class HungEnd:
    """`beyond_mm`: from the end's mark on to where what hangs ends, less than nothing where that lies before the mark.
    `other_hangs`: there hangs something of the other run, and that is its line of backs; else it is the plaster."""

    beyond_mm: float
    other_hangs: bool

    @property
    def short_mm(self) -> float:
        """What the row that hangs loses here."""
        return max(0.0, -self.beyond_mm)


def hung_end(
    run: Run,
    end: RunEnd,
    set_out: Run,
    other: Run | None,
    lines: tuple[FrontLine, FrontLine | None] | None,
    face_mm: Callable[[float, WallHeight], float],
) -> HungEnd | None:
    """None where no corner is gone into or nothing hangs. `set_out`: the run as set out; `face_mm`: how far the other
    run's wall stands out, by its x and height."""
    deep = [depth for item in row_items(run, True) if (depth := getattr(item, "depth_mm", None)) is not None]
    if end.at is not EndsAt.OTHER_BACKS or other is None or lines is None or not deep:
        return None
    standing, hanging = lines
    depth_mm = deep[-1] if end is run.right_end else deep[0]
    # Square to each other: how far along this run the place is taken is of no account in the other's x.
    along_mm = to_run(set_out, Point(other.x_mm, other.y_mm))[0]
    x_mm = to_run(other, to_room(set_out, along_mm, set_out.void_mm + depth_mm))[0]
    there = [one for one in placed_items(other) if not one.stands and not isinstance(one.item, Gap)]
    if hanging is not None and any(one.left_mm - NEAR_MM <= x_mm <= one.right_mm + NEAR_MM for one in there):
        return HungEnd(standing.back_at(x_mm) - hanging.back_at(x_mm), True)
    return HungEnd(standing.back_at(x_mm) - face_mm(x_mm, WallHeight.WALL_UNITS), False)
