"""Computation 2, its last part: how flat a floor is under a straightedge, against a named class."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise

from oddleg.job import FlatnessClass, Job, Room

from .figure import figure, rounded_mm, text_mm
from .finding import Finding, Severity
from .surfaces import Spot, Surface

Profile = Sequence[tuple[float, float]]


@dataclass(frozen=True)
class Hollow:
    """The deepest place under the straightedge, mm below it, at the station `at`; the straightedge rests from
    `rests_from_mm` to `rests_to_mm` along `line`, counted from the line's first station."""

    depth_mm: float
    at: Spot
    line: tuple[Spot, ...]
    rests_from_mm: float
    rests_to_mm: float


def limit_mm(held_to: FlatnessClass, distance_mm: float) -> Decimal | None:
    """The greatest hollow that a class allows over a measuring distance, mm.

    Linear between the distances of its table, rounded half up to whole mm (DIN 18202); None outside them, and for a
    class of one distance anywhere but there. Raises ValueError for a distance that is not above 0.
    """
    if not 0 < distance_mm < math.inf:
        raise ValueError(f"a straightedge of {distance_mm} mm")
    # Decimal throughout: a half that floats miss by their last bit would be rounded the wrong way.
    distance = Decimal(repr(float(distance_mm)))
    rows = [(Decimal(repr(float(at))), Decimal(repr(float(most)))) for at, most in held_to.limits_mm]
    for at, most in rows:
        if at == distance:
            return most
    for (near, low), (far, high) in pairwise(rows):
        if near < distance < far:
            return rounded_mm(float(low + (high - low) * (distance - near) / (far - near)), 1)
    return None


def deepest(profile: Profile, straightedge_mm: float) -> tuple[float, int, float, float]:
    """Depth, mm, of the deepest point of a profile below a straightedge that rests on it; that point's number; and from
    where to where along the profile the straightedge rests.

    `profile`: (distance along, level) by rising distance, at least two, linear between. The straightedge lies on the
    highest points that it covers, wherever it is put along the profile: depth is measured from the upper convex hull of
    what it covers, ends included. One longer than the profile lies on all of it. Source: first principles.
    """
    first_mm, last_mm = profile[0][0], profile[-1][0]
    length_mm = min(straightedge_mm, last_mm - first_mm)
    found = (0.0, 0, first_mm, first_mm)
    for start_mm in _starts(profile, length_mm):
        under = _covered(profile, start_mm, start_mm + length_mm)
        for a, b in pairwise(_upper_hull([(x, z) for x, z, _ in under])):
            for x, z, number in under:
                if number is not None and a[0] < x < b[0]:
                    depth_mm = a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0]) - z
                    if depth_mm > found[0] + 1e-9:
                        found = (depth_mm, number, a[0], b[0])
    return found


def _starts(profile: Profile, length_mm: float) -> list[float]:
    """Where the straightedge's left end has to be tried.

    While both ends stay on the same two pieces of the profile, the depth at a point under a chord with one end on a
    point of the profile rises or falls throughout, and under a chord between the two ends it is a parabola. So the ends
    of each such stretch and the parabola's top, for each point, are enough.
    """
    first_mm, end_mm = profile[0][0], profile[-1][0] - length_mm
    ends = {first_mm, end_mm}
    for x, _ in profile:
        ends.update(one for one in (x, x - length_mm) if first_mm <= one <= end_mm)
    stretches = sorted(ends)
    tops = set()
    for left, right in pairwise(stretches):
        middle = (left + right) / 2
        (a0, a1), (b0, b1) = _line_at(profile, middle), _line_at(profile, middle + length_mm)
        if a1 == b1:
            continue
        under = slice(bisect_left(profile, right, key=_along), bisect_right(profile, left + length_mm, key=_along))
        for x, _ in profile[under]:
            # d/du of [(a0 + a1 u)(u + L - x) + (b0 + b1 (u + L))(x - u)] = 0
            top = (a0 + a1 * (length_mm - x) - (b0 + b1 * length_mm) + b1 * x) / (2 * (b1 - a1))
            if left < top < right:
                tops.add(top)
    return sorted(ends | tops)


def _line_at(profile: Profile, x_mm: float) -> tuple[float, float]:
    """Level at 0 and slope of the piece of the profile that lies at x."""
    if len(profile) < 2:
        raise ValueError("a profile needs two points")
    number = min(max(bisect_left(profile, x_mm, key=_along), 1), len(profile) - 1)
    (x0, z0), (x1, z1) = profile[number - 1], profile[number]
    slope = (z1 - z0) / (x1 - x0)
    return z0 - slope * x0, slope


def _along(point: tuple[float, float]) -> float:
    return point[0]


