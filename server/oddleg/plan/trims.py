"""Cornices and light rails along wall units: how long each piece is, to the long point of its mitres."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import (
    ApplianceBay,
    Carcass,
    EndsAt,
    Gap,
    HeightOf,
    Job,
    OpenUnit,
    Run,
    Storey,
    Trim,
    WallHeight,
)

from .axes import to_room, to_run
from .corner_arms import READ_REACH_MM
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .heights import SAME_MM, Height
from .rod import Placed
from .set_out import Rod
from .setting_out import RunSetOut
from .tall_wall import TrimLength
from .wall_profile import wall_at, wall_points
from .worktop_depth import front_face_mm

Rising = Mapping[tuple[HeightOf, str], Height]

NEAR_MM = 60.0
"""How near its last unit a wall or another unit's side must be for a trim to end against it (ours: a filler's room)."""
FITTED = "cut long and fitted to the wall"
AT_WALL = f"square against the wall, {FITTED}"


@dataclass(frozen=True)
class _Edge:
    """Neighbours along which one trim runs straight: their front faces at `face_mm`, the edge at `level_mm` over the
    datum."""

    units: tuple[Placed, ...]
    face_mm: float
    level_mm: float

    @property
    def left_mm(self) -> float:
        return self.units[0].left_mm

    @property
    def right_mm(self) -> float:
        return self.units[-1].right_mm

    def end_mm(self, right: bool) -> float:
        return self.right_mm if right else self.left_mm


@dataclass(frozen=True)
class _End:
    """Where a front piece ends, to its long point, and in which words; whether a return runs back from there."""

    x_mm: float
    words: str
    returns: bool = False


def trim_lengths(
    job: Job, rods: Sequence[Rod], rising: Rising, runs: Sequence[RunSetOut] = ()
) -> tuple[tuple[TrimLength, ...], tuple[Finding, ...]]:
    """Cornices and light rails of a room's wall units by run, with what is wrong.

    A piece runs straight along neighbours whose edge (top for a cornice, underside for a light rail) and front face are
    in one line; fillers and panels among them and at its ends belong to it, scribed or not. Its outer face stands the
    overhang out of fronts and ends: at a free end it is mitred and longer by the overhang, and a return runs back, from
    its own long point to the wall. Against a wall, or a unit that stands or hangs higher (a light rail: lower) or
    further out, it is cut square. What meets a wall is as long as the most that was read there, and is cut long and
    fitted: a front piece to the plaster beyond the mark, a return back to the wall at wall-unit height (`runs`; the
    wanted void where nothing is read). In an inside corner two pieces meet in a mitre whose long point is at the line
    of the other's front faces. `rising`: heights over the datum by what and item. First principles.
    """
    walls = {one.run.id: one for one in runs}
    made: list[TrimLength] = []
    findings: list[Finding] = []
    edges = {
        (rod.run.id, of): _edges(rod, rising, of)
        for rod in rods
        for of in (HeightOf.WALL_UNIT_TOP, HeightOf.WALL_UNIT_UNDERSIDE)
    }
    for rod in rods:
        for what, trim, of in (
            ("cornice", rod.run.cornice, HeightOf.WALL_UNIT_TOP),
            ("light rail", rod.run.light_rail, HeightOf.WALL_UNIT_UNDERSIDE),
        ):
            if trim is None:
                continue
            own = edges[rod.run.id, of]
            if not own:
                findings.append(_of_nothing(rod.run, what))
                continue
            others = [
                edge for (run, height), found in edges.items() if run != rod.run.id and height is of for edge in found
            ]
            pieces = [
                piece
                for edge in own
                for piece in _pieces(job, rod, walls.get(rod.run.id), edge, trim, of, rising, others)
            ]
            total_mm = sum(length.mm for _, length in pieces)
            total = figure(
                total_mm, job.rounding_mm, "All its pieces together, to their long points; waste not counted."
            )
            made.append(TrimLength(rod.run.id, rod.run.name, what, tuple(pieces), total))
    return tuple(made), tuple(findings)


def _edges(rod: Rod, rising: Rising, of: HeightOf) -> list[_Edge]:
    """Straight stretches in order. Fillers, posts and panels go with the unit before them, else with the next."""
    groups: list[tuple[float, float, list[Placed]]] = []
    waiting: list[Placed] = []
    broken = True
    for one in rod.placed:
        item, height = one.item, rising.get((of, one.item.id))
        if one.stands:
            continue
        if isinstance(item, Gap | ApplianceBay):
            broken, waiting = True, []
        elif height is None or one.front_mm is None or not isinstance(item, Carcass | OpenUnit):
            (waiting if broken else groups[-1][2]).append(one)
        else:
            face_mm = one.front_mm + front_face_mm(item)
            straight = not broken and abs(groups[-1][0] - face_mm) < SAME_MM
            if straight and abs(groups[-1][1] - height.over_datum_mm) < SAME_MM:
                groups[-1][2].append(one)
            else:
                groups.append((face_mm, height.over_datum_mm, [*waiting, one]))
            broken, waiting = False, []
    return [_Edge(tuple(units), face_mm, level_mm) for face_mm, level_mm, units in groups]


def _pieces(
    job: Job,
    rod: Rod,
    run: RunSetOut | None,
    edge: _Edge,
    trim: Trim,
    of: HeightOf,
    rising: Rising,
    others: Sequence[_Edge],
) -> Iterator[tuple[str, Figure]]:
    step_mm, over_mm = job.rounding_mm, trim.overhang_mm
    left, right = (_end(rod, edge, trim, at_right, of, rising, others) for at_right in (False, True))
    names = (
        edge.units[0].item.name if len(edge.units) == 1 else f"{edge.units[0].item.name} to {edge.units[-1].item.name}"
    )
    why = (
        f"Along {names}, from {text_mm(left.x_mm, step_mm)} ({left.words}) to {text_mm(right.x_mm, step_mm)} "
        f"({right.words}) from the run's zero."
    )
    words = f"front, along {names}: at the left {left.words}; at the right {right.words}"
    yield words, figure(right.x_mm - left.x_mm, step_mm, why)
    for side, end, unit in (("left", left, edge.units[0]), ("right", right, edge.units[-1])):
        if end.returns:
            behind_mm, read = _behind_mm(run, edge, end.x_mm, edge.end_mm(side == "right"))
            deep_mm = edge.face_mm - edge.units[0].run.void_mm
            why = (
                f"From the line of backs to the front faces {text_mm(deep_mm, step_mm)}, plus void "
                f"{text_mm(behind_mm, step_mm)} {read}, plus overhang {text_mm(over_mm, step_mm)}."
            )
            yield (
                f"return at the {side} of {unit.item.name}, {FITTED}",
                figure(deep_mm + behind_mm + over_mm, step_mm, why),
            )


def _behind_mm(run: RunSetOut | None, edge: _Edge, *at_mm: float) -> tuple[float, str]:
    """The most that the wall lies behind the line of backs of what hangs, at these places along it, and how that is
    known."""
    line = None if run is None else run.hanging_line
    if run is not None and line is not None:
        points = wall_points(run.wall, WallHeight.WALL_UNITS)
        places = [wall_at(points, x_mm + line.zero_mm, READ_REACH_MM) for x_mm in at_mm]
        voids = [line.back_at(one.x_mm) - one.y_mm for one in places if one is not None]
        if voids:
            return max(voids), "as read there at wall-unit height"
        if line.read:
            return line.greatest_void.mm, "the greatest read along the run"
    return edge.units[0].run.void_mm, "as wanted, since the wall is not read there"


def _end(rod: Rod, edge: _Edge, trim: Trim, right: bool, of: HeightOf, rising: Rising, others: Sequence[_Edge]) -> _End:
    on, at_mm = (1.0 if right else -1.0), edge.end_mm(right)
    corner_mm = _corner(edge, right, others)
    if corner_mm is not None:
        return _End(corner_mm, "mitred into the other run's, long point at its front faces")
    end = rod.run.right_end if right else rod.run.left_end
    wall_mm = rod.right_mm if right else rod.left_mm
    if end.at is EndsAt.WALL and abs(wall_mm - at_mm) <= NEAR_MM:
        return _End(wall_mm + on * rod.beyond_mm[1 if right else 0], AT_WALL)
    hung = rod.hung_ends[1 if right else 0]
    if hung is not None and not hung.other_hangs and abs(wall_mm - at_mm) <= NEAR_MM:
        return _End(wall_mm + on * hung.beyond_mm, AT_WALL)
    if (beside := _beside(rod, edge, right, of, rising)) is not None:
        return _End(at_mm, f"square against {beside}")
    if not trim.returns:
        return _End(at_mm, "square at the free end")
    return _End(at_mm + on * trim.overhang_mm, "mitred for its return", True)


def _corner(edge: _Edge, right: bool, others: Sequence[_Edge]) -> float | None:
    """x at which the front faces of another run's trim, at the same level, cross this one's in an inside corner at this
    end: within the stretch (its last unit goes into the corner) or just past it."""
    on, own = (1.0 if right else -1.0), edge.units[0].run
    for other in others:
        run = other.units[0].run
        ends = [to_run(own, to_room(run, x_mm, other.face_mm)) for x_mm in (other.left_mm, other.right_mm)]
        (x0, y0), (x1, y1) = sorted(ends, key=lambda spot: spot[1])
        if abs(y1 - y0) <= abs(x1 - x0) or abs(other.level_mm - edge.level_mm) > SAME_MM:
            continue
        x_mm = x0 + (x1 - x0) * (edge.face_mm - y0) / (y1 - y0)
        behind, face = (to_run(own, to_room(run, other.left_mm, other.face_mm - back_mm)) for back_mm in (1.0, 0.0))
        looks_back = on * (behind[0] - face[0]) > 0
        comes_out = y1 > edge.face_mm and y0 <= edge.face_mm + NEAR_MM
        reached = edge.left_mm < x_mm < edge.right_mm or 0.0 <= on * (x_mm - edge.end_mm(right)) <= NEAR_MM
        if looks_back and comes_out and reached:
            return x_mm
    return None


def _beside(rod: Rod, edge: _Edge, right: bool, of: HeightOf, rising: Rising) -> str | None:
    """The name of a unit next to this end whose side the trim meets: one that stands tall, hangs further out, or
    reaches beyond the edge; None where the end is free above (below) its neighbour."""
    at_mm, top = edge.end_mm(right), of is HeightOf.WALL_UNIT_TOP
    for one in rod.placed:
        item = one.item
        gap_mm = (one.left_mm - at_mm) if right else (at_mm - one.right_mm)
        if not -SAME_MM <= gap_mm <= NEAR_MM or one.front_mm is None or one in edge.units:
            continue
        if item.storey is Storey.TALL:
            height = rising.get((HeightOf.TALL_TOP, item.id))
            if not top or height is None or height.over_datum_mm >= edge.level_mm - SAME_MM:
                return item.name
            continue
        height = rising.get((of, item.id)) if item.storey is Storey.WALL else None
        if height is None:
            continue
        beyond_mm = (height.over_datum_mm - edge.level_mm) * (1.0 if top else -1.0)
        if beyond_mm > SAME_MM or (abs(beyond_mm) <= SAME_MM and one.front_mm + front_face_mm(item) > edge.face_mm):
            return item.name
    return None


def _of_nothing(run: Run, what: str) -> Finding:
    return Finding(
        "tall.trim_of_nothing",
        Severity.NOTE,
        run.name,
        f"A {what} is asked for along its wall units, and none hang there.",
        "Look at the run in the job.",
        "first principles",
        concerns=(run.id,),
    )
