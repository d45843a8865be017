"""Runs that meet, moved in the room to where their rods put them: a mark on another run's line lies on that line."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from oddleg.job import Job, Room, Run

from .corner_arms import Lines, crossed_at
from .figure import figure
from .finding import Finding, Severity
from .front_line import FrontLine
from .meeting_runs import names_at
from .rod_ends import SIDES
from .set_out import Rod

Moves = Mapping[str, tuple[float, float]]


def as_rods_place(
    job: Job, room: Room, rods: Sequence[Rod], lines: Lines
) -> tuple[tuple[Rod, ...], Lines, tuple[Finding, ...]]:
    """Rods and lines with their runs moved in the room, not turned, so that each mark on another run's line of backs or
    carcass fronts lies on it there too; what does not close round a room, as findings.

    A room is measured otherwise than it is drawn: what is cut to another run's place (a plinth, a trim) is cut to the
    rod's. Of runs that hang together the first stays where it is. Along their own axes nothing moves. Round a ring
    there is one measure more than is needed: the moves are those of least squares.
    """
    from numpy import array, dot, zeros
    from numpy.linalg import lstsq

    order = {rod.run.id: place for place, rod in enumerate(rods)}
    rows, off_mm, ties = [], [], []
    for rod in rods:
        for side in SIDES:
            other = order.get(names_at(rod.run, side) or "")
            at_mm = None if other is None else crossed_at(rod, rods[other], side)
            if other is None or at_mm is None:
                continue
            turned_deg = rods[other].run.bearing_deg
            across = (-math.sin(math.radians(turned_deg)), math.cos(math.radians(turned_deg)))
            along = math.radians(rod.run.bearing_deg)
            slant = math.cos(along) * across[0] + math.sin(along) * across[1]
            row = zeros(2 * len(rods))
            for axis in (0, 1):
                row[2 * other + axis] += across[axis] / slant
                row[2 * order[rod.run.id] + axis] -= across[axis] / slant
            rows.append(row)
            off_mm.append(at_mm[0] - at_mm[1])
            ties.append((order[rod.run.id], other))
    if not rows:
        return tuple(rods), lines, ()
    matrix = array(rows)
    group = _groups(len(rods), ties)
    for first in set(group):
        matrix[:, 2 * first : 2 * first + 2] = 0.0
    moved = lstsq(matrix, array(off_mm), rcond=1e-9)[0]
    open_mm = dot(matrix, moved) - array(off_mm)
    moves = {id: (float(moved[2 * place]), float(moved[2 * place + 1])) for id, place in order.items()}
    found = []
    for first in sorted(set(group)):
        here = [abs(float(mm)) for mm, (own, _) in zip(open_mm, ties, strict=True) if group[own] == first]
        if sum(here, 0.0) > job.rounding_mm:
            found.append(_not_closed(room, [rods[n].run for n, of in enumerate(group) if of == first], here, job))
    return (
        tuple(_rod_moved(rod, moves) for rod in rods),
        {id: _lines_moved(both, moves[id]) if id in moves else both for id, both in lines.items()},
        tuple(found),
    )


def _groups(count: int, ties: Sequence[tuple[int, int]]) -> list[int]:
    """For each run the first of those that it hangs together with."""
    group = list(range(count))
    for one, other in ties:
        low, high = sorted((group[one], group[other]))
        group = [low if of == high else of for of in group]
    return group


def _rod_moved(rod: Rod, moves: Moves) -> Rod:
    by_mm = moves[rod.run.id]
    placed = tuple(replace(one, run=_moved(one.run, by_mm)) for one in rod.placed)
    return replace(rod, run=_moved(rod.run, by_mm), placed=placed)


def _lines_moved(
    both: tuple[FrontLine, FrontLine | None], by_mm: tuple[float, float]
) -> tuple[FrontLine, FrontLine | None]:
    stands, hangs = both
    hung = None if hangs is None else replace(hangs, set_out=_moved(hangs.set_out, by_mm))
    return replace(stands, set_out=_moved(stands.set_out, by_mm)), hung


def _moved(run: Run, by_mm: tuple[float, float]) -> Run:
    return replace(run, x_mm=run.x_mm + by_mm[0], y_mm=run.y_mm + by_mm[1])


def _not_closed(room: Room, runs: Sequence[Run], open_mm: Sequence[float], job: Job) -> Finding:
    amount = figure(sum(open_mm), job.rounding_mm, "What the openings round the room are apart, all together.")
    return Finding(
        "rod.ring",
        Severity.WARN,
        room.name,
        f"Round the room the openings of {', '.join(run.name for run in runs)} do not agree by {amount.text}: opposite "
        "ones lie between the same lines of backs.",
        "Measure the openings of opposite runs again; until then fit plinths and trims in those corners by eye.",
        "lines of backs that are parallel are equally far apart everywhere",
        amount,
        tuple(run.id for run in runs),
    )
