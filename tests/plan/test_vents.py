"""Ventilation is a constraint from the appliance's sheet (trap 48): grille, chimney, duct; no figure is built in."""

from __future__ import annotations

from dataclasses import replace

import pytest
from service_rooms import bay, finding, passage, pipe, rules, run, services, unit

from oddleg.job import Appliance, ApplianceSeat, PlinthCut, PlinthCutKind, ServiceKind, Vent, VentBy

GRILLE = PlinthCut(PlinthCutKind.GRILLE, 50.0, 500.0, 40.0, up_mm=30.0)


def oven(*of, **more):
    sheet = Appliance("oven", "oven", ApplianceSeat.IN_CARCASS, 600.0, vents=of)
    return unit("housing", appliances=(sheet,), **more)


def route(found):
    (one,) = found.vents
    return one


@pytest.mark.parametrize(("asked_cm2", "holds"), [(200.0, True), (201.0, False), (None, None)])
def test_a_grille_is_held_to_what_is_cut_out_of_the_plinth(asked_cm2, holds):
    """FP: 500 x 40 = 20 000 mm2 = 200 cm2."""
    found = services(run(oven(Vent(VentBy.GRILLE, area_cm2=asked_cm2), plinth_cuts=(GRILLE,))))
    assert route(found).holds is holds and "200 cm²" in route(found).has
    assert rules(found) == {True: [], False: ["vent.grille"], None: ["vent.unread"]}[holds]
    if holds is False:
        assert finding(found, "vent.grille").amount.mm == 1


@pytest.mark.parametrize(("depth_mm", "holds"), [(50.0, True), (51.0, False), (None, None)])
def test_a_chimney_is_held_to_void_and_recess(depth_mm, holds):
    """FP: void 20 + recess 30 = 50."""
    housing = oven(Vent(VentBy.CHIMNEY, depth_mm=depth_mm))
    found = services(run(replace(housing, box=replace(housing.box, back_recess_mm=30.0))))
    assert route(found).holds is holds


def test_behind_a_machine_in_its_bay_the_depth_left_counts():
    """FP: void 20 + bay 560 - machine 550 = 30."""
    one = replace(bay(), appliance=replace(bay().appliance, vents=(Vent(VentBy.CHIMNEY, depth_mm=30.0),)))
    assert route(services(run(one))).holds is True


def test_a_duct_is_as_wide_as_its_narrowest_part():
    """FP: outlet 150, hole through the side 125: 150 asked is not there."""
    duct = pipe("duct", across_mm=150.0, kind=ServiceKind.DUCT)
    housing = oven(Vent(VentBy.DUCT, bore_mm=150.0, service="duct"))
    one = run(housing, unit("b"), services=(duct,))
    assert route(services(one)).holds is True
    narrow = replace(one, passages=(passage("housing", "b", diameter_mm=125.0, kind=ServiceKind.DUCT),))
    assert finding(services(narrow), "vent.duct").amount.mm == 25


def test_a_duct_that_nobody_named_is_asked_for():
    found = services(run(oven(Vent(VentBy.DUCT, bore_mm=150.0))))
    assert route(found).holds is None and rules(found) == ["vent.no_duct"]
