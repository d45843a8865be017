"""Distances from lines to a wall made into one wall: repeats, a line that was moved, and lines joined to each other.

A line is parallel to y = 0 of its run, so a reading r of it puts the wall's face at y = stands_off - r. A second line
of the same run is known only up to where it stands and how it is turned: both follow from the spots read from both.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import Entry, Tolerances, WallHeight, WallLine, WallReading

from .figure import figure
from .finding import Finding, Severity
from .knock_places import knock_places
from .sightings import DIFFERENCE_STEP_MM, counted, listed, named, shown_mm
from .site import body
from .wall_profile import HEIGHT_WORDS

Spot = tuple[str, WallHeight]

# What arithmetic may be out, so that exactly at a limit is not over it.
HAIR_MM = 1e-9
# Two spots nearer to each other than this say nothing of how a line is turned.
LEAST_BASE_MM = 1.0
HEIGHT_ORDER = (WallHeight.BATTEN, WallHeight.FLOOR, WallHeight.WORKTOP, WallHeight.WALL_UNITS)


@dataclass(frozen=True)
class Shot:
    """One live reading of a line. `position`: order in the job's log."""

    uid: str
    position: int
    line: str
    station: str
    name: str
    height: WallHeight
    x_mm: float
    value_mm: float

    @property
    def spot(self) -> Spot:
        return self.station, self.height

    @property
    def words(self) -> str:
        return f"{self.name} {HEIGHT_WORDS[self.height]}"


@dataclass(frozen=True)
class WallAt:
    """The wall's face at one spot. `from_lines`: of each line, its name and the readings in mm."""

    x_mm: float
    wall_mm: float
    uids: tuple[str, ...]
    from_lines: tuple[tuple[str, tuple[float, ...]], ...]


@dataclass(frozen=True)
class LinesRead:
    """`walls`: every spot that can be used. `lines`: in the order in which they were joined, then those that were not.
    `words`: what the first line's y is, as a sentence. `again`: spots that a line has read twice, the line standing."""

    walls: Mapping[Spot, WallAt]
    lines: tuple[WallLine, ...]
    words: str
    shots: tuple[Shot, ...]
    findings: tuple[Finding, ...]


def shots_of(readings: Iterable[Entry]) -> tuple[Shot, ...]:
    """The readings in the order of the job's log."""
    return tuple(
        Shot(one.uid, one.position, of.line, of.station, of.name, of.height, of.x_mm, of.value_mm)
        for one in sorted(readings, key=lambda one: (one.position, one.uid))
        for of in (body(one, WallReading),)
    )


def lines_read(
    lines: Sequence[WallLine], shots: Sequence[Shot], tolerances: Tolerances, run: str, run_id: str
) -> LinesRead:
    """The wall of one run from all its lines. The first is one that says where it stands, and of several the one that
    was read from first; the others are joined to it one by one, most common spots first."""
    findings: list[Finding] = []
    usable: dict[str, dict[Spot, list[Shot]]] = {}
    for line in lines:
        own = [shot for shot in shots if shot.line == line.id]
        standing, moved = before_it_moved(line, own, tolerances, run_id)
        spots, differ = without_contradictions(line, standing, tolerances, run_id)
        findings += [*moved, *differ]
        if spots:
            usable[line.id] = spots
    first_read = {shot.line: shot.position for shot in reversed(shots)}
    order = sorted(
        (line for line in lines if line.id in usable),
        key=lambda line: (line.stands_off_mm is None, first_read[line.id], line.id),
    )
    if not order:
        return LinesRead({}, tuple(lines), "", tuple(shots), tuple(findings))
    first, *rest = order
    stands_off_mm, words = _stands_off(first, usable[first.id])
    walls: dict[Spot, list[tuple[Shot, float]]] = {}
    _put(walls, usable[first.id], stands_off_mm, 0.0)
    joined = [first]
    while rest:
        rest.sort(key=lambda line: (-len(usable[line.id].keys() & walls.keys()), first_read[line.id], line.id))
        line = rest.pop(0)
        found, told = _joined(line, usable[line.id], walls, joined, tolerances, run, run_id)
        findings += told
        if found is not None:
            _put(walls, usable[line.id], *found)
            joined.append(line)
    others = [line for line in lines if line not in joined]
    names = {line.id: line.name for line in lines}
    made = {spot: _wall_at(pairs, names) for spot, pairs in walls.items()}
    return LinesRead(made, (*joined, *others), words, tuple(shots), tuple(findings))


def _stands_off(line: WallLine, spots: Mapping[Spot, Sequence[Shot]]) -> tuple[float, str]:
    if line.stands_off_mm is not None:
        return line.stands_off_mm, f"{line.name} stands {shown_mm(line.stands_off_mm)} off"
    leftmost = min(spots.values(), key=lambda same: (same[0].x_mm, HEIGHT_ORDER.index(same[0].height), same[0].station))
    return _mean(leftmost), f"0 is the wall's face at {leftmost[0].words}, where {line.name} was read furthest left"


