import pytest

from oddleg.charts import classes_in, flatness_classes
from oddleg.job import Flatness

HEAD = "name,applies_to,distance_mm,limit_mm,source,status"


def test_every_class_says_where_its_figures_come_from():
    for one in flatness_classes():
        assert one.source
        assert one.status in {"read", "secondary", "memory"}
        assert one.applies_to


def test_the_class_that_a_job_has_by_default_is_in_the_table():
    assert Flatness().name in [one.name for one in flatness_classes()]


def test_classes_keep_the_order_of_the_table_and_have_names_of_their_own():
    names = [one.name for one in flatness_classes()]
    assert names[:2] == ["DIN 18202 row 1", "DIN 18202 row 2"]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize(
    ("rows", "wrong"),
    [
        (["a,floors,2000,five,book,read"], "line 2: a column is missing or no number"),
        (["a,floors,2000"], "line 2: a column is missing or no number"),
        (["a,floors,2000,-5,book,read"], "above 0"),
        (["a,floors,nan,5,book,read"], "above 0"),
        (["a,floors,2000,5,book,read", "a,floors,1000,3,book,read"], "line 3: distances of a must rise"),
        (["a,floors,1000,3,book,read", "a,walls,2000,5,book,read"], "line 3: a is described in two ways"),
    ],
)
def test_a_table_at_fault_is_refused_with_its_line(rows, wrong):
    with pytest.raises(ValueError, match=wrong):
        classes_in([HEAD, *rows])
