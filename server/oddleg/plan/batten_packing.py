"""What is left for packing behind a batten, anywhere along it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from oddleg.job import Feature, Job, WallHeight

from .front_line import FrontLine
from .wall import Wall
from .wall_profile import Span, WallPoint, wall_at, wall_points

# What a plane takes off plaster without anybody measuring it: less is not told.
NOTHING_MM = 0.05


@dataclass(frozen=True)
class Obstacle:
    """Something that stands out of the wall at batten height, on the rod from `left_mm` to `right_mm`."""

    name: str
    left_mm: float
    right_mm: float
    stands_out_mm: float


@dataclass(frozen=True)
class Packing:
    """Packing at one place of the rod, and what it rests on. `void_mm`: wall (or what stands out of it) to backs."""

    x_mm: float
    mm: float
    void_mm: float
    wall_mm: float
    back_mm: float
    on: str


@dataclass(frozen=True)
class Stretch:
    """Where packing is below nought: from left to right, worst at `worst`."""

    left_mm: float
    right_mm: float
    worst: Packing


@dataclass(frozen=True)
class Behind:
    """The wall behind a batten, in the rod's axes; the batten's face lies `forward_mm` in front of the line of backs
    (in the recess of the backs, else 0), its back `thickness_mm` behind that."""

    line: FrontLine
    points: tuple[WallPoint, ...]
    obstacles: tuple[Obstacle, ...]
    forward_mm: float
    thickness_mm: float
    reach_mm: float

    def at(self, x_mm: float) -> Packing | None:
        """None where the wall is not read. Packing = void + recess - batten (first principles)."""
        wall = wall_at(self.points, x_mm, self.reach_mm)
        if wall is None:
            return None
        on = [one for one in self.obstacles if one.left_mm <= x_mm <= one.right_mm]
        most = max(on, key=lambda one: one.stands_out_mm, default=None)
        face_mm = wall.y_mm + (most.stands_out_mm if most else 0.0)
        back_mm = self.line.back_at(x_mm + self.line.zero_mm)
        void_mm = back_mm - face_mm
        words = f"{most.name}, which stands out of the wall" if most else wall.name
        return Packing(x_mm, void_mm + self.forward_mm - self.thickness_mm, void_mm, face_mm, back_mm, words)

    def along(self, stretch: Span) -> list[Packing]:
        """At both ends of a stretch of batten, at every reading, and on either side of each edge of what stands out:
        between these the packing is straight."""
        left_mm, right_mm = stretch
        edges = [x for one in self.obstacles for x in (one.left_mm, one.right_mm)]
        beside = [x + step for x in edges for step in (-1e-6, 0.0, 1e-6)]
        inside = {x for x in (*(one.x_mm for one in self.points), *beside) if left_mm < x < right_mm}
        return [found for x in sorted({left_mm, right_mm, *inside}) if (found := self.at(x)) is not None]


def behind(
    job: Job,
    wall: Wall,
    line: FrontLine,
    obstacles: Sequence[tuple[Feature, float]],
    forward_mm: float,
    thickness_mm: float,
) -> Behind:
    """`obstacles`: features that come to batten height, each with how far it stands out."""
    moved_mm = line.zero_mm
    return Behind(
        line,
        tuple(
            WallPoint(one.x_mm - moved_mm, one.y_mm, one.height, one.name)
            for one in wall_points(wall, WallHeight.BATTEN)
        ),
        tuple(Obstacle(one.name, one.left_mm - moved_mm, one.right_mm - moved_mm, out_mm) for one, out_mm in obstacles),
        forward_mm,
        thickness_mm,
        job.tolerances.wall_spacing_mm / 2,
    )


def short_stretches(along: Sequence[Packing]) -> list[Stretch]:
    """Where packing is below nought along one stretch of batten, straight between the places given."""
    found: list[Stretch] = []
    here: list[Packing] = []
    left_mm = 0.0
    for before, one in pairwise([None, *along]):
        assert one is not None
        if one.mm < -NOTHING_MM:
            if not here:
                left_mm = one.x_mm if before is None else _nought(before, one)
            here.append(one)
        elif here:
            assert before is not None
            found.append(Stretch(left_mm, _nought(before, one), min(here, key=lambda each: each.mm)))
            here = []
    if here:
        found.append(Stretch(left_mm, here[-1].x_mm, min(here, key=lambda each: each.mm)))
    return found


def _nought(before: Packing, after: Packing) -> float:
    """Where the straight line between two packings passes nought."""
    if before.mm == after.mm:
        return before.x_mm
    share = max(0.0, min(1.0, before.mm / (before.mm - after.mm)))
    return before.x_mm + (after.x_mm - before.x_mm) * share