def _mean(same: Sequence[Shot]) -> float:
    return math.fsum(one.value_mm for one in same) / len(same)


def _put(
    walls: dict[Spot, list[tuple[Shot, float]]], spots: Mapping[Spot, Sequence[Shot]], off_mm: float, slope: float
) -> None:
    for spot, same in spots.items():
        walls.setdefault(spot, []).extend((one, off_mm + slope * one.x_mm - one.value_mm) for one in same)


def _wall_at(pairs: Sequence[tuple[Shot, float]], names: Mapping[str, str]) -> WallAt:
    by_line: dict[str, list[float]] = {}
    for shot, _ in pairs:
        by_line.setdefault(shot.line, []).append(shot.value_mm)
    return WallAt(
        pairs[0][0].x_mm,
        math.fsum(wall_mm for _, wall_mm in pairs) / len(pairs),
        tuple(sorted(shot.uid for shot, _ in pairs)),
        tuple((names[line], tuple(sorted(values))) for line, values in by_line.items()),
    )


def _joined(
    line: WallLine,
    spots: Mapping[Spot, Sequence[Shot]],
    walls: Mapping[Spot, Sequence[tuple[Shot, float]]],
    joined: Sequence[WallLine],
    tolerances: Tolerances,
    run: str,
    run_id: str,
) -> tuple[tuple[float, float] | None, list[Finding]]:
    """Where a line stands at x = 0 and its slope, by least squares over the spots that it shares; None: unknown."""
    common = sorted(spots.keys() & walls.keys())
    xs = [spots[spot][0].x_mm for spot in common]
    firsts = listed([one.name for one in joined])
    if len(common) < 2 or max(xs) - min(xs) < LEAST_BASE_MM:
        shared = f"shares {counted(len(common), 'spot')} with {firsts}" if common else f"shares no spot with {firsts}"
        return None, [
            Finding(
                "wall.not_joined",
                Severity.WARN,
                f"{line.name}, {run}",
                f"{line.name} {shared}, so nobody knows how it stands to the wall read before. What was read from it "
                "does not count.",
                f"From {line.name}, read two or more places again that were read from {firsts}, as far apart as can "
                "be.",
                "two spots far apart tie one line to another",
                concerns=(run_id, line.id),
            )
        ]
    # y of the line at each spot: the wall there and its distance from the line.
    ys = [math.fsum(w for _, w in walls[spot]) / len(walls[spot]) + _mean(spots[spot]) for spot in common]
    mean_x, mean_y = math.fsum(xs) / len(xs), math.fsum(ys) / len(ys)
    base = math.fsum((x - mean_x) ** 2 for x in xs)
    slope = math.fsum((x - mean_x) * (y - mean_y) for x, y in zip(xs, ys, strict=True)) / base
    off_mm = mean_y - slope * mean_x
    residuals = {spot: y - off_mm - slope * x for spot, x, y in zip(common, xs, ys, strict=True)}
    worst = max(residuals, key=lambda spot: (abs(residuals[spot]), spot))
    if abs(residuals[worst]) > tolerances.wall_repeat_mm + HAIR_MM:
        return None, [_does_not_fit(line, spots[worst][0], residuals[worst], firsts, tolerances, run, run_id)]
    # Two readings meet at each common spot, each good to the tape's give or take; so the line is at its far end.
    far_mm = max(abs(same[0].x_mm - mean_x) for same in spots.values())
    loose_mm = tolerances.tape_mm * math.sqrt(2.0) * math.sqrt(1.0 / len(xs) + far_mm**2 / base)
    told = []
    if loose_mm > tolerances.wall_off_line_mm:
        told.append(
            Finding(
                "wall.loosely_joined",
                Severity.WARN,
                f"{line.name}, {run}",
                f"{line.name} is tied to {firsts} by spots within {shown_mm(max(xs) - min(xs))} of each other: at its "
                f"far end the wall is known to ±{shown_mm(loose_mm)} only.",
                f"From {line.name}, read again a place further off that was read from {firsts} too.",
                "least squares over the common spots, each reading good to the job's tape",
                figure(loose_mm, DIFFERENCE_STEP_MM),
                (run_id, line.id),
            )
        )
    return (off_mm, slope), told


def _does_not_fit(
    line: WallLine, worst: Shot, residual_mm: float, firsts: str, tolerances: Tolerances, run: str, run_id: str
) -> Finding:
    return Finding(
        "wall.does_not_fit",
        Severity.STOP,
        f"{line.name}, {run}",
        f"Where the wall was read from {firsts} and from {line.name}, the two do not fit together: {worst.words} is "
        f"out by {shown_mm(abs(residual_mm))}, more than {shown_mm(tolerances.wall_repeat_mm)}. One line was moved "
        f"half way, or a reading is wrong. What was read from {line.name} does not count.",
        f"Read {worst.words} again from {line.name} and undo the reading that is wrong; where it is the line, start a "
        "new one.",
        "least squares over the common spots, the job's tolerance for repeats at a wall",
        figure(residual_mm, DIFFERENCE_STEP_MM, signed=True),
        (run_id, line.id, worst.station),
    )


