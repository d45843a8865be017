"""Each laser's checks on site: the results, and what they mean for the survey."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from oddleg.job import Job, Laser, SetUp, TwoPeg, TwoWall

from .finding import Finding, Severity
from .instrument import CheckResult, Verdict, two_peg_result, two_wall_result
from .site import Site, body

# A line laser may tilt along its beam and across it, so it is checked both ways (common practice).
AXES = ("along", "across")


def check_results(job: Job, here: Site) -> tuple[CheckResult, ...]:
    """Results of every live check of a laser that the job knows, in log order."""
    lasers = {laser.id: laser for laser in job.lasers}
    results = []
    for entry in here.checks:
        check = entry.body
        if isinstance(check, TwoPeg) and check.laser in lasers:
            results.append(two_peg_result(check, lasers[check.laser], job.tolerances))
        elif isinstance(check, TwoWall) and check.laser in lasers:
            results.append(two_wall_result(check, lasers[check.laser], job.tolerances))
    return tuple(results)


def last_checks(laser: Laser, results: Sequence[CheckResult]) -> tuple[CheckResult, ...]:
    """What counts of a laser's checks: the last of each axis, since it may have been adjusted in between."""
    return tuple({one.axis: one for one in results if one.laser == laser.id}.values())


def reckoned_lasers(job: Job, results: Sequence[CheckResult]) -> tuple[Laser, ...]:
    """The job's lasers, each with the slope that its give or take is reckoned with, mm/m.

    The stated one where a check on site found the laser within it; else `unchecked_slope_times` as much, a rule of
    thumb; where a check found it outside, at least what that check measured with its half-width.
    """
    lasers = []
    for laser in job.lasers:
        last = last_checks(laser, results)
        verdicts = {one.verdict for one in last}
        wider = job.tolerances.unchecked_slope_times * laser.slope_mm_per_m
        if Verdict.OUTSIDE in verdicts:
            slope = max(wider, *(_as_measured(one) for one in last if one.verdict is Verdict.OUTSIDE))
        else:
            slope = laser.slope_mm_per_m if Verdict.WITHIN in verdicts else wider
        lasers.append(replace(laser, slope_mm_per_m=slope))
    return tuple(lasers)


def _as_measured(check: CheckResult) -> float:
    return abs(check.error_mm_per_m or 0.0) + (check.half_width_mm_per_m or 0.0)


def check_findings(job: Job, here: Site, results: Sequence[CheckResult]) -> tuple[Finding, ...]:
    """A warning for a laser outside its stated accuracy, a note for a check that cannot tell or an axis left out."""
    used = {body(entry, SetUp).laser for entry in here.set_ups}
    findings = []
    for laser in job.lasers:
        mine = last_checks(laser, results)
        for one in mine:
            if one.verdict is Verdict.WITHIN:
                continue
            severity = Severity.WARN if one.verdict is Verdict.OUTSIDE else Severity.NOTE
            cure = (
                "Have it adjusted or take another; readings at equal distances from the laser are hurt least."
                if one.verdict is Verdict.OUTSIDE
                else "Do the check again over a longer base or with a finer rule."
            )
            wrong = f"{one.method} check, {one.axis} the beam: {one.words}"
            findings.append(
                Finding("laser.check", severity, laser.name, wrong, cure, "its stated accuracy", None, (laser.id,))
            )
        missing = [axis for axis in AXES if axis not in {one.axis for one in mine}]
        if mine and missing and laser.id in used:
            wrong = f"Checked one way only; a line laser may also tilt {missing[0]} its beam."
            findings.append(
                Finding(
                    "laser.one_axis",
                    Severity.NOTE,
                    laser.name,
                    wrong,
                    "Check the other axis too.",
                    "common practice",
                    None,
                    (laser.id,),
                )
            )
    return tuple(findings)
