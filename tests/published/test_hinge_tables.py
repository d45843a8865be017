"""Published counts of hinges by a door's height, which do not agree with each other: so the count is a chart's figure.

homelyville.com: 2 up to 1016, 3 up to 1524, 4 up to 2032, 5 up to 2159. homitwirl.com: 2 up to 600, 3 up to 900.
"""

import pytest
from datum_rooms import job_of, room_of
from hardware_rows import carcass, compartment, hinge, known, member, plate, stack

from oddleg.job import HungOn
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.front_stacks import filled

# No weight comes into these tables.
ANY_KG = 1000.0
HOMELYVILLE = hinge(up_to_mm=(1016.0, 1524.0, 2032.0, 2159.0), up_to_kg=(ANY_KG,))
HOMITWIRL = hinge(up_to_mm=(600.0, 900.0), up_to_kg=(ANY_KG,))


def hung_with(row, height_mm):
    """A door of this height, which an overlay front without reveals is as high as its carcass."""
    door = member("door", hung=HungOn.LEFT, hinge=row.id, plate="plate-0")
    item = carcass("b60", compartment(stack=stack(door)), height_mm=height_mm)
    return filled(job_of(room_of()), carcass_box(item), known(row, plate()))


@pytest.mark.parametrize(
    ("row", "height_mm", "hinges"),
    [
        (HOMELYVILLE, 700.0, 2),
        (HOMELYVILLE, 1016.0, 2),
        (HOMELYVILLE, 1017.0, 3),
        (HOMELYVILLE, 1524.0, 3),
        (HOMELYVILLE, 1525.0, 4),
        (HOMELYVILLE, 2032.0, 4),
        (HOMELYVILLE, 2033.0, 5),
        (HOMELYVILLE, 2159.0, 5),
        (HOMITWIRL, 600.0, 2),
        (HOMITWIRL, 601.0, 3),
        (HOMITWIRL, 700.0, 3),
        (HOMITWIRL, 900.0, 3),
    ],
)
def test_a_chart_of_the_published_table_gives_its_count(row, height_mm, hinges):
    found = hung_with(row, height_mm)
    (door,) = found.fronts
    assert door.height_mm == height_mm
    assert len(door.cups_mm) == hinges
    assert "hinge.beyond_table" not in [one.rule for one in found.findings]


@pytest.mark.parametrize(("row", "end_mm"), [(HOMELYVILLE, 2159.0), (HOMITWIRL, 900.0)])
def test_beyond_the_end_of_a_published_table_nothing_is_guessed(row, end_mm):
    assert "hinge.beyond_table" in [one.rule for one in hung_with(row, end_mm + 1).findings]