def by_spot(shots: Sequence[Shot]) -> dict[Spot, list[Shot]]:
    found: dict[Spot, list[Shot]] = {}
    for one in shots:
        found.setdefault(one.spot, []).append(one)
    return found


def before_it_moved(
    line: WallLine, shots: Sequence[Shot], tolerances: Tolerances, run_id: str
) -> tuple[Sequence[Shot], list[Finding]]:
    """The readings taken while the line stood as at first, and a stop where it was moved after them.

    A spot read again after others, and by more than the tolerance different, says either that the line has moved or
    that one of the two is wrong. It has moved where two spots or more changed alike, or the very first one did: that is
    what it was read again for. Any other is a reading to be put right.
    """
    changed = {}
    at = {one.uid: number for number, one in enumerate(shots)}
    for spot, same in by_spot(shots).items():
        shift_mm = same[-1].value_mm - same[0].value_mm
        if abs(shift_mm) <= tolerances.wall_repeat_mm + HAIR_MM:
            continue
        if any(one.station != spot[0] for one in shots[at[same[0].uid] : at[same[-1].uid]]):
            changed[spot] = shift_mm
    if not changed:
        return shots, []
    spread_mm = max(changed.values()) - min(changed.values())
    closing = any(spot[0] == shots[0].station for spot in changed)
    if spread_mm > 2 * tolerances.wall_repeat_mm + HAIR_MM or not (closing or len(changed) > 1):
        return shots, []
    shift_mm = math.fsum(changed.values()) / len(changed)
    breaks = knock_places([one.spot for one in shots], [one.value_mm for one in shots], shift_mm)
    if not breaks:
        return shots, []
    # Of the places where it may have moved, one where the wall seems to step by as much as the line has moved.
    steps = list({shots[at].station: at for at in reversed(breaks) if _steps(shots, at, shift_mm)}.values())
    first_after = steps[0] if len(steps) == 1 else breaks[0]
    return shots[:first_after], [_moved(line, shots, changed, shift_mm, first_after, steps, breaks, run_id, tolerances)]


def _steps(shots: Sequence[Shot], at: int, shift_mm: float) -> bool:
    """Whether the reading differs by about the shift from the last one at this height of another station."""
    one = shots[at]
    before = [shot for shot in shots[:at] if shot.height is one.height and shot.station != one.station]
    return bool(before) and abs(one.value_mm - before[-1].value_mm - shift_mm) <= abs(shift_mm) / 2


def _moved(
    line: WallLine,
    shots: Sequence[Shot],
    changed: Mapping[Spot, float],
    shift_mm: float,
    first_after: int,
    steps: Sequence[int],
    breaks: Sequence[int],
    run_id: str,
    tolerances: Tolerances,
) -> Finding:
    names = named(list(dict.fromkeys(one.words for one in shots if one.spot in changed)))
    last_before = shots[first_after - 1]
    found = len(steps) == 1 or len(breaks) == 1
    where = f"between {last_before.words} and {shots[first_after].words}"
    where = where if found else f"somewhere after {last_before.words} was read"
    return Finding(
        "wall.line_moved",
        Severity.STOP,
        line.name,
        f"Read again, {names} differs by {shown_mm(abs(shift_mm))}, more than {shown_mm(tolerances.wall_repeat_mm)}: "
        f"{line.name} was moved {where}. What was read from it after {last_before.words} does not count.",
        f"Put up a new line, read from it two places that were read before it moved and all that came after, and undo "
        f"the readings of {line.name} from {shots[first_after].words} on. If the line stands as it did, undo the "
        "reading that is wrong.",
        "the job's tolerance for repeats at a wall",
        figure(shift_mm, DIFFERENCE_STEP_MM, signed=True),
        (run_id, line.id),
    )


def without_contradictions(
    line: WallLine, shots: Sequence[Shot], tolerances: Tolerances, run_id: str
) -> tuple[dict[Spot, list[Shot]], list[Finding]]:
    """The readings by spot, without spots whose repeats from this line differ by more than `wall_repeat_mm`."""
    spots, findings = by_spot(shots), []
    for spot, same in sorted(spots.items()):
        spread_mm = max(one.value_mm for one in same) - min(one.value_mm for one in same)
        if spread_mm <= tolerances.wall_repeat_mm + HAIR_MM:
            continue
        del spots[spot]
        findings.append(
            Finding(
                "wall.repeats_differ",
                Severity.STOP,
                f"{same[0].words}, {line.name}",
                f"{counted(len(same), 'reading')} of one spot from {line.name} differ by {shown_mm(spread_mm)} "
                f"({listed([shown_mm(one.value_mm) for one in same])}), more than "
                f"{shown_mm(tolerances.wall_repeat_mm)}: the wall is open here.",
                f"Read {same[0].words} again and undo the reading that is wrong.",
                "the job's tolerance for repeats at a wall",
                figure(spread_mm, DIFFERENCE_STEP_MM),
                (run_id, spot[0], line.id),
            )
        )
    return spots, findings
