"""What is measured of a run beside the wall's face: widths of the opening, gaps at the ends, what the wall carries."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from oddleg.job import EndGap, Entry, Feature, MeasuredFeature, OpeningDepth, OpeningWidth, Run, Tolerances, WallHeight

from .figure import figure
from .finding import Finding, Severity
from .meeting_runs import AT_THE_OTHER
from .sightings import DIFFERENCE_STEP_MM, listed, shown_mm
from .site import body
from .wall import EndWall, Opening
from .wall_lines import HAIR_MM
from .wall_profile import HEIGHT_WORDS

DEPTH_WORDS = {OpeningDepth.BACK: "along the wall", OpeningDepth.FRONT: "along the fronts"}
END_WORDS = {"left": "zero mark", "right": "end mark"}
_ORDER = (list(WallHeight), list(OpeningDepth))


def _rank(height: WallHeight, depth: OpeningDepth) -> tuple[int, int]:
    return _ORDER[0].index(height), _ORDER[1].index(depth)


def place_words(height: WallHeight, depth: OpeningDepth) -> str:
    return f"{HEIGHT_WORDS[height]}, {DEPTH_WORDS[depth]}"


def openings(
    run: Run, entries: Iterable[Entry], tolerances: Tolerances, step_mm: float
) -> tuple[tuple[Opening, ...], list[Finding]]:
    """Every measured width, by height and depth, the narrowest first. The narrowest of several at one place counts;
    where they differ by more than repeats may, a finding says so."""
    found = [
        Opening(
            of.height,
            of.depth,
            figure(
                of.value_mm,
                step_mm,
                f"Measured from wall to wall {place_words(of.height, of.depth)}, by {entry.person}.",
            ),
            entry.uid,
        )
        for entry in entries
        for of in (body(entry, OpeningWidth),)
        if of.run == run.id
    ]
    found.sort(key=lambda one: (*_rank(one.height, one.depth), one.width.mm, one.uid))
    findings = []
    for place in sorted({(one.height, one.depth) for one in found}, key=lambda place: _rank(*place)):
        widths = [one.width.mm for one in found if (one.height, one.depth) == place]
        if widths[-1] - widths[0] > tolerances.wall_repeat_mm + HAIR_MM:
            findings.append(_differ("wall.openings_differ", "The opening", run, place, widths, tolerances))
    return tuple(found), findings


def end_walls(
    run: Run, entries: Iterable[Entry], tolerances: Tolerances, step_mm: float
) -> tuple[tuple[EndWall, ...], list[Finding]]:
    """How far each side wall lies beyond its mark, by side, height and depth, the least first. In a corner the mark
    lies on the other run's line, which the plan knows better: nothing counts there, and a note says so."""
    found = [
        EndWall(
            of.side,
            of.height,
            of.depth,
            figure(
                of.value_mm,
                step_mm,
                f"Measured from the {END_WORDS[of.side]} to the {of.side} wall {place_words(of.height, of.depth)}, "
                f"by {entry.person}.",
            ),
            entry.uid,
        )
        for entry in entries
        for of in (body(entry, EndGap),)
        if of.run == run.id
    ]
    found.sort(key=lambda one: (one.side, *_rank(one.height, one.depth), one.beyond.mm, one.uid))
    findings = []
    for side, end in (("left", run.left_end), ("right", run.right_end)):
        there = [one for one in found if one.side == side]
        if there and end.at in AT_THE_OTHER:
            findings.append(_in_a_corner(run, side))
            continue
        for place in sorted({(one.height, one.depth) for one in there}, key=lambda place: _rank(*place)):
            gaps = [one.beyond.mm for one in there if (one.height, one.depth) == place]
            if gaps[-1] - gaps[0] > tolerances.wall_repeat_mm + HAIR_MM:
                what = f"The gap at the {END_WORDS[side]}"
                findings.append(_differ("wall.end_gaps_differ", what, run, place, gaps, tolerances))
    return tuple(found), findings


def _differ(
    rule: str,
    what: str,
    run: Run,
    place: tuple[WallHeight, OpeningDepth],
    values_mm: Sequence[float],
    tolerances: Tolerances,
) -> Finding:
    spread_mm = values_mm[-1] - values_mm[0]
    return Finding(
        rule,
        Severity.WARN,
        run.name,
        f"{what} {place_words(*place)} was measured as {listed([shown_mm(one) for one in values_mm])}: "
        f"{shown_mm(spread_mm)} apart, more than {shown_mm(tolerances.wall_repeat_mm)}. Until then the one counts that "
        "leaves less room.",
        "Measure it again there and undo what is wrong.",
        "the job's tolerance for repeats at a wall",
        figure(spread_mm, DIFFERENCE_STEP_MM),
        (run.id,),
    )


def _in_a_corner(run: Run, side: str) -> Finding:
    return Finding(
        "wall.end_gap_in_corner",
        Severity.NOTE,
        f"{run.name}, {side} end",
        f"What was measured from the {END_WORDS[side]} to the wall does not count: in this corner the mark lies on the "
        "other run's line, and the plan takes the wall from its readings.",
        "Nothing to do. If the run is no part of a corner, say so at the desk.",
        "a corner is set out from both walls as read",
        concerns=(run.id,),
    )


def features(run: Run, entries: Iterable[Entry], datum_mm: float | None) -> tuple[tuple[Feature, ...], list[Finding]]:
    """What the run's wall carries: the job's features, those measured on site in their place, and those found there.

    Levels that were measured from the run's datum line need the datum; until one is decided they are not known.
    """
    measured = [body(entry, MeasuredFeature) for entry in entries]
    elsewhere = {one.feature.id for one in measured if one.run != run.id}
    here = {one.feature.id: one for one in measured if one.run == run.id}
    line_mm = None if datum_mm is None else datum_mm + run.datum_offset_mm
    waiting: list[str] = []

    def resolved(one: MeasuredFeature) -> Feature:
        feature = one.feature
        if not one.above_datum or (feature.bottom_mm is None and feature.top_mm is None):
            return feature
        if line_mm is None:
            waiting.append(feature.name)
            return replace(feature, bottom_mm=None, top_mm=None)
        bottom_mm, top_mm = (None if z is None else line_mm + z for z in (feature.bottom_mm, feature.top_mm))
        return replace(feature, bottom_mm=bottom_mm, top_mm=top_mm)

    drawn = [one for one in run.features if one.id not in elsewhere]
    found = [resolved(here.pop(one.id)) if one.id in here else one for one in drawn]
    found += [resolved(one) for one in sorted(here.values(), key=lambda one: (one.feature.left_mm, one.feature.id))]
    if not waiting:
        return tuple(found), []
    return tuple(found), [
        Finding(
            "wall.heights_wait",
            Severity.NOTE,
            run.name,
            f"The heights of {listed(waiting)} were measured from the datum line, and no datum is decided: they are "
            "not known yet.",
            "Decide the datum.",
            "heights over the datum line follow it",
            concerns=(run.id,),
        )
    ]
