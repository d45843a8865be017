"""The wall at the end of a run, as far as fronts come past it: how far off it is, how it closes in, what stands out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from oddleg.job import Feature, FrontMoves, Item, OpeningDepth, Room, Run, Storey, WallHeight

from .axes import to_room, to_run
from .corner_arms import HANGING
from .front_paths import face_mm, front_of, hangs_at, reach_mm, with_handle_mm
from .meeting_runs import OFF_SQUARE_DEG, SQUARE_DEG, crossing
from .rod import Placed
from .set_out import Rod
from .wall import EndWall, Wall
from .wall_profile import STANDING

# A run along the end wall is drawn within this of it.
ALONG_MM = 150.0
CLOSING = "wall closing in"


@dataclass(frozen=True)
class OutOfWall:
    """Something on the end wall, from `near_mm` to `far_mm` out of the run's y = 0, standing out `out_mm`."""

    feature: Feature
    near_mm: float
    far_mm: float
    out_mm: float


@dataclass(frozen=True)
class SideWall:
    side: str
    measured: tuple[EndWall, ...]
    out: tuple[OutOfWall, ...]

    def beyond_mm(self, one: Placed) -> float:
        """How far the wall lies beyond the rod's mark along the fronts where it is nearest; 0 where not measured."""
        heights = heights_of(one.item)
        for depth in (OpeningDepth.FRONT, OpeningDepth.BACK):
            found = [each.beyond.mm for each in self.measured if each.depth is depth and each.height in heights]
            if found:
                return min(found)
        return 0.0

    def on_the_way(self, one: Placed, datum_mm: float | None) -> tuple[tuple[str, float], ...]:
        """What takes room from a front as it comes out: the wall closing in, and what stands out of it most."""
        front, depth_mm = front_of(one.item), one.front_mm
        if front is None or depth_mm is None:
            return ()
        swings_away = front.moves is FrontMoves.DOOR and not hangs_at(one.item, self.side)
        far_mm = depth_mm + with_handle_mm(front) + (0.0 if swings_away else reach_mm(one.item))
        found = []
        closing_mm = 0.0 if swings_away else self._closing(one) * reach_mm(one.item)
        if closing_mm > 0:
            found.append((CLOSING, closing_mm))
        met = [
            each
            for each in self.out
            if each.near_mm < far_mm
            and each.far_mm > depth_mm + min(face_mm(front), 0.0)
            and at_height(one, each.feature, datum_mm)
        ]
        if met:
            most = max(met, key=lambda each: (each.out_mm, each.feature.id))
            found.append((most.feature.name, most.out_mm))
        return tuple(found)

    def _closing(self, one: Placed) -> float:
        """How much the wall comes in for each mm out of the fronts; 0 where it opens or was measured at one depth."""
        worst = 0.0
        deep_mm = one.front_mm or 0.0
        for height in heights_of(one.item):
            back, front = (
                [each.beyond.mm for each in self.measured if each.height is height and each.depth is depth]
                for depth in (OpeningDepth.BACK, OpeningDepth.FRONT)
            )
            if back and front and deep_mm > 0:
                worst = max(worst, (min(back) - min(front)) / deep_mm)
        return worst


def heights_of(item: Item) -> tuple[WallHeight, ...]:
    if item.storey is Storey.TALL:
        return tuple(WallHeight)
    return HANGING if item.storey is Storey.WALL else STANDING


def at_height(one: Placed, feature: Feature, datum_mm: float | None) -> bool:
    """Whether a feature can be as high as the front: unless the datum says that it lies wholly above or below."""
    if datum_mm is None:
        return True
    top_mm = datum_mm + one.run.datum_offset_mm
    if one.item.storey is Storey.BASE:
        return feature.bottom_mm is None or feature.bottom_mm < top_mm
    if one.item.storey is Storey.WALL:
        return feature.top_mm is None or feature.top_mm > top_mm
    return True


def side_wall(room: Room, walls: Mapping[str, Wall], rod: Rod, side: str) -> SideWall:
    """What is known of the wall at one end of a run: measured gaps, and the features of any run along that wall."""
    wall = walls.get(rod.run.id)
    measured = tuple(each for each in (wall.end_walls if wall else ()) if each.side == side)
    end_mm = rod.left_mm if side == "left" else rod.right_mm
    turn_deg = SQUARE_DEG if side == "right" else 360.0 - SQUARE_DEG
    found = []
    for run in room.runs:
        turned = (run.bearing_deg - rod.run.bearing_deg) % 360.0
        crossed = crossing(rod.run, run, rod.run.void_mm) if abs(turned - turn_deg) <= OFF_SQUARE_DEG else None
        if run.id == rod.run.id or crossed is None or abs(crossed[0] - end_mm) > ALONG_MM:
            continue
        features = walls[run.id].features if run.id in walls else run.features
        found += [_out(rod.run, run, each) for each in features if each.stands_out_mm > 0]
    return SideWall(side, measured, tuple(found))


def _out(own: Run, along: Run, feature: Feature) -> OutOfWall:
    y_mm = [to_run(own, to_room(along, x_mm, 0.0))[1] for x_mm in (feature.left_mm, feature.right_mm)]
    return OutOfWall(feature, min(y_mm), max(y_mm), feature.stands_out_mm)
