"""Checks of a wall once its lines are joined: jumps, single readings off their neighbours, stretches not read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from oddleg.job import Tolerances, WallHeight

from .figure import figure, text_mm
from .finding import Finding, Severity
from .knock_places import knock_places
from .sightings import DIFFERENCE_STEP_MM, listed, named, shown_mm
from .wall import WallSpot, WallStation
from .wall_lines import HAIR_MM, LinesRead, Shot, Spot
from .wall_profile import HEIGHT_WORDS

# The wall between readings further apart than so many spacings is not taken for read.
UNREAD_FROM_SPACINGS = 1.5


@dataclass(frozen=True)
class _Step:
    """A jump of the wall between two neighbours at one height: + out into the room, going right."""

    left: WallSpot
    right: WallSpot
    step_mm: float


def profile_findings(
    spots: Sequence[WallSpot], read: LinesRead, tolerances: Tolerances, run: str, run_id: str
) -> list[Finding]:
    """Jumps that may be a line that was moved, and single readings that stand off the line of their neighbours.

    A jump is no misreading, so that neighbours are looked at on either side of it by themselves.
    """
    findings: list[Finding] = []
    jumps: dict[tuple[str, str], list[_Step]] = {}
    for height in WallHeight:
        there = [one for one in spots if one.height is height and one.wall_mm is not None]
        steps = _steps(there, tolerances.wall_off_line_mm)
        for step in steps:
            jumps.setdefault((step.left.station, step.right.station), []).append(step)
        for side in _cut(there, steps):
            findings += _off_line(side, tolerances, run, run_id)
    told = [_jump(same, run, run_id) for same in jumps.values() if _may_have_moved(same, read.shots)]
    return [*told, *findings]


def _wall(spot: WallSpot) -> float:
    assert spot.wall_mm is not None
    return spot.wall_mm


def _steps(there: Sequence[WallSpot], limit_mm: float) -> list[_Step]:
    """Pairs of neighbours between which the wall jumps while it runs on evenly at both sides. A single spot that is out
    makes two jumps, there and back, and is none."""
    pairs = list(pairwise(there))
    if len(pairs) < 3:
        return []
    slopes = [(_wall(b) - _wall(a)) / (b.x_mm - a.x_mm) for a, b in pairs if b.x_mm > a.x_mm]
    usual = median(slopes) if slopes else 0.0
    jumps = [_wall(b) - _wall(a) - usual * (b.x_mm - a.x_mm) for a, b in pairs]
    found = []
    for number, (jump_mm, (left, right)) in enumerate(zip(jumps, pairs, strict=True)):
        beside = [abs(jumps[at]) for at in (number - 1, number + 1) if 0 <= at < len(jumps)]
        if abs(jump_mm) > limit_mm + HAIR_MM and all(one <= abs(jump_mm) / 2 for one in beside):
            found.append(_Step(left, right, jump_mm))
    return found


def _may_have_moved(steps: Sequence[_Step], shots: Sequence[Shot]) -> bool:
    """Whether one line, moved once between the readings of both places, would make this jump at all these heights. A
    spot read before and after alike says that the line stands and the wall is like that."""
    left = {uid for step in steps for uid in step.left.readings}
    right = {uid for step in steps for uid in step.right.readings}
    lines = {one.line for one in shots if one.uid in left | right}
    if len(lines) != 1:
        return False
    taken = [one for one in shots if one.line in lines]
    spots, values = [one.spot for one in taken], [one.value_mm for one in taken]
    step_mm = _greatest(steps).step_mm
    for first, then, shift_mm in ((left, right, -step_mm), (right, left, step_mm)):
        last_before = max(number for number, one in enumerate(taken) if one.uid in first)
        first_after = min(number for number, one in enumerate(taken) if one.uid in then)
        if any(last_before < at <= first_after for at in knock_places(spots, values, shift_mm)):
            return True
    return False


def _greatest(steps: Sequence[_Step]) -> _Step:
    return max(steps, key=lambda step: abs(step.step_mm))


def _jump(steps: Sequence[_Step], run: str, run_id: str) -> Finding:
    step = _greatest(steps)
    way = "out" if step.step_mm > 0 else "back"
    return Finding(
        "wall.jump",
        Severity.WARN,
        f"{step.left.name} to {step.right.name}, {run}",
        f"From {step.left.name} to {step.right.name} the wall jumps {way} by {shown_mm(abs(step.step_mm))}. It is like "
        "that, or the line was moved between the two.",
        f"Read {step.left.name} and {step.right.name} once more from where the line is now: what reads as before "
        "stands, and a line that was moved shows.",
        "the job's limit for one reading off its neighbours",
        figure(step.step_mm, DIFFERENCE_STEP_MM, signed=True),
        (run_id, step.left.station, step.right.station),
    )


def _cut(there: Sequence[WallSpot], steps: Sequence[_Step]) -> list[list[WallSpot]]:
    """The spots of one height in stretches without a jump."""
    after = {step.right.station for step in steps}
    sides: list[list[WallSpot]] = [[]]
    for one in there:
        if one.station in after:
            sides.append([])
        sides[-1].append(one)
    return sides


def _off_line(there: list[WallSpot], tolerances: Tolerances, run: str, run_id: str) -> list[Finding]:
    """Asks for a repeat of each spot that rests on one reading and lies off the line of its neighbours. The furthest
    off is judged first and then left out, so that its neighbours are not blamed for it; read twice alike, the wall is
    like that. An end has no two neighbours."""
    findings: list[Finding] = []
    while True:
        off = [
            (_wall(one) - _between(before, one, after), before, one, after)
            for before, one, after in zip(there, there[1:], there[2:], strict=False)
        ]
        over = [each for each in off if abs(each[0]) > tolerances.wall_off_line_mm + HAIR_MM]
        if not over:
            return findings
        off_mm, before, one, after = max(over, key=lambda each: (abs(each[0]), each[2].station))
        there = [other for other in there if other is not one]
        if len(one.readings) > 1:
            continue
        place = f"{one.name} {HEIGHT_WORDS[one.height]}"
        findings.append(
            Finding(
                "wall.off_line",
                Severity.WARN,
                f"{one.name}, {run}",
                f"On one reading, the wall at {place} lies {shown_mm(abs(off_mm))} "
                f"{'out of' if off_mm > 0 else 'behind'} the line from {before.name} to {after.name}; the limit is "
                f"{shown_mm(tolerances.wall_off_line_mm)}.",
                f"Read {place} again; if the wall is like that, the second reading settles it.",
                "the job's limit for one reading of a wall off its neighbours",
                figure(off_mm, DIFFERENCE_STEP_MM, signed=True),
                (run_id, one.station),
            )
        )


def _between(before: WallSpot, one: WallSpot, after: WallSpot) -> float:
    if after.x_mm == before.x_mm:
        return (_wall(before) + _wall(after)) / 2
    share = (one.x_mm - before.x_mm) / (after.x_mm - before.x_mm)
    return _wall(before) * (1 - share) + _wall(after) * share


def unread_findings(
    stations: Sequence[WallStation], spots: Sequence[WallSpot], tolerances: Tolerances, run: str, run_id: str
) -> list[Finding]:
    """A finding for each stretch that is not read at heights where it should be, once anything of the run is read.
    Between places read past the end of a run, where nothing is to be read any more, there is nothing to say."""
    if all(one.wall_mm is None for one in spots):
        return []
    at: Mapping[Spot, WallSpot] = {(one.station, one.height): one for one in spots}
    stretches: dict[tuple[str, str], list[WallHeight]] = {}
    ends: dict[tuple[str, str], tuple[WallStation, WallStation]] = {}
    for height in WallHeight:
        for group in _groups(stations, height):
            read = [one for one in group if (spot := at.get((one.id, height))) and spot.wall_mm is not None]
            for left, right in _gaps(group, read, tolerances.wall_spacing_mm):
                key = (left.id, right.id)
                stretches.setdefault(key, []).append(height)
                ends[key] = (left, right)
    told = (_unread(*ends[key], heights, stations, at, run, run_id) for key, heights in stretches.items())
    return [one for one in told if one is not None]


def _groups(stations: Sequence[WallStation], height: WallHeight) -> list[list[WallStation]]:
    """Stations where this height is to be read, in stretches of neighbours."""
    groups: list[list[WallStation]] = [[]]
    for one in stations:
        if height in one.heights:
            groups[-1].append(one)
        elif groups[-1]:
            groups.append([])
    return [group for group in groups if group]


def _gaps(
    group: Sequence[WallStation], read: Sequence[WallStation], spacing_mm: float
) -> list[tuple[WallStation, WallStation]]:
    if not read:
        return [(group[0], group[-1])]
    gaps = []
    if read[0].x_mm - group[0].x_mm > spacing_mm / 2:
        gaps.append((group[0], read[0]))
    gaps += [(a, b) for a, b in pairwise(read) if b.x_mm - a.x_mm > UNREAD_FROM_SPACINGS * spacing_mm + HAIR_MM]
    if group[-1].x_mm - read[-1].x_mm > spacing_mm / 2:
        gaps.append((read[-1], group[-1]))
    return gaps


def _unread(
    left: WallStation,
    right: WallStation,
    heights: Sequence[WallHeight],
    stations: Sequence[WallStation],
    at: Mapping[Spot, WallSpot],
    run: str,
    run_id: str,
) -> Finding | None:
    there = [
        one
        for one in stations
        if left.x_mm <= one.x_mm <= right.x_mm
        and any((spot := at.get((one.id, height))) and spot.wall_mm is None for height in heights)
    ]
    if not there:
        return None
    words = listed([HEIGHT_WORDS[height] for height in heights])
    if len(there) == 1:
        where = there[0].name
        place = f"at {where} ({text_mm(there[0].x_mm)} from the zero)"
        doubted = "there" if left is right else f"from {text_mm(left.x_mm)} to {text_mm(right.x_mm)}"
    else:
        where = f"{left.name} to {right.name}"
        place = f"from {where} ({text_mm(left.x_mm)} to {text_mm(right.x_mm)} from the zero)"
        doubted = "there"
    return Finding(
        "wall.not_read",
        Severity.WARN,
        f"{where}, {run}",
        f"The wall is not read {words} {place}: what it does {doubted} nobody knows.",
        f"Read {named([one.name for one in there])} {words}.",
        "wall stations every so far along the run, a value of the job",
        figure(right.x_mm - left.x_mm),
        (run_id,),
    )
