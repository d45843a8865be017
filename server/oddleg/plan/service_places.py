"""Services of a run where they are: along the rod, over the datum, and which of its items they land behind."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf

from oddleg.job import (
    ApplianceBay,
    Carcass,
    ComesFrom,
    EndPanel,
    FeatureKind,
    Gap,
    HeightOf,
    Job,
    OpenUnit,
    Room,
    Service,
    ServiceKind,
    Storey,
    UpFrom,
    WallHeight,
)

from .axes import to_room
from .finished_floor import Floor
from .heights import SAME_MM, Height, heights, underside_below_datum_mm
from .rod import Placed
from .setting_out import RunSetOut
from .wall_profile import STANDING, Span

OF_FEATURE = {FeatureKind.PIPE: ServiceKind.COLD, FeatureKind.ELECTRIC: ServiceKind.SOCKET}
"""Features that are cut out for where they stand out further than is free behind a back."""


@dataclass(frozen=True)
class Spot:
    """A service where it is: `left_mm`, `right_mm` on the rod; `level`: its lower and upper edge over the bench mark,
    `over`: over the room's datum, each None where it is not known. `floor_mm`: the finished floor's level there.
    `out_y_mm`: its middle out of the line of backs, for what comes out of the floor. `feature`: known as a feature of
    the wall only. `wanted`: the job's own service where another was found."""

    service: Service
    left_mm: float
    right_mm: float
    level: Span | None
    over: Span | None
    floor_mm: float | None
    out_y_mm: float | None = None
    feature: bool = False
    wanted: Service | None = None


@dataclass(frozen=True)
class Stood:
    """An item with the levels over the room's datum between which it covers the wall. `low_mm` of what stands on legs
    is its underside; below it the leg space is covered by the plinth."""

    placed: Placed
    low_mm: float
    high_mm: float

    @property
    def from_mm(self) -> float:
        return -inf if self.placed.stands else self.low_mm


@dataclass(frozen=True)
class Behind:
    """A service behind one item (or under it): `share_mm2` of it that the item covers; what counts is which is more."""

    spot: Spot
    stood: Stood
    share_mm2: float

    @property
    def under(self) -> bool:
        """Whether it lies wholly in the leg space."""
        return self.spot.over is not None and self.spot.over[1] <= self.stood.low_mm + SAME_MM


def spot_of(
    run: RunSetOut, floor: Floor, datum_mm: float | None, service: Service, wanted: Service | None = None
) -> Spot:
    """Where a service is. Its x counts, as that of a feature, in the axes that the wall was read in; the rod has its
    own zero."""
    x_mm = service.x_mm - run.line.zero_mm
    half_mm = service.width_mm / 2
    at = to_room(run.rod.run, x_mm, 0.0)
    found = floor.finished.at(at.x_mm, at.y_mm)
    floor_mm = None if found is None else found.level_mm
    level, over = levels_of(service, floor_mm, datum_mm, run.run.datum_offset_mm)
    out_y_mm = None
    if service.comes_from is ComesFrom.FLOOR and service.y_mm is not None:
        out_y_mm = service.y_mm - run.line.back_at(service.x_mm)
    return Spot(service, x_mm - half_mm, x_mm + half_mm, level, over, floor_mm, out_y_mm, wanted=wanted)


def levels_of(
    service: Service, floor_mm: float | None, datum_mm: float | None, offset_mm: float
) -> tuple[Span | None, Span | None]:
    """Lower and upper edge over the bench mark, and over the room's datum. What comes out of the floor begins at the
    finished floor and goes as high as it stands out."""
    if service.comes_from is ComesFrom.FLOOR:
        level = None if floor_mm is None else (floor_mm, floor_mm + service.stands_out_mm)
        return level, _less(level, datum_mm)
    if service.up_mm is None:
        return None, None
    half_mm = (service.width_mm if service.round else service.height_mm) / 2
    if service.up_from is UpFrom.DATUM:
        middle_mm = service.up_mm + offset_mm
        over = (middle_mm - half_mm, middle_mm + half_mm)
        return (None if datum_mm is None else (over[0] + datum_mm, over[1] + datum_mm)), over
    zero_mm = 0.0 if service.up_from is UpFrom.BENCH_MARK else floor_mm
    if zero_mm is None:
        return None, None
    level = (zero_mm + service.up_mm - half_mm, zero_mm + service.up_mm + half_mm)
    return level, _less(level, datum_mm)


def _less(level: Span | None, datum_mm: float | None) -> Span | None:
    return None if level is None or datum_mm is None else (level[0] - datum_mm, level[1] - datum_mm)


def feature_spots(
    run: RunSetOut, floor: Floor, datum_mm: float | None, services: Sequence[Service]
) -> tuple[Spot, ...]:
    """Pipes and electric outlets that are known as features of the wall only, as services that are there."""
    ids = {one.id for one in services}
    found = []
    for one in run.wall.features if run.wall is not None else run.run.features:
        kind = OF_FEATURE.get(one.kind)
        if kind is None or one.id in ids or one.stands_out_mm <= 0:
            continue
        known = one.bottom_mm is not None and one.top_mm is not None
        middle_mm = (one.bottom_mm + one.top_mm) / 2 if one.bottom_mm is not None and one.top_mm is not None else None
        high_mm = one.top_mm - one.bottom_mm if one.bottom_mm is not None and one.top_mm is not None else 0.0
        made = Service(
            one.id,
            one.name,
            kind,
            (one.left_mm + one.right_mm) / 2,
            middle_mm if known else None,
            one.right_mm - one.left_mm,
            high_mm,
            UpFrom.BENCH_MARK,
            stands_out_mm=one.stands_out_mm,
            reach=False,
            found=True,
        )
        found.append(replace(spot_of(run, floor, datum_mm, made), feature=True))
    return tuple(found)


