"""Moments in the job's own time zone."""

import pytest

from oddleg.plan.moment import local_time


@pytest.mark.parametrize(
    ("time_zone", "words"),
    [
        ("Europe/London", "23 November 2026, 10:12"),  # Greenwich time in winter
        ("Europe/Berlin", "23 November 2026, 11:12"),  # one hour ahead of it
    ],
)
def test_a_moment_is_told_in_the_time_of_the_job(time_zone, words):
    assert local_time("2026-11-23T10:12:30.000Z", time_zone) == words


def test_summer_time_is_one_hour_on():
    assert local_time("2026-07-01T10:12:00.000Z", "Europe/London") == "1 July 2026, 11:12"


def test_what_is_no_time_is_told_as_it_came():
    assert local_time("yesterday", "Europe/London") == "yesterday"
