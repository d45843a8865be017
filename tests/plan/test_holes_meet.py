"""Holes of different boards that belong together, in the room: a door's cups beside its plates, both holes of a connecting
screw, a passage in every side that it goes through. First principles: reckoned from panels by their own origins and axes,
however boxes are made."""

import json
import random
from collections import defaultdict

import demo_hall
import pytest

from oddleg.charts import charts
from oddleg.documents import load_job
from oddleg.job import HungOn, Storey
from oddleg.plan import plan
from oddleg.plan.fitted_out import HoleFor
from oddleg.plan.panel_axes import AXES


def otherwise_made(seed):
    """The demo's job with its boxes and fronts made in other ways, and two passages on into the unit beyond the bay."""
    choose = random.Random(seed).choice
    job = json.loads((demo_hall.DEMO / "hall.json").read_text(encoding="utf-8"))
    for run in job["rooms"][0]["runs"]:
        for passage in run.get("passages", []):
            if "laundry" in passage["id"]:
                passage["to_item"] = "doors-one"
        for item in run["items"]:
            if not item.get("fitting_out"):
                continue
            back = choose(["between", "groove", "on"])
            item["box"] = {
                **item.get("box", {}), "back": back, "groove_mm": 8 if back == "groove" else 0,
                "back_recess_mm": 0 if back == "on" else choose([0, 20]), "bottom": choose(["between_sides", "under_sides"]),
                "top": choose(["panel", "rails"]), "rail_mm": 80,
            }  # fmt: skip
            if item.get("front"):
                item["front"]["fit"] = choose(["overlay", "inset"])
    return load_job(job)


@pytest.fixture(scope="module", params=[0, 4])
def room(request):
    return plan(otherwise_made(request.param), demo_hall.entries(), charts()).rooms[0]


def at(panel, hole):
    """x, u, z in the carcass."""
    axes = AXES[panel.kind]
    origin = (panel.x_mm, panel.u_mm, panel.z_mm)
    return tuple(o + hole.u_mm * u + hole.v_mm * v for o, u, v in zip(origin, axes.along_u, axes.along_v, strict=True))


def holes(unit, hole_for):
    return [
        (panel, hole, at(panel, hole)) for panel in unit.panels for hole in panel.holes if hole.hole_for is hole_for
    ]


def test_plates_lie_at_the_height_of_their_cups_on_the_side_that_the_door_hangs_on(room):
    met = 0
    for unit in room.fitting.units:
        cups, plates = defaultdict(list), defaultdict(list)
        for _, hole, place in holes(unit, HoleFor.CUP):
            cups[hole.of].append(place)
        for _, hole, place in holes(unit, HoleFor.PLATE):
            plates[hole.of].append(place)
        for front in unit.fronts:
            if not cups[front.id]:
                continue
            screws = sorted(z for _, _, z in plates[front.id])
            middles = [(lower + upper) / 2 for lower, upper in zip(screws[::2], screws[1::2], strict=True)]
            assert middles == pytest.approx(sorted(z for _, _, z in cups[front.id]), abs=1e-6)
            x_mm = cups[front.id][0][0]
            assert (x_mm < front.left_mm + front.width_mm / 2) is (front.hung is HungOn.LEFT)
            # As far from the board as the cup's middle from the door's edge, the overlay and half a board allow.
            assert all(abs(x - x_mm) < 60 for x, _, _ in plates[front.id])
            met += 1
    assert met > 10


def test_a_passage_meets_in_every_side_that_it_goes_through(room):
    fronts = {one.item.id: one.front_mm for one in room.placed}
    found = defaultdict(list)
    for unit in room.fitting.units:
        for _, hole, (_, u_mm, z_mm) in holes(unit, HoleFor.PASSAGE):
            found[hole.id].append((fronts[unit.item] - u_mm, z_mm - unit.box.height_mm))
    assert len(found) == 5 and sum(len(here) == 2 for here in found.values()) == 2
    assert all(place == pytest.approx(here[0], abs=1e-6) for here in found.values() for place in here)


def test_both_holes_of_a_connecting_screw_meet(room):
    placed = {one.item.id: one for one in room.placed}
    pairs = defaultdict(list)
    for unit in room.fitting.units:
        for _, hole, (_, u_mm, z_mm) in holes(unit, HoleFor.CONNECTOR):
            key = frozenset((unit.item, hole.of)), hole.id.removeprefix(f"connector-{hole.of}-")
            pairs[key].append((unit.item, placed[unit.item].front_mm - u_mm, z_mm))
    assert pairs
    for here in pairs.values():
        (one, y_mm, z_mm), (other, other_y_mm, other_z_mm) = here
        assert y_mm == pytest.approx(other_y_mm, abs=1e-6)
        if {placed[id].item.storey for id in (one, other)} == {Storey.BASE}:
            # Tops of base carcasses lie in one plane.
            high = [placed[id].item.height_mm for id in (one, other)]
            assert z_mm - high[0] == pytest.approx(other_z_mm - high[1], abs=1e-6)


def test_a_drawers_runners_lie_at_one_height_on_both_sides(room):
    for unit in room.fitting.units:
        for drawer in unit.drawers:
            heights = {round(z, 6) for _, hole, (_, _, z) in holes(unit, HoleFor.RUNNER) if hole.of == drawer.id}
            assert heights == {round(drawer.line_mm, 6)}
