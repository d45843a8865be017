"""A network of level differences with variances, two unknowns, four known points (answerhappy.com, t=138317).

Known A 100, B 101, C 103, D 104 m. Observed A-P1 +1.01 (1 cm2), B-P1 +0.06 (2), P2-C +1.09 (1), P2-D +2.04 (1),
P1-P2 +1.03 (3). Published: P1 101.01, P2 101.95.
"""

import numpy as np
import pytest

from oddleg.plan.adjustment import solved

DESIGN = np.array([[1.0, 0.0], [1.0, 0.0], [0.0, -1.0], [0.0, -1.0], [-1.0, 1.0]])
OBSERVED_M = np.array([1.01 + 100, 0.06 + 101, 1.09 - 103, 2.04 - 104, 1.03])
VARIANCE_CM2 = np.array([1.0, 2.0, 1.0, 1.0, 3.0])


def test_the_published_levels_are_met_to_their_print():
    """5 mm: the page prints whole cm. To 0.1 mm by hand: N = [[1+1/2+1/3, -1/3], [-1/3, 2+1/3]]."""
    found = solved(DESIGN, OBSERVED_M, np.diag(VARIANCE_CM2 * 1e-4))
    assert found.unknowns == pytest.approx([101.01, 101.95], abs=0.005)
    assert found.unknowns == pytest.approx([101.0072, 101.9496], abs=0.00005)
    normal = np.array([[1 + 1 / 2 + 1 / 3, -1 / 3], [-1 / 3, 2 + 1 / 3]]) / 1e-4
    assert found.covariance == pytest.approx(np.linalg.inv(normal))


def test_weighing_all_alike_gives_another_answer():
    """3 P1 - P2 = 201.04, 3 P2 - P1 = 204.90: P1 = (3 x 201.04 + 204.90) / 8, 5 mm off the weighted one."""
    found = solved(DESIGN, OBSERVED_M, np.eye(5))
    assert found.unknowns[0] == pytest.approx((3 * 201.04 + 204.90) / 8)
    assert abs(found.unknowns[0] - 101.0072) > 0.004
