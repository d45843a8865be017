"""Rows of fitting charts for tests, invented, each figure to be replaced by name; and a carcass fitted out with them."""

from __future__ import annotations

from dataclasses import replace

import sample_room

from oddleg.job import (
    Bracket,
    Compartment,
    Connector,
    FittingOut,
    FixedTo,
    Front,
    Hinge,
    Leg,
    Pin,
    Plate,
    PullOut,
    RebateFace,
    Runner,
    Stack,
    StackMember,
)
from oddleg.plan.hardware import KIND_OF, Hardware

RUNNER = Runner(
    id="runner-500", name="runner 500", length_mm=500.0, front_mm=3.0, rear_void_mm=10.0, up_mm=45.0, least_up_mm=33.0,
    first_mm=37.0, screws_mm=(0.0, 224.0, 256.0), hole_mm=5.0, hole_depth_mm=12.0, below_mm=26.0, above_mm=80.0,
    least_front_mm=110.0, side_mm=21.0, load_kg=40.0, board_mm=16.0, base_less_mm=75.0, base_shorter_mm=24.0,
    back_less_mm=87.0, back_height_mm=84.0, base_lip_mm=12.0, base_edges=("left", "right"), base_face=RebateFace.BELOW,
    base_clear_mm=3.0, back_lip_mm=10.0, back_edges=("left", "right"),
)  # fmt: skip
HINGE = Hinge(
    id="hinge-110", name="hinge 110", opening_deg=110.0, cup_mm=35.0, cup_depth_mm=12.5, least_edge_mm=3.0,
    greatest_edge_mm=7.0, screws_back_mm=9.5, screws_apart_mm=45.0, screw_mm=2.5, screw_depth_mm=10.0, constant_mm=13.0,
    end_mm=100.0, intrusion_mm=22.0, least_door_mm=15.0, greatest_door_mm=26.0, up_to_mm=(900.0, 1600.0, 2000.0, 2400.0),
    up_to_kg=(7.0, 13.0, 19.0, 25.0),
)  # fmt: skip
PLATE = Plate(id="plate-0", name="plate 0", height_mm=0.0, row_mm=37.0, spread_mm=32.0, hole_mm=5.0, hole_depth_mm=12.0)
PIN = Pin(
    id="pin-5", name="pin 5", hole_mm=5.0, hole_depth_mm=12.0, row_mm=37.0, pitch_mm=32.0, least_back_mm=32.0,
    load_kg=40.0,
)  # fmt: skip
LEG = Leg(
    id="leg-150", name="leg 150", least_mm=130.0, greatest_mm=200.0, right_mm=(-20.0, 20.0, -20.0, 20.0),
    back_mm=(-20.0, -20.0, 20.0, 20.0), hole_mm=3.0, hole_depth_mm=12.0, load_kg=120.0,
)  # fmt: skip
BRACKET = Bracket(
    id="bracket-70", name="bracket 70", down_mm=(30.0, 62.0, 46.0), in_mm=(20.0, 20.0, 52.0), hole_mm=10.0,
    hole_depth_mm=12.0, rail_down_mm=40.0, least_recess_mm=15.0, load_kg=130.0,
)  # fmt: skip
CONNECTOR = Connector(
    id="connector-5", name="connecting screw", hole_mm=5.0, front_mm=60.0, back_mm=60.0, top_mm=70.0, bottom_mm=70.0,
    clear_mm=8.0, least_boards_mm=28.0, greatest_boards_mm=45.0,
)  # fmt: skip
PULL_OUT = PullOut(
    id="bin-600", name="bin frame", fixed_to=FixedTo.BOTTOM, least_width_mm=562.0, greatest_width_mm=568.0,
    least_depth_mm=500.0, least_height_mm=420.0, holes_u_mm=(50.0, 50.0, 274.0, 274.0),
    holes_across_mm=(-224.0, 224.0, -224.0, 224.0), hole_mm=3.5, hole_depth_mm=12.0, door_up_mm=(64.0, 128.0, 64.0, 128.0),
    door_across_mm=(-224.0, -224.0, 224.0, 224.0), door_hole_mm=3.0, door_hole_depth_mm=12.0, load_kg=35.0,
)  # fmt: skip


def runner(**other) -> Runner:
    return replace(RUNNER, **other)


def hinge(**other) -> Hinge:
    return replace(HINGE, **other)


def plate(**other) -> Plate:
    return replace(PLATE, **other)


def pin(**other) -> Pin:
    return replace(PIN, **other)


def leg(**other) -> Leg:
    return replace(LEG, **other)


def bracket(**other) -> Bracket:
    return replace(BRACKET, **other)


def connector(**other) -> Connector:
    return replace(CONNECTOR, **other)


def pull_out(**other) -> PullOut:
    return replace(PULL_OUT, **other)


def known(*rows) -> Hardware:
    """Just these rows."""
    return Hardware({(KIND_OF[type(row)], row.id): row for row in rows})


def every_row(*rows) -> Hardware:
    """One row of each kind, and these; one of these replaces one of the same kind and id."""
    return known(RUNNER, HINGE, PLATE, PIN, LEG, BRACKET, CONNECTOR, PULL_OUT, *rows)


def member(id="m", **other) -> StackMember:
    """A door by default."""
    return StackMember(id=id, name=other.pop("name", id), **other)


def stack(*members, **other) -> Stack:
    return Stack(tuple(members), **other)


def compartment(id="all", **other) -> Compartment:
    return Compartment(id, other.pop("name", id), **other)


def carcass(id="b60", *compartments, **other):
    """600 x 720 x 560 of 18 board with an overlay front 20 thick, fitted out."""
    if compartments:
        other["fitting_out"] = replace(other.get("fitting_out", FittingOut()), compartments=compartments)
    return sample_room.carcass(id, **{"fitting_out": FittingOut(), "front": Front(), **other})
