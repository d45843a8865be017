"""NHBC Standards 9.1.5 (2020): floors flat within 5 mm under a 2 m straightedge.

Source: nhbc-standards.co.uk, read. (Its rule for level, 3 mm per m up to 6 m, is a limit of another kind and not in the
table of flatness classes.)
"""

from oddleg.charts import flatness_classes
from oddleg.plan.flatness import limit_mm


def test_flat_within_five_under_two_metres():
    (held_to,) = [one for one in flatness_classes() if one.name == "NHBC 9.1.5"]
    assert held_to.status == "read"
    assert limit_mm(held_to, 2000) == 5
    assert limit_mm(held_to, 1999) is None
