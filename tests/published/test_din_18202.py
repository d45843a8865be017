"""DIN 18202, table 3: limits of flatness by measuring distance.

Source: the standard by way of a trade handbook (doczz.net 5839552), secondary. Between the columns of 0.1, 1, 4, 10 and
15 m the limit is linear, rounded half up to whole mm. Tolerance: none, the limits are whole mm.
"""

import pytest

from oddleg.charts import flatness_classes
from oddleg.plan.flatness import limit_mm

TABLE_3 = {
    1: (10, 15, 20, 25, 30),
    2: (5, 8, 12, 15, 20),
    3: (2, 4, 10, 12, 15),
    4: (1, 3, 9, 12, 15),
    5: (5, 10, 15, 25, 30),
    6: (3, 5, 10, 20, 25),
    7: (2, 3, 8, 15, 20),
}


def row(number):
    return next(one for one in flatness_classes() if one.name == f"DIN 18202 row {number}")


@pytest.mark.parametrize("number", TABLE_3)
def test_at_the_columns_the_limits_are_the_tables(number):
    distances_mm = (100, 1000, 4000, 10_000, 15_000)
    assert tuple(limit_mm(row(number), one) for one in distances_mm) == TABLE_3[number]


@pytest.mark.parametrize(
    ("number", "distance_mm", "limit"),
    [
        (3, 2000, 4 + (10 - 4) * 1 / 3),
        (4, 2000, 3 + (9 - 3) * 1 / 3),
        (1, 2500, 18),  # 15 + 5 x 1.5 / 3 = 17.5
        (7, 7000, 12),  # 8 + 7 x 3 / 6 = 11.5
        (7, 2500, 6),  # 3 + 5 x 1.5 / 3 = 5.5
        (3, 12_500, 14),  # 12 + 3 x 2.5 / 5 = 13.5
        (2, 2500, 10),
        (1, 550, 13),  # 10 + 5 x 450 / 900 = 12.5: half up, where half to even would say 12
        (6, 2500, 8),  # 5 + 5 x 1.5 / 3 = 7.5
        (5, 2000, 12),  # 11.67
    ],
)
def test_between_the_columns_the_limit_is_linear_and_rounded_half_up(number, distance_mm, limit):
    assert limit_mm(row(number), distance_mm) == limit


@pytest.mark.parametrize("distance_mm", [99, 15_001])
def test_outside_the_table_there_is_no_limit(distance_mm):
    assert limit_mm(row(3), distance_mm) is None
