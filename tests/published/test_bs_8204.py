"""BS 8204 surface regularity: SR1 3 mm, SR2 5 mm, SR3 10 mm under a 2 m straightedge that rests on the floor.

Source: the standard by way of a trade body's page (concrete.org.uk), secondary. One-sided: the greatest gap under the
straightedge, not plus or minus.
"""

import numpy as np
import pytest

from oddleg.charts import flatness_classes
from oddleg.job import Flatness, Job, Room, Tolerances, Worktop
from oddleg.plan.finding import Severity
from oddleg.plan.flatness import flatness_findings, limit_mm
from oddleg.plan.surfaces import Spot, Surface

CLASSES = {"BS 8204 SR1": 3, "BS 8204 SR2": 5, "BS 8204 SR3": 10}


def found(name, dip_mm):
    spots = [Spot(str(n), str(n), 1000 * n, 0, level) for n, level in enumerate((0, -dip_mm, 0))]
    surface = Surface(spots, np.zeros((3, 3)), [("0", "1", "2")], (), Tolerances())
    room = Room("room", "Room", "corner", (), Worktop(30), ())
    job = Job("job", "Job", "", "", "UTC", 720, (), (), (room,), flatness=Flatness(name, 2000.0))
    (finding,) = flatness_findings(job, room, surface, flatness_classes())
    return finding.severity


@pytest.mark.parametrize(("name", "limit"), CLASSES.items())
def test_the_limit_holds_under_two_metres_and_nowhere_else(name, limit):
    held_to = next(one for one in flatness_classes() if one.name == name)
    assert limit_mm(held_to, 2000) == limit
    assert limit_mm(held_to, 3000) is None


@pytest.mark.parametrize(("name", "limit"), CLASSES.items())
def test_a_gap_of_the_limit_passes_and_half_a_millimetre_more_does_not(name, limit):
    assert found(name, limit) is Severity.NOTE
    assert found(name, limit + 0.5) is Severity.WARN
