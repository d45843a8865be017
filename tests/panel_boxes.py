"""Carcasses with their panels for the tests of holes: fronts and drawers by hand, rows of charts invented."""

from __future__ import annotations

from dataclasses import dataclass, replace

from sample_room import carcass, job, room, run

from oddleg.job import (
    Bracket,
    Compartment,
    Connector,
    FittingOut,
    FixedTo,
    FrontIs,
    Hinge,
    HungOn,
    Leg,
    Pin,
    Plate,
    PullOut,
    RebateFace,
    Runner,
)
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.fitted_out import DrawerBox, PanelKind, PlacedFront
from oddleg.plan.hardware import KIND_OF, Hardware
from oddleg.plan.hole_checks import hole_findings
from oddleg.plan.panels import panels

RUNNER = Runner(
    "runner-500", "runner 500", 500.0, 3.0, 10.0, 36.0, 30.0, 37.0, (0.0, 224.0, 256.0), 5.0, 12.0, 30.0, 140.0, 100.0,
    21.0, 40.0, 16.0, 75.0, 24.0, 87.0, 84.0, 12.0, ("left", "right"), RebateFace.BELOW, 3.0, 10.0, ("left", "right"),
)  # fmt: skip
HINGE = Hinge(
    "hinge-110", "hinge 110", 110.0, 35.0, 12.5, 3.0, 6.0, 9.5, 45.0, 2.5, 10.0, 14.5, 100.0, 30.0, 15.0, 26.0,
    (900.0, 1600.0), (6.0, 12.0),
)  # fmt: skip
PLATE = Plate("plate-0", "plate 0", 0.0, 37.0, 32.0, 5.0, 12.0)
LEG = Leg("leg-150", "leg 150", 135.0, 180.0, (-16.0, 16.0, -16.0, 16.0), (-16.0, -16.0, 16.0, 16.0), 3.0, 12.0, 150.0)
BRACKET = Bracket("bracket", "bracket", (30.0, 62.0), (20.0, 20.0), 5.0, 12.0, 40.0, 15.0, 65.0)
CONNECTOR = Connector("connector", "connecting screw", 5.0, 20.0, 60.0, 80.0, 80.0, 10.0, 32.0, 38.0)
PIN = Pin("pin-5", "pin 5", 5.0, 12.0, 37.0, 32.0, 37.0, 40.0)
BINS = PullOut(
    "bins", "bin frame", FixedTo.BOTTOM, 364.0, 564.0, 480.0, 400.0, (37.0, 437.0, 37.0, 437.0),
    (-120.0, -120.0, 120.0, 120.0), 5.0, 12.0, (60.0, 92.0, 60.0, 92.0), (-100.0, -100.0, 100.0, 100.0), 5.0, 12.0, 40.0,
)  # fmt: skip
SIDE_BINS = replace(BINS, id="side-bins", fixed_to=FixedTo.SIDES, holes_u_mm=(37.0, 261.0), holes_across_mm=(46.0, 46.0))
ROWS = (RUNNER, HINGE, PLATE, LEG, BRACKET, CONNECTOR, PIN, BINS, SIDE_BINS)


@dataclass(frozen=True)
class Filled:
    """What a stack comes to, as far as panels ask."""

    fronts: tuple[PlacedFront, ...] = ()
    drawers: tuple[DrawerBox, ...] = ()


def known(*rows):
    """The rows above, each replaced by one of the same kind and id."""
    return Hardware({(KIND_OF[type(row)], row.id): row for row in (*ROWS, *rows)})


def box(*compartments, fitting_out=None, **more):
    fitted = fitting_out or FittingOut()
    if compartments:
        fitted = replace(fitted, compartments=compartments)
    return carcass_box(carcass("b60", **{"fitting_out": fitted, **more}))


def part(id="all", **more):
    return Compartment(id, id, **more)


def drawer(id="drawer", line_mm=60.0, compartment="b60", **more):
    values = {
        "name": id, "runner": "runner-500", "front": id, "left_mm": 18.0, "right_mm": 582.0, "first_mm": 37.0,
        "front_u_mm": 0.0, "rear_u_mm": 513.0, "low_mm": line_mm - 30, "high_mm": line_mm + 140, **more,
    }  # fmt: skip
    return DrawerBox(id=id, compartment=compartment, line_mm=line_mm, **values)


def door(id="door", hung=HungOn.LEFT, compartment="b60", **more):
    values = {
        "member": id, "name": id, "front": FrontIs.DOOR, "left_mm": 1.5, "foot_mm": 0.0, "width_mm": 597.0,
        "height_mm": 717.0, "thickness_mm": 20.0, "stands_mm": 0.0, "hinge": "hinge-110", "plate": "plate-0",
        "cups_mm": (100.0, 617.0), "edge_mm": 5.0, **more,
    }  # fmt: skip
    return PlacedFront(id=id, compartment=compartment, hung=hung, **values)


def drilled(box, fronts=(), drawers=(), rows=(), cuts=(), passages=(), **more):
    """The panels by id."""
    filled = Filled(tuple(fronts), tuple(drawers))
    made = panels(job(room(run(box.item)), **more), box, known(*rows), filled, cuts, passages)
    return {one.id: one for one in made}


def findings(box, fronts=(), drawers=(), rows=(), cuts=(), passages=(), **more):
    filled = Filled(tuple(fronts), tuple(drawers))
    here = job(room(run(box.item)), **more)
    made = panels(here, box, known(*rows), filled, cuts, passages)
    return hole_findings(here, box, known(*rows), filled, made)


def places(panel, what=None, face=None):
    """(u, v) of its holes, of those for one purpose, from one face."""
    return [
        (one.u_mm, one.v_mm)
        for one in panel.holes
        if what in (None, one.hole_for) and face in (None, one.face)
    ]


LEFT, RIGHT, BOTTOM, BACK = PanelKind.LEFT.value, PanelKind.RIGHT.value, PanelKind.BOTTOM.value, PanelKind.BACK.value
