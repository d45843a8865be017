"""What is let into a top and hangs below it. FP: below the datum it hangs its own depth less what the top hides."""

from __future__ import annotations

import pytest
from service_rooms import finding, rules, run, services, unit

from oddleg.job import Appliance, ApplianceSeat, Worktop


def hob(**more):
    return Appliance("hob", "hob", ApplianceSeat.IN_TOP, 1.0, **{"drop_mm": 52.0, "air_gap_mm": 20.0, **more})


def hanging(sheet):
    found = services(run(unit(appliances=(sheet,))))
    return found.hanging[0], found


def test_a_hob_52_deep_in_a_30_top_wants_42_clear_below_the_datum():
    """Trap 47: 52 - 30 = 22, and 20 of air: clear to D - 42."""
    one, found = hanging(hob())
    assert one.below_datum.text == "42" and "clear to 42" in one.words
    (inside,) = found.inside
    assert (inside.low_mm, inside.high_mm) == (720 - 42, 720)


def test_without_its_air_gap_what_hangs_is_told_and_the_gap_is_asked_for():
    one, found = hanging(hob(air_gap_mm=None))
    assert one.below_datum.text == "22" and "no air gap is known" in one.words
    assert "air" in finding(found, "service.drop_unread").wrong


def test_what_the_top_hides_does_not_hang_into_anything():
    one, found = hanging(hob(drop_mm=8.0))
    assert one.below_datum.mm == 8 - 30 + 20 and found.inside == () and "nothing hangs" in one.words


def test_how_deep_it_hangs_is_never_guessed():
    found = services(run(unit(appliances=(hob(drop_mm=None),))))
    assert found.hanging == () and rules(found) == ["service.drop_unread"]


@pytest.mark.parametrize(("at_mm", "edges"), [(None, (50.0, 550.0)), (18.0, (18.0, 518.0))])
def test_it_lies_where_the_job_puts_it_else_in_the_middle(at_mm, edges):
    """FP: 500 in the middle of 600: from 50 to 550."""
    one, _ = hanging(hob(greatest_width_mm=500.0, at_mm=at_mm))
    assert (one.left_mm, one.right_mm) == edges


def test_what_lies_between_carcass_and_slab_hides_it_too():
    """FP: 52 - (30 + 10) + 20 = 32."""
    import sample_room as sample
    from service_rooms import DATUM, level_floor

    from oddleg.plan.services import room_services
    from oddleg.plan.setting_out import setting_out
    from oddleg.plan.site import Site

    room = sample.room(run(unit(appliances=(hob(),))), worktop=Worktop(30.0, build_up_mm=10.0))
    job = sample.job(room)
    found = room_services(job, room, Site(), setting_out(job, room, Site(), DATUM), level_floor(job), DATUM)
    assert found.hanging[0].below_datum.mm == 32
