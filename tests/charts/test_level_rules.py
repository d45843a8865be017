import pytest

from oddleg.charts import level_rules, rules_in

HEAD = "name,applies_to,mm_per_m,up_to_mm,beyond_mm,source,status"


def test_every_rule_says_where_its_figures_come_from():
    for one in level_rules():
        assert one.source and one.applies_to
        assert one.status in {"read", "secondary", "memory"}


@pytest.mark.parametrize(
    ("row", "wrong"),
    [
        ("a,floors,three,6000,20,book,read", "line 2: a column is missing or no number"),
        ("a,floors,3", "line 2: a column is missing or no number"),
        ("a,floors,-3,6000,20,book,read", "line 2: figures must be above 0"),
        ("a,floors,3,6000,nan,book,read", "line 2: figures must be above 0"),
    ],
)
def test_a_table_at_fault_is_refused_with_its_line(row, wrong):
    with pytest.raises(ValueError, match=wrong):
        rules_in([HEAD, row])