def stood_items(
    job: Job, room: Room, placed: Sequence[Placed], run: RunSetOut, floor: Floor, datum_mm: float | None
) -> tuple[Stood, ...]:
    """Every item of a run that covers wall, with its levels over the datum. `placed`: of the whole room, since tall
    tops rule wall units."""
    rising = heights(job, room, placed)
    over = {(one.of, one.concerns[0]): one.over_datum_mm for one in rising}
    found = []
    for one in run.rod.placed:
        if isinstance(one.item, Gap):
            continue
        low_mm, high_mm = _span(job, one, over, run, floor, datum_mm, rising)
        found.append(Stood(one, low_mm, high_mm))
    return tuple(found)


def _span(
    job: Job,
    one: Placed,
    over: dict[tuple[HeightOf, str], float],
    run: RunSetOut,
    floor: Floor,
    datum_mm: float | None,
    rising: Sequence[Height],
) -> Span:
    item, offset_mm = one.item, run.run.datum_offset_mm
    if isinstance(item, Carcass | OpenUnit):
        below_mm = underside_below_datum_mm(job, one)
        if below_mm is not None:
            return -below_mm, item.height_mm - below_mm
        return over[HeightOf.WALL_UNIT_UNDERSIDE, item.id], over[HeightOf.WALL_UNIT_TOP, item.id]
    ids = {each.item.id for each in run.rod.placed}
    if item.storey is Storey.WALL:
        of_run = [each for each in rising if each.concerns[0] in ids]
        lows = [each.over_datum_mm for each in of_run if each.of is HeightOf.WALL_UNIT_UNDERSIDE]
        tops = [each.over_datum_mm for each in of_run if each.of is HeightOf.WALL_UNIT_TOP]
        return min(lows, default=inf), max(tops, default=-inf)
    if item.storey is Storey.BASE:
        low_mm = -inf
        if isinstance(item, EndPanel) and not item.to_floor:
            low_mm = offset_mm - job.base_carcass_height_mm
        return low_mm, offset_mm
    if isinstance(item, ApplianceBay) and datum_mm is not None:
        at = to_room(run.rod.run, (one.left_mm + one.right_mm) / 2, run.rod.run.void_mm)
        there = floor.bays[item.id].at(at.x_mm, at.y_mm) if item.id in floor.bays else None
        if there is not None:
            return -inf, there.level_mm + item.appliance.least_height_mm - datum_mm
    tops = [each.over_datum_mm for each in rising if each.of is HeightOf.TALL_TOP and each.concerns[0] in ids]
    return -inf, max(tops, default=inf)


def behind_of(spot: Spot, stood: Sequence[Stood]) -> tuple[Behind, ...]:
    """The items that a service lands behind or under, the one that covers most of it first; where its height is not
    known, all that it may land behind."""
    found = []
    for one in stood:
        wide_mm = min(spot.right_mm, one.placed.right_mm) - max(spot.left_mm, one.placed.left_mm)
        point = spot.right_mm == spot.left_mm and one.placed.left_mm <= spot.left_mm < one.placed.right_mm
        if wide_mm <= SAME_MM and not point:
            continue
        if spot.service.comes_from is ComesFrom.FLOOR:
            if one.placed.stands and _over(spot, one.placed):
                found.append(Behind(spot, one, wide_mm))
            continue
        high_mm = 1.0
        if spot.over is not None:
            high_mm = min(spot.over[1], one.high_mm) - max(spot.over[0], one.from_mm)
            flat = spot.over[0] == spot.over[1] and one.from_mm <= spot.over[0] < one.high_mm
            if high_mm <= SAME_MM and not flat:
                continue
        found.append(Behind(spot, one, max(wide_mm, SAME_MM) * max(high_mm, SAME_MM)))
    return tuple(sorted(found, key=lambda each: (-each.share_mm2, each.stood.placed.left_mm)))


def _over(spot: Spot, placed: Placed) -> bool:
    """Whether what comes out of the floor comes out under the item; not known: it may."""
    if spot.out_y_mm is None or placed.depth_mm is None:
        return True
    half_mm = spot.service.height_mm / 2
    return spot.out_y_mm + half_mm > 0 and spot.out_y_mm - half_mm < placed.depth_mm


def void_mm(run: RunSetOut, placed: Placed, left_mm: float, right_mm: float) -> float:
    """The least void between wall and line of backs along a span of the rod."""
    line = run.line if placed.stands or run.hanging_line is None else run.hanging_line
    read = {Storey.BASE: STANDING, Storey.WALL: (WallHeight.WALL_UNITS,)}.get(placed.item.storey, tuple(WallHeight))
    at = (min(left_mm, right_mm) + line.zero_mm, max(left_mm, right_mm) + line.zero_mm)
    return line.least_void_mm(run.wall, read, at)
