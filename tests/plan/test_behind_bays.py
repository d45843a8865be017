"""Behind an appliance in its bay. FP: void 20 + bay 560 - machine 550 = 30 may stand proud of the wall."""

from __future__ import annotations

from dataclasses import replace

import pytest
from service_rooms import bay, finding, rules, run, services, socket

RELIEF = {"relief_height_mm": 150.0, "relief_depth_mm": 40.0}


def behind(point, **machine):
    return services(run(bay(**machine), services=(point,)))


def test_what_is_free_behind_the_machine_may_stand_proud():
    assert rules(behind(socket(reach=False, stands_out_mm=30.0))) == []
    assert finding(behind(socket(reach=False, stands_out_mm=31.0)), "service.proud_in_bay").amount.mm == 1
    assert "30 may stand proud" in behind(socket()).landings[0].words


@pytest.mark.parametrize(("up_mm", "over_mm"), [(91.0, None), (92.0, 35.0)])
def test_only_below_its_relief_height_it_may_stand_further_out(up_mm, over_mm):
    """FP: the floor at -14, relief up to 150 over it: 136. A socket 90 high at 91 reaches 136, where 30 + 40 are free;
    at 92 it reaches 137: 65 - 30 = 35 too far out."""
    found = behind(socket(up_mm=up_mm, reach=False, stands_out_mm=65.0), **RELIEF)
    told = [one.amount.mm for one in found.findings if one.rule == "service.proud_in_bay"]
    assert told == ([] if over_mm is None else [over_mm])


def test_an_unread_depth_is_asked_for_and_never_guessed():
    found = behind(socket(reach=False, stands_out_mm=10.0), depth_mm=None)
    assert rules(found) == ["service.bay_unread"]


@pytest.mark.parametrize(("built_in", "severity", "reached"), [(True, "warn", None), (False, "note", "with the dishwasher pulled out")])
def test_a_socket_behind_a_machine_belongs_into_the_cupboard_beside(built_in, severity, reached):
    """CP: a plug is reached without moving the machine."""
    found = behind(socket(), built_in=built_in)
    told = finding(found, "service.behind_machine")
    assert told.severity.value == severity and "beside" in told.cure and told.caution
    assert found.landings[0].reached == reached
    assert "service.behind_machine" not in rules(behind(replace(socket(), reach=False), built_in=built_in))
