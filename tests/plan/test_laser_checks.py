"""What the checks of a laser on site lead to: a warning, a note, or nothing."""

from dataclasses import replace

import sample_room as sample

from oddleg.job import Entry, Laser, SetUp, Stage, Tolerances, TwoPeg
from oddleg.plan.finding import Severity
from oddleg.plan.instrument import two_peg_result
from oddleg.plan.laser_checks import check_findings
from oddleg.plan.site import Site

LASER = Laser("laser", "green laser", 0.3)
JOB = replace(sample.job(), lasers=(LASER,))
SET_UP = SetUp("one", "set-up one", "room", Stage.STRIPPED, "laser")
USED = Site(set_ups=(Entry("e1", 1, "Ned", "2026-11-23T08:40:00Z", SET_UP),))


def checked(bent_mm, axis="along", base_m=30.0):
    """A two-peg check whose second pair is bent by so much over the base."""
    check = TwoPeg("laser", axis, 1200.0, 1200.0, 1250.0 + bent_mm, 1250.0, base_m + 1.0, 1.0, 0.5)
    return two_peg_result(check, LASER, Tolerances())


def found(*checks, here=USED):
    return [(one.rule, one.severity, one.place) for one in check_findings(JOB, here, checks)]


def test_a_laser_within_on_both_axes_is_not_spoken_of():
    assert found(checked(0.0), checked(0.0, "across")) == []


def test_a_laser_outside_its_stated_accuracy_is_a_warning_by_its_name():
    """First principles: 30 mm bent over 30 m is 1 mm/m against 0.3 stated."""
    assert found(checked(30.0), checked(0.0, "across")) == [("laser.check", Severity.WARN, "green laser")]


def test_a_check_over_too_short_a_base_is_a_note():
    assert found(checked(0.0, base_m=4.0), checked(0.0, "across")) == [("laser.check", Severity.NOTE, "green laser")]


def test_the_other_axis_is_asked_for_where_the_laser_was_used():
    assert found(checked(0.0)) == [("laser.one_axis", Severity.NOTE, "green laser")]
    assert found(checked(0.0), here=Site()) == []
    assert found() == []


def test_a_laser_that_was_adjusted_and_checked_again_is_not_warned_of():
    """The last check of an axis counts, in the findings as in the slope that the give or take is reckoned with."""
    assert found(checked(30.0), checked(0.0), checked(0.0, "across")) == []
    assert found(checked(0.0), checked(30.0), checked(0.0, "across")) == [("laser.check", Severity.WARN, "green laser")]
