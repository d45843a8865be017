"""The part of a room's services: its keys are those of the wire, and it shows the plan's own texts."""

from __future__ import annotations

import json
from types import SimpleNamespace

import sample_room as sample
from service_rooms import bay, passage, pipe, run, services, socket, unit

from oddleg.job import Appliance, ApplianceSeat, ServiceKind, Vent, VentBy
from oddleg.plan.services_part import services_part, zero_words


def part(**more):
    sheet = Appliance("bowl", "bowl", ApplianceSeat.IN_TOP, 1.0, drop_mm=200.0, air_gap_mm=0.0, vents=(Vent(VentBy.GRILLE),))
    one = run(
        unit(appliances=(sheet,)), bay(), unit("b"), passages=(passage("sink", "bay"),),
        services=(socket(x_mm=100.0), pipe(x_mm=300.0), pipe("cable", x_mm=1500.0, kind=ServiceKind.CABLE, up_mm=None)),
    )  # fmt: skip
    room = sample.room(one)
    return services_part(SimpleNamespace(setting_out=SimpleNamespace(runs=()), room=room, fitting=SimpleNamespace(services=services(one, **more))))


def test_its_keys_are_those_of_the_wire():
    made = part()
    assert set(made) == {"room", "name", "landings", "cuts", "passages", "hanging", "wanted", "vents", "zeros", "cautions", "findings"}
    landing, cut, wish = made["landings"][0], made["cuts"][0], made["wanted"][0]
    assert set(landing) == {
        "id", "name", "what", "kind", "comes_from", "round", "reach", "live", "found", "run", "run_id", "behind", "left", "right", "middle", "low", "high", "below_datum", "from_datum", "cut_out", "reached", "words",
    }  # fmt: skip
    assert set(cut) == {
        "item", "name", "words", "from_left", "from_right", "from_foot", "from_top", "from_behind", "below_datum", "width", "height",
        "radius", "open_to", "from_datum", "round",
    }  # fmt: skip
    assert set(wish) == {"id", "name", "run", "from_left", "from_left_words", "over_floor", "below_datum", "from_datum", "words"}
    assert set(made["passages"][0]) == {"name", "words", "diameter", "from_back", "below_datum", "panels"}
    assert set(made["hanging"][0]) == {"item", "name", "below_datum", "words"}
    assert set(made["vents"][0]) == {"name", "asked", "has", "holds"}
    json.dumps(made)


def test_two_zeros_of_a_run_are_told_apart():
    """FP: the rod's zero mark at +3 of the walls' zero lies 3 to its right."""
    run = sample_run(3.0)
    assert zero_words(run).startswith("run: the rod's zero mark lies 3 to the right of the zero that its walls are read from.")
    assert "2.5 to the left" in zero_words(sample_run(-2.5)) and zero_words(sample_run(0.0)) == ""


def sample_run(zero_mm):
    return SimpleNamespace(run=SimpleNamespace(name="run"), line=SimpleNamespace(zero_mm=zero_mm))


def test_it_says_in_words_where_a_service_lies_and_what_is_drilled_for_a_passage():
    made = part()
    assert made["landings"][0]["behind"] == "sink" and made["landings"][0]["what"] == "socket"
    assert made["passages"][0]["panels"] == ["right side of sink"]
    assert made["passages"][0]["words"] == "waste, from sink to bay"


def test_what_is_not_known_is_none_and_told():
    made = part(datum_mm=None)
    assert made["cuts"] == [] and made["landings"][0]["below_datum"] is None
    assert {one["rule"] for one in made["findings"]} >= {"service.height_unknown"}
    assert made["landings"][2]["low"] is None
