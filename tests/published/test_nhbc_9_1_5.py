"""NHBC Standards 9.1.5 (2020): floors flat within 5 mm under a 2 m straightedge, and level within 3 mm per m up to 6 m,
at most 20 mm beyond.

Source: nhbc-standards.co.uk, read.
"""

import numpy as np
import pytest
import sample_room as sample

from oddleg.charts import flatness_classes, level_rules
from oddleg.job import Tolerances
from oddleg.plan.finding import Severity
from oddleg.plan.flatness import limit_mm
from oddleg.plan.out_of_level import allowed_mm, level_findings
from oddleg.plan.surfaces import Spot, Surface

(RULE,) = [one for one in level_rules() if one.name == "NHBC 9.1.5"]


def test_flat_within_five_under_two_metres():
    (held_to,) = [one for one in flatness_classes() if one.name == "NHBC 9.1.5"]
    assert held_to.status == "read"
    assert limit_mm(held_to, 2000) == 5
    assert limit_mm(held_to, 1999) is None


@pytest.mark.parametrize(
    ("apart_mm", "most_mm"), [(1000, 3), (2500, 7.5), (6000, 18), (6001, 20), (7000, 20), (30_000, 20)]
)
def test_level_within_three_a_metre_up_to_six_metres_and_twenty_beyond(apart_mm, most_mm):
    assert RULE.status == "read"
    assert allowed_mm(RULE, np.array(apart_mm)) == pytest.approx(most_mm)


def said(*spots):
    """What is said of a floor with stations along one line: (x, level)."""
    spots = [Spot(f"s{x}", f"at {x}", float(x), 0.0, float(mm)) for x, mm in spots]
    surface = Surface(spots, np.eye(len(spots)), (), (), Tolerances())
    room = sample.room()
    return level_findings(sample.job(room), room, surface, (RULE,))


@pytest.mark.parametrize(
    ("spots", "words", "over"),
    [
        # 4 m: 12 allowed.
        ([(0, 0), (4000, -12)], "falls 12 mm; NHBC 9.1.5 lets it be 12 there.", None),
        ([(0, 0), (4000, -14)], "falls 14 mm; NHBC 9.1.5 lets it be 12 there. That is 2 mm too much.", "2"),
        ([(0, -14), (4000, 0)], "From at 4000 down to at 0, 4 m apart", "2"),
        # 8 m: 20 allowed, however far.
        ([(0, 0), (8000, -21)], "8 m apart, the floor falls 21 mm; NHBC 9.1.5 lets it be 20 there.", "1"),
        # The whole falls by 3 in 3 m, which is nothing; the last metre of it by 5, which is 2 over.
        ([(0, -2), (2000, 0), (3000, -5)], "From at 2000 down to at 3000, 1 m apart, the floor falls 5 mm", "2"),
    ],
)
def test_a_floor_is_held_to_it_between_any_two_stations_in_a_note_that_blocks_nothing(spots, words, over):
    (note,) = said(*spots)
    assert note.severity is Severity.NOTE and "nhbc" in note.source.lower()
    assert words in note.wrong
    assert ("too much" in note.wrong) is (over is not None)
    if over:
        assert note.amount.text == over


def test_two_stations_less_than_a_metre_apart_say_nothing_of_it():
    assert said((0, 0), (999, -9)) == () == said((0, 0)) == said()
