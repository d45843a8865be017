"""Which runs meet in a corner, and where that corner lies in the axes of either."""

from __future__ import annotations

import math
from dataclasses import dataclass

from oddleg.job import EndsAt, Item, Point, Room, Run, Storey

from .axes import to_run
from .rod import Placed, placed_items

AT_THE_OTHER = (EndsAt.OTHER_BACKS, EndsAt.OTHER_FRONTS)
# A row that goes on so far past the place where another run begins does not end there: that run stands off its middle.
GOES_ON_MM = 100.0
SQUARE_DEG = 90.0
# A corner that is drawn further off is none of square units.
OFF_SQUARE_DEG = 10.0
# Lines that cross at less meet nowhere that is of use.
LEAST_CROSSING_DEG = 5.0


@dataclass(frozen=True)
class Meeting:
    """`left` comes to the corner with its right end, `right` with its left end. `left_x_mm`, `right_x_mm`: where the
    lines y = 0 of the two cross as drawn, in the axes of each; None where they never do. `drawn_deg`: between the two
    walls, seen from the room."""

    left: Run
    right: Run
    left_x_mm: float | None
    right_x_mm: float | None
    drawn_deg: float

    @property
    def names(self) -> str:
        return f"{self.left.name} and {self.right.name}"

    @property
    def square(self) -> bool:
        return abs(self.drawn_deg - SQUARE_DEG) <= OFF_SQUARE_DEG

    @property
    def at_walls(self) -> bool:
        return self.left.wall is not None and self.right.wall is not None


def crossing(left: Run, right: Run, left_y_mm: float = 0.0, right_y_mm: float = 0.0) -> tuple[float, float] | None:
    """Where the line y = `left_y_mm` of one run and y = `right_y_mm` of the other cross: its x in the axes of each."""
    turned = math.radians(right.bearing_deg - left.bearing_deg)
    if abs(math.sin(turned)) < math.sin(math.radians(LEAST_CROSSING_DEG)):
        return None
    zero_x, zero_y = to_run(left, Point(right.x_mm, right.y_mm))
    # A point x along the line y = b of the right run lies at zero + x (cos, sin) + b (-sin, cos) in the left one.
    right_x = (left_y_mm - zero_y - right_y_mm * math.cos(turned)) / math.sin(turned)
    return zero_x + right_x * math.cos(turned) - right_y_mm * math.sin(turned), right_x


def drawn_angle_deg(left: Run, right: Run) -> float:
    """Angle between the walls as drawn, from 0 to 360: 90 in a square inside corner."""
    return (180.0 - (right.bearing_deg - left.bearing_deg)) % 360.0


def naming(room: Room) -> tuple[tuple[Run, Run], ...]:
    """Every pair of runs of which one at least names the other: the one whose right end it is first, in their order."""
    by_id = {run.id: run for run in room.runs}
    pairs: set[tuple[str, str]] = set()
    for run in room.runs:
        right, left = names_at(run, "right"), names_at(run, "left")
        if right in by_id and right != run.id:
            pairs.add((run.id, right))
        if left in by_id and left != run.id:
            pairs.add((left, run.id))
    order = {run.id: place for place, run in enumerate(room.runs)}
    return tuple(
        (by_id[left], by_id[right]) for left, right in sorted(pairs, key=lambda pair: (order[pair[0]], order[pair[1]]))
    )


def meetings(room: Room) -> tuple[Meeting, ...]:
    """The pairs that meet in a corner; a run that stands off the middle of another makes none."""
    found = []
    for left, right in naming(room):
        crossed = crossing(left, right)
        left_x, right_x = crossed or (None, None)
        if not _goes_on(left, "right", right, left_x) and not _goes_on(right, "left", left, right_x):
            found.append(Meeting(left, right, left_x, right_x, drawn_angle_deg(left, right)))
    return tuple(found)


def end_of(run: Run, side: str) -> EndsAt:
    """What a run comes to at an end."""
    return (run.right_end if side == "right" else run.left_end).at


def names_at(run: Run, side: str) -> str | None:
    """Id of the run that this one meets in a corner at an end."""
    end = run.right_end if side == "right" else run.left_end
    return end.run if end.at in AT_THE_OTHER else None


def _goes_on(run: Run, side: str, other: Run, at_mm: float | None) -> bool:
    """Whether a run that does not name the other goes on past it: then no corner is there."""
    if names_at(run, side) == other.id or at_mm is None:
        return False
    row = [one for one in placed_items(run) if one.stands]
    if not row:
        return False
    if side == "right":
        return max(one.right_mm for one in row) > at_mm + GOES_ON_MM
    return min(one.left_mm for one in row) < at_mm - GOES_ON_MM


@dataclass(frozen=True)
class Arm:
    """One run as seen from a corner: `side` is its end there, `from_mm` the x where the two lines of backs of what
    stands cross."""

    run: Run
    placed: tuple[Placed, ...]
    side: str
    from_mm: float

    def out_mm(self, x_mm: float) -> float:
        """How far from the corner a place lies, along the line of backs."""
        return self.from_mm - x_mm if self.side == "right" else x_mm - self.from_mm

    def near_far_mm(self, one: Placed) -> tuple[float, float]:
        """Both edges of an item, the nearer to the corner first."""
        edges = self.out_mm(one.left_mm), self.out_mm(one.right_mm)
        return min(edges), max(edges)

    def front_mm(self, one: Placed) -> float | None:
        """How far the front edge of its carcass lies out of the line of backs of what stands."""
        return None if one.front_mm is None else one.front_mm - self.run.void_mm

    def row(self, hangs: bool) -> list[Placed]:
        """What stands or what hangs, from the corner outward."""
        row = [one for one in self.placed if one.stands != hangs]
        return sorted(row, key=lambda one: self.near_far_mm(one))

    def deepest_mm(self) -> float:
        """Depth of the deepest carcass that stands: where a run begins that stands beside this one's fronts."""
        return max((one.depth_mm or 0.0 for one in self.placed if one.stands), default=0.0)


def level_with(one: Item, other: Item) -> bool:
    """Whether two items have some height in common: what stands low and what hangs do not."""
    return Storey.TALL in (one.storey, other.storey) or (one.storey is Storey.WALL) == (other.storey is Storey.WALL)
