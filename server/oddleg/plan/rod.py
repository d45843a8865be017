"""Where the items of a run stand: one after another from its zero, standing and hanging ones each in line."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass

from oddleg.job import ApplianceBay, Carcass, EndPanel, EndsAt, Item, Legs, OpenUnit, Point, Room, Run, RunEnd, Storey

from .axes import to_room, to_run
from .row import beside_mm, row_set_out

OPEN_FLOOR = "open floor"
UNDER_UNITS = "under units"


@dataclass(frozen=True)
class Placed:
    """An item with the span that it takes along its run, mm from the zero, never rounded."""

    run: Run
    item: Item
    left_mm: float
    right_mm: float

    @property
    def body_mm(self) -> tuple[float, float]:
        """Left and right outside edge of the thing itself: of an open unit without its face frame and gap."""
        return self.left_mm + beside_mm(self.item), self.right_mm - beside_mm(self.item)

    @property
    def stands(self) -> bool:
        return self.item.storey is not Storey.WALL

    @property
    def legs(self) -> Legs | None:
        """The legs that it stands on; None for what hangs or has none."""
        return self.item.legs if self.stands and isinstance(self.item, Carcass | OpenUnit) else None

    @property
    def back_mm(self) -> float:
        """y of the item's back in run axes."""
        return self.run.void_mm

    @property
    def depth_mm(self) -> float | None:
        """Back to front in mm; None for what has no depth of its own (filler, post, gap)."""
        if isinstance(self.item, Carcass | ApplianceBay | EndPanel | OpenUnit):
            return self.item.depth_mm
        return None

    @property
    def front_mm(self) -> float | None:
        depth_mm = self.depth_mm
        return None if depth_mm is None else self.back_mm + depth_mm

    def corners(self) -> tuple[Point, Point, Point, Point] | None:
        """Footprint in room axes: back left, back right, front right, front left."""
        front_mm = self.front_mm
        if front_mm is None:
            return None
        spots = (
            (self.left_mm, self.back_mm),
            (self.right_mm, self.back_mm),
            (self.right_mm, front_mm),
            (self.left_mm, front_mm),
        )
        a, b, c, d = (to_room(self.run, x, y) for x, y in spots)
        return a, b, c, d


def placed_items(run: Run) -> tuple[Placed, ...]:
    """The run's items in order where the job's own figures put them: outward from the anchor, fillers taking up what
    the drawn opening leaves; without either, one after another from the zero. What hangs is a row of its own from the
    same zero. What the other run takes of the opening in a corner is reckoned here with this run's own void and depth;
    its rod knows better."""
    spans = {feature.id: (feature.left_mm, feature.right_mm) for feature in run.features}
    bounded = run.opening_mm is not None or run.left_end.at is not EndsAt.OPEN
    opening_mm = run.opening_mm
    if opening_mm is not None:
        opening_mm -= _taken_in_corner_mm(run, run.left_end) + _taken_in_corner_mm(run, run.right_end)
    ends_mm = (0.0 if bounded else None, opening_mm)
    edges = {
        item.id: edges
        for hangs, anchor in ((False, run.anchor), (True, run.wall_anchor))
        for row in (row_set_out(row_items(run, hangs), anchor, 0.0, ends_mm, spans, hangs=hangs),)
        for item, edges in zip(row.items, row.edges, strict=True)
    }
    return tuple(Placed(run, item, *edges[item.id]) for item in run.items)


def _taken_in_corner_mm(run: Run, end: RunEnd) -> float:
    if end.at is EndsAt.OTHER_BACKS:
        return run.void_mm
    if end.at is EndsAt.OTHER_FRONTS:
        boxes = [item for item in run.items if isinstance(item, Carcass | OpenUnit) and item.storey is not Storey.WALL]
        return run.void_mm + max((item.depth_mm for item in boxes), default=0.0)
    return 0.0


def row_items(run: Run, hangs: bool) -> tuple[Item, ...]:
    """What stands, or what hangs, of a run, in order."""
    return tuple(item for item in run.items if (item.storey is Storey.WALL) is hangs)


class Zones:
    """What stands on the spots of a room's floor: units reach from the wall to their plinth line, an appliance bay to
    its front; what lies in front of that is open floor."""

    def __init__(self, room: Room) -> None:
        self._runs: list[tuple[Run, list[float], list[tuple[float, float, str]]]] = []
        for run in room.runs:
            rights: list[float] = []
            spans: list[tuple[float, float, str]] = []
            for placed in placed_items(run):
                if placed.front_mm is None or not placed.stands:
                    continue
                rights.append(placed.right_mm)
                if isinstance(placed.item, ApplianceBay):
                    spans.append((placed.left_mm, placed.front_mm, placed.item.id))
                else:
                    line_mm = placed.front_mm - getattr(placed.item, "plinth_recess_mm", 0.0)
                    spans.append((placed.left_mm, line_mm, UNDER_UNITS))
            self._runs.append((run, rights, spans))

    def at(self, point: Point) -> str:
        """The id of the appliance bay that the spot is in, UNDER_UNITS, or OPEN_FLOOR."""
        for run, rights, spans in self._runs:
            x_mm, y_mm = to_run(run, point)
            first = bisect_left(rights, x_mm)
            # An edge belongs to both that meet there.
            for left_mm, reach_mm, zone in spans[first : first + 2]:
                if left_mm <= x_mm and 0 <= y_mm <= reach_mm:
                    return zone
        return OPEN_FLOOR
