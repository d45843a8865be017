"""How the runs of a room are turned: those that meet share one rotation, since corner units are square."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from oddleg.job import LineIs, Run

from .corner import Corner
from .figure import figure
from .finding import Finding, Severity
from .meeting_runs import AT_THE_OTHER
from .minimax import WallHull, best_slope
from .parallel_to import parallel_words
from .sightings import DIFFERENCE_STEP_MM, listed, shown_mm

# Runs meet at 90 degrees, or at 45 where they are drawn so; what is off the nearest of these is off square.
DRAWN_DEG = 45.0
# Over a run of this length corners of a closed ring may be out by this much before a finding asks for new readings.
RING_MM, RING_LENGTH_MM = 2.0, 4000.0
SAME_SLOPE = 1e-9
# A line of backs that is turned by more to what it was drawn along follows no wall, but a reading that is wrong (ours).
GREATEST_SLOPE = 0.1


@dataclass(frozen=True)
class Group:
    """Runs that share one rotation: (run, what its slope is over that of the first of them)."""

    runs: tuple[tuple[Run, float], ...]


@dataclass
class Rotation:
    """`slopes` of the lines of backs by run, `how` each came about in words, the `groups`, and what is wrong by run."""

    slopes: dict[str, float] = field(default_factory=dict)
    how: dict[str, str] = field(default_factory=dict)
    groups: tuple[Group, ...] = ()
    findings: dict[str, list[Finding]] = field(default_factory=dict)

    def tell(self, run: Run, finding: Finding) -> None:
        self.findings.setdefault(run.id, []).append(finding)


def off_square_deg(angle_deg: float) -> float:
    """What an angle is off the nearest multiple of 45 degrees, from -22.5 up to 22.5."""
    return (angle_deg + DRAWN_DEG / 2) % DRAWN_DEG - DRAWN_DEG / 2


def rotation(
    runs: Sequence[Run], hulls: Mapping[str, WallHull], parallels: Mapping[str, float | None], corners: Sequence[Corner]
) -> Rotation:
    """The slope of every run's line of backs to its own reference line.

    `hulls`: the walls that are read, by run. `parallels`: the slope that a PARALLEL rule asks for, by run; None where
    the wall is not read there. The slopes of runs in a corner differ by the tangent of what the angle between their
    reference lines is off square (a corner opened by d turns the right-hand wall d more); angles add up as slopes do,
    to within 0.001 mm over 4 m for the few mm per metre that walls are out (first principles). One rule fixes the
    whole group; rules that contradict each other fix nothing and are told. SQUARE follows its run and does not pull it.
    """
    found = Rotation()
    found.groups = tuple(_groups(runs, corners, found))
    home = {run.id: number for number, group in enumerate(found.groups) for run, _ in group.runs}
    by_id = {run.id: run for run in runs}
    waiting = list(range(len(found.groups)))
    while waiting:
        ready = [one for one in waiting if not _waits_for(found.groups[one], home, found.slopes)]
        if not ready:
            for number in waiting:
                _tell_circle(found, found.groups[number])
            ready = list(waiting)
        for number in ready:
            waiting.remove(number)
            _settle(found, found.groups[number], by_id, hulls, parallels)
    return found


def _groups(runs: Sequence[Run], corners: Sequence[Corner], found: Rotation) -> list[Group]:
    by_id = {run.id: run for run in runs}
    links: dict[str, dict[str, float]] = {run.id: {} for run in runs}
    for corner in corners:
        left, right = corner.left_run.id, corner.right_run.id
        if left in links and right in links:
            turn = math.tan(math.radians(off_square_deg(corner.line_angle_deg)))
            links[left][right], links[right][left] = turn, -turn
    for run in runs:
        for end in (run.left_end, run.right_end):
            if end.at in AT_THE_OTHER and end.run in by_id and end.run != run.id and end.run not in links[run.id]:
                turn = _drawn_turn(run, by_id[end.run])
                links[run.id][end.run], links[end.run][run.id] = turn, -turn
    groups: list[Group] = []
    seen: set[str] = set()
    for run in runs:
        if run.id in seen:
            continue
        offsets = {run.id: 0.0}
        open_ends = [run.id]
        while open_ends:
            here = open_ends.pop(0)
            for there, turn in sorted(links[here].items()):
                if there not in offsets:
                    offsets[there] = offsets[here] + turn
                    open_ends.append(there)
        off = max((abs(offsets[a] + turn - offsets[b]) for a in offsets for b, turn in links[a].items()), default=0.0)
        if off * RING_LENGTH_MM > RING_MM:
            found.tell(run, _ring(run, [by_id[id].name for id in offsets], off))
        seen |= offsets.keys()
        groups.append(Group(tuple((by_id[id], offset) for id, offset in offsets.items())))
    return groups


def _drawn_turn(run: Run, other: Run) -> float:
    """What the slope of `other` is over that of `run` where both are square to each other and only the drawing tells
    how their reference lines lie."""
    return math.tan(math.radians(off_square_deg(run.bearing_deg - other.bearing_deg)))


def _waits_for(group: Group, home: Mapping[str, int], settled: Mapping[str, float]) -> bool:
    return any(
        run.front_line.line is LineIs.SQUARE
        and run.front_line.run in home
        and run.front_line.run not in settled
        and all(run.front_line.run != one.id for one, _ in group.runs)
        for run, _ in group.runs
    )


def _settle(
    found: Rotation,
    group: Group,
    by_id: Mapping[str, Run],
    hulls: Mapping[str, WallHull],
    parallels: Mapping[str, float | None],
) -> None:
    fixed: list[tuple[Run, float, str]] = []
    for run, offset in group.runs:
        rule = run.front_line
        if rule.line is LineIs.PARALLEL:
            slope = parallels.get(run.id)
            if slope is None:
                found.tell(run, _parallel_unread(run))
            else:
                fixed.append((run, slope - offset, f"parallel to {parallel_words(rule, run.features)}"))
        elif rule.line is LineIs.SQUARE and rule.run in found.slopes and rule.run is not None:
            other = by_id[rule.run]
            slope = found.slopes[other.id] + _drawn_turn(other, run)
            fixed.append((run, slope - offset, f"square to {other.name}"))
    apart = max((abs(slope - fixed[0][1]) for _, slope, _ in fixed), default=0.0)
    if apart > SAME_SLOPE:
        for run, _, _ in fixed:
            found.tell(run, _rules_clash(run, [one.name for one, _, _ in fixed], apart))
    read = [(hulls[run.id], offset) for run, offset in group.runs if run.id in hulls]
    names = [run.name for run, _ in group.runs if run.id in hulls]
    if fixed and apart <= SAME_SLOPE:
        slope = fixed[0][1]
        how = f"{fixed[0][0].name} lies {fixed[0][2]}"
    elif read:
        slope = best_slope(read)
        how = "it lies where it wastes least depth"
        if len(names) > 1:
            how = f"{listed(names)}, square to each other, lie where they waste least depth"
    else:
        slope, how = 0.0, ""
    turned = bool(fixed or read)
    drawn = max(abs(offset) for _, offset in group.runs)
    steepest = max((abs(slope + offset) for _, offset in group.runs), default=0.0)
    if turned and steepest > GREATEST_SLOPE + drawn:
        found.tell(group.runs[0][0], _too_steep(names or [run.name for run, _, _ in fixed], steepest, group))
        turned, how = False, "what was read would turn it too far, so that it lies as drawn"
    for run, offset in group.runs:
        found.slopes[run.id] = slope + offset if turned else 0.0
        found.how[run.id] = how


def _too_steep(names: Sequence[str], steepest: float, group: Group) -> Finding:
    return Finding(
        "front_line.too_steep",
        Severity.STOP,
        listed(names),
        f"What was read would turn the line of backs by {shown_mm(1000 * steepest)} per metre, more than "
        f"{shown_mm(1000 * GREATEST_SLOPE)}: no wall runs so far off the line it is drawn along, so a reading is "
        "wrong. The line is left as drawn.",
        "Look at the places that stand out or back most, read them again and undo what is wrong.",
        "ours: more than 1 in 10 is no wall",
        figure(1000 * steepest, DIFFERENCE_STEP_MM),
        tuple(run.id for run, _ in group.runs),
    )


def _tell_circle(found: Rotation, group: Group) -> None:
    for run, _ in group.runs:
        if run.front_line.line is LineIs.SQUARE:
            found.tell(
                run,
                Finding(
                    "front_line.square_in_a_circle",
                    Severity.WARN,
                    run.name,
                    f"{run.name} is to lie square to a run that itself is to lie square to it; neither says how.",
                    "Give one of them another rule for its front line.",
                    "one run must lie by itself for another to follow it",
                    concerns=(run.id,),
                ),
            )


def _ring(run: Run, names: Sequence[str], off: float) -> Finding:
    return Finding(
        "front_line.corners_do_not_close",
        Severity.WARN,
        listed(names),
        f"The corners round these runs do not close: together they are {shown_mm(off * 1000)} per metre out.",
        "Measure the corners' three sides again.",
        "the angles of a closed ring are known beforehand",
        figure(off * 1000, DIFFERENCE_STEP_MM),
        (run.id,),
    )


def _parallel_unread(run: Run) -> Finding:
    return Finding(
        "front_line.parallel_unread",
        Severity.WARN,
        run.name,
        f"The line is to lie parallel to {parallel_words(run.front_line, run.features)}, and the wall is not read at "
        "both of these places at one height; it is left free.",
        "Read the wall on both sides of these two places, at worktop height.",
        "a direction needs two points",
        concerns=(run.id,),
    )


def _rules_clash(run: Run, names: Sequence[str], apart: float) -> Finding:
    return Finding(
        "front_line.rules_clash",
        Severity.WARN,
        run.name,
        f"{listed(names)} meet in corners and share one rotation, but their rules ask for different ones, "
        f"{shown_mm(apart * 1000)} apart per metre; all are left free.",
        "Keep the rule of one of them and set the others free.",
        "corner units are square",
        figure(apart * 1000, DIFFERENCE_STEP_MM),
        (run.id,),
    )