def _covered(profile: Profile, from_mm: float, to_mm: float) -> list[tuple[float, float, int | None]]:
    def end(x_mm: float) -> tuple[float, float, None]:
        level_mm, slope = _line_at(profile, x_mm)
        return x_mm, level_mm + slope * x_mm, None

    first, past = bisect_right(profile, from_mm, key=_along), bisect_left(profile, to_mm, key=_along)
    inside = [(x, z, number) for number, (x, z) in enumerate(profile[first:past], first)]
    return [end(from_mm), *inside, end(to_mm)]


def _upper_hull(points: Profile) -> list[tuple[float, float]]:
    hull: list[tuple[float, float]] = []
    for x, z in points:
        while len(hull) > 1:
            (x0, z0), (x1, z1) = hull[-2:]
            if (x1 - x0) * (z - z0) >= (x - x0) * (z1 - z0):
                hull.pop()
            else:
                break
        hull.append((x, z))
    return hull


def deepest_hollow(surface: Surface, straightedge_mm: float) -> Hollow | None:
    """The deepest hollow along any line of stations, cut at steps; None where no line has three stations."""
    found = None
    for line, profile in _profiles(surface):
        depth_mm, number, from_mm, to_mm = deepest(profile, straightedge_mm)
        if found is None or depth_mm > found.depth_mm:
            found = Hollow(depth_mm, line[number], line, from_mm, to_mm)
    return found


def _profiles(surface: Surface) -> Iterator[tuple[tuple[Spot, ...], list[tuple[float, float]]]]:
    for line in surface.profiles():
        kept, profile = [line[0]], [(0.0, line[0].level_mm)]
        for spot in line[1:]:
            step_mm = math.dist((kept[-1].x_mm, kept[-1].y_mm), (spot.x_mm, spot.y_mm))
            if step_mm > 0:
                kept.append(spot)
                profile.append((profile[-1][0] + step_mm, spot.level_mm))
        if len(kept) > 2:
            yield tuple(kept), profile


def flatness_findings(job: Job, room: Room, surface: Surface, classes: Sequence[FlatnessClass]) -> tuple[Finding, ...]:
    """The floor against the class that the job names: a note where it keeps to it, else a warning. Empty where no line
    has three stations with a level: two points say nothing of flatness."""
    hollow = deepest_hollow(surface, job.flatness.straightedge_mm)
    if hollow is None:
        return ()
    deep = figure(hollow.depth_mm, job.rounding_mm)
    edge = f"a {_metres(job.flatness.straightedge_mm)} straightedge"
    told = (
        f"Along the lines of stations the floor is flat within {deep.text} mm under {edge}, deepest at "
        f"{hollow.at.name}, between {hollow.line[0].name} and {hollow.line[-1].name}."
    )
    concerns = (room.id, hollow.at.id)
    held_to = next((one for one in classes if one.name == job.flatness.name), None)
    if held_to is None:
        wrong = f"{told} The job's class, {job.flatness.name}, is not in the table of flatness classes."
        cure = f"Name one of these in the job: {', '.join(one.name for one in classes)}."
        return (Finding("floor.flatness_class", Severity.WARN, room.name, wrong, cure, "", deep, concerns),)
    most = limit_mm(held_to, job.flatness.straightedge_mm)
    if most is None:
        wrong = f"{told} {held_to.name} sets no limit under {edge}."
        cure = f"Give the job a straightedge of {_distances(held_to)}, or another class."
        return (Finding("floor.flatness_class", Severity.WARN, room.name, wrong, cure, "", deep, concerns),)
    told = f"{told} {held_to.name} asks for {text_mm(float(most), job.rounding_mm)} mm."
    source = f"{held_to.name} ({held_to.applies_to}); {held_to.source}; {held_to.status}"
    # Compared as shown, so that nobody reads 6 against a limit of 6 and is told that it is over.
    over_mm = float(rounded_mm(hollow.depth_mm, job.rounding_mm) - most)
    if over_mm <= 0:
        cure = "Nothing to do."
        return (Finding("floor.flatness", Severity.NOTE, room.name, told, cure, source, deep, concerns),)
    over = figure(over_mm, job.rounding_mm)
    wrong = f"{told} That is {over.text} mm too much."
    cure = "Decide before units are set: have it made good by who answers for the floor, or let legs and plinth cope."
    return (Finding("floor.flatness", Severity.WARN, room.name, wrong, cure, source, over, concerns),)


def _metres(length_mm: float) -> str:
    return f"{text_mm(length_mm / 1000, 0.001)} m"


def _distances(held_to: FlatnessClass) -> str:
    first, last = held_to.limits_mm[0][0], held_to.limits_mm[-1][0]
    return _metres(first) if first == last else f"{_metres(first)} to {_metres(last)}"
