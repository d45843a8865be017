"""What was left out that would have made the figures surer: by how much each widens them, and what rests on it.

Nothing here blocks. What is skipped is paid for in the give or take, and said.
"""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.job import Job, Laser, Reading, Room, SetUp

from .figure import text_mm
from .finding import Finding, Severity
from .instrument import CheckResult, Verdict
from .laser_checks import last_checks, reckoned_lasers
from .levels import Levels
from .sightings import named
from .site import Site, body
from .survey import floor_tolerances


def skipped(job: Job, room: Room, site: Site, levels: Levels, checks: Sequence[CheckResult]) -> tuple[str, ...]:
    """One sentence or two for each thing that was left out; none before anything is read."""
    return tuple(text for text, _ in _left_out(job, room, site, levels, checks))


def _left_out(
    job: Job, room: Room, site: Site, levels: Levels, checks: Sequence[CheckResult]
) -> tuple[tuple[str, str], ...]:
    """What is said of each thing, and what to do about it."""
    if not site.readings:
        return ()
    return (
        *_unclosed(job, room, site, levels),
        *_unchecked(job, site, checks),
        *_without_place(site),
        *_in_between(job, site),
    )


def skipped_findings(
    job: Job, room: Room, site: Site, levels: Levels, checks: Sequence[CheckResult]
) -> tuple[Finding, ...]:
    return tuple(
        Finding(
            "survey.skipped",
            Severity.NOTE,
            room.name,
            text,
            f"{cure}, or go on: the give or take says what it costs.",
            "common practice; the figures are the job's, rules of thumb",
            concerns=(room.id,),
        )
        for text, cure in _left_out(job, room, site, levels, checks)
    )


def _unclosed(job: Job, room: Room, site: Site, levels: Levels) -> list[tuple[str, str]]:
    names = {body(entry, Reading).station: body(entry, Reading).name for entry in site.readings}
    names |= {one.id: one.name for one in room.stations} | {one.id: one.name for one in room.bench_marks}
    set_ups = {body(entry, SetUp).id: body(entry, SetUp).name for entry in site.set_ups}
    knock = text_mm(job.tolerances.unseen_knock_mm, 0.1)
    return [
        (
            f"{set_ups[one.set_up]}: {names[one.holder]} was not read again at the end and nothing else closes it, so "
            f"a knock would go unseen. Another ±{knock} mm is reckoned with in the levels that rest on it: "
            f"{named([names[id] for id in one.resting])}.",
            f"Read {names[one.holder]} again while {set_ups[one.set_up]} still stands",
        )
        for one in levels.unclosed
    ]


def _unchecked(job: Job, site: Site, checks: Sequence[CheckResult]) -> list[tuple[str, str]]:
    texts = []
    for laser, reckoned in zip(job.lasers, reckoned_lasers(job, checks), strict=True):
        used = [body(entry, SetUp) for entry in site.set_ups if body(entry, SetUp).laser == laser.id]
        placed = [one.name for one in used if one.x_mm is not None and one.y_mm is not None]
        if placed and reckoned != laser:
            said = (
                f"{laser.name}: {_verdict(laser, checks)}. Every give or take is reckoned with "
                f"{text_mm(reckoned.slope_mm_per_m, 0.01)} mm/m instead; on that rests what was read from "
                f"{named(placed)}."
            )
            texts.append((said, f"Check {laser.name} between two pegs or two walls, with both its axes"))
    return texts


def _verdict(laser: Laser, checks: Sequence[CheckResult]) -> str:
    stated = f"its stated {text_mm(laser.slope_mm_per_m, 0.01)} mm/m"
    mine = {one.verdict for one in last_checks(laser, checks)}
    if Verdict.OUTSIDE in mine:
        return f"a check on site found it outside {stated}"
    return f"no check on site found it within {stated}" if mine else f"not checked on site, so {stated} is not sure"


def _without_place(site: Site) -> list[tuple[str, str]]:
    """A line on a wall has no laser that could tilt."""
    read = {body(entry, Reading).set_up for entry in site.readings}
    bare = [
        one.name
        for one in (body(entry, SetUp) for entry in site.set_ups)
        if one.id in read and one.line_level_mm is None and (one.laser is None or one.x_mm is None or one.y_mm is None)
    ]
    if not bare:
        return []
    text = f"{named(bare)}: which laser stood where is not on the plan, so its tilt is in no give or take of these."
    return [(text, f"Give the laser and its place with {named(bare)}")]


def _in_between(job: Job, site: Site) -> list[tuple[str, str]]:
    if not site.good_enough:
        return []
    even, wider = (text_mm(one.unevenness_mm, 0.1) for one in (job.tolerances, floor_tolerances(job, site)))
    text = f"Stations in between were left out: the floor between stations is taken as ±{wider} mm, not ±{even}."
    return [(text, "Read the stations in between")]
