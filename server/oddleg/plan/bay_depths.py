"""Appliance bays in front of a wall: the depth that the appliance wants against what void, carcass and front leave."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import ApplianceBay, Carcass, OpenUnit

from .front_line import FrontLine
from .heights import SAME_MM
from .rod import Placed
from .wall import Wall
from .wall_profile import STANDING, Span, points_behind, wall_points
from .worktop_depth import front_face_mm


@dataclass(frozen=True)
class BayDepth:
    """`wants_mm`: what the appliance's sheet asks for, None where nobody read it. `has_mm`: least void + bay + front.
    `past_batten_mm`: what is left of that in front of the batten's face. `words`: the sum."""

    placed: Placed
    wants_mm: float | None
    has_mm: float
    past_batten_mm: float
    void_mm: float
    front_mm: float

    @property
    def span(self) -> Span:
        return self.placed.left_mm, self.placed.right_mm

    @property
    def proud_mm(self) -> float:
        return 0.0 if self.wants_mm is None else max(self.wants_mm - self.has_mm, 0.0)

    @property
    def cuts_batten(self) -> bool:
        return self.wants_mm is not None and self.wants_mm > self.past_batten_mm + SAME_MM


def bay_depths(placed: Sequence[Placed], wall: Wall, line: FrontLine, forward_mm: float) -> tuple[BayDepth, ...]:
    """Every standing bay of a run. `forward_mm`: how far the batten's face lies in front of the line of backs.

    Without a front of its own an appliance may come out as far as the front of a unit beside it; one behind a front
    may not. The void is the least one behind the bay, since the machine is stiff.
    """
    row = [one for one in placed if one.stands]
    found = []
    for before, one, after in zip([None, *row], row, [*row[1:], None], strict=False):
        bay = one.item
        if not isinstance(bay, ApplianceBay):
            continue
        beside = [each.item for each in (before, after) if each and isinstance(each.item, Carcass | OpenUnit)]
        front_mm = 0.0 if bay.front else max((front_face_mm(item) for item in beside), default=0.0)
        span = (one.left_mm + line.zero_mm, one.right_mm + line.zero_mm)
        voids = [
            line.back_at(point.x_mm) - point.y_mm
            for height in STANDING
            for point in points_behind(wall_points(wall, height), [span])
        ]
        void_mm = min(voids, default=line.least_void.mm)
        sheet = bay.appliance
        wants_mm = sheet.greatest_depth_mm if sheet.least_depth_mm is None else sheet.least_depth_mm
        depth_mm = bay.depth_mm + front_mm
        found.append(BayDepth(one, wants_mm, void_mm + depth_mm, depth_mm - forward_mm, void_mm, front_mm))
    return tuple(found)
