"""Drawers on their runners: where the line of screws lies and what room they take. Carcass axes, mm."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import Runner

from .carcass_box import CarcassBox, Space
from .fitted_out import DrawerBox, PlacedFront
from .hardware import Hardware


def front_drawer(space: Space, known: Hardware, front: PlacedFront, packing_mm: float = 0.0) -> DrawerBox | None:
    """The drawer behind its own front: its line is the front's lower edge and the chart's height. None where no runner
    is named or known. `packing_mm`: under the runners, out to the inner edge of a face frame."""
    runner = known.row(Runner, front.runner)
    if runner is None:
        return None
    return _drawer(runner, space, front.id, front.name, front.id, front.foot_mm, front.stands_mm, packing_mm)


def inner_drawers(box: CarcassBox, space: Space, known: Hardware) -> Iterator[DrawerBox]:
    """Drawers behind a door: the lower edge of their space counts from the bottom's upper face, and their runners start
    at the set-back."""
    for one in space.compartment.inner_drawers:
        runner = known.row(Runner, one.runner)
        if runner is not None:
            foot_mm = box.floor_mm + one.up_mm
            yield _drawer(runner, space, one.id, one.name, None, foot_mm, one.set_back_mm, one.spacer_mm)


def _drawer(
    runner: Runner,
    space: Space,
    id: str,
    name: str,
    front: str | None,
    foot_mm: float,
    start_mm: float,
    spacer_mm: float,
) -> DrawerBox:
    line_mm = foot_mm + runner.up_mm
    return DrawerBox(
        id=id,
        name=name,
        compartment=space.compartment.id,
        runner=runner.id,
        front=front,
        left_mm=space.left_mm + spacer_mm,
        right_mm=space.right_mm - spacer_mm,
        line_mm=line_mm,
        first_mm=start_mm + runner.first_mm,
        front_u_mm=start_mm,
        rear_u_mm=start_mm + runner.front_mm + runner.length_mm + runner.rear_void_mm,
        low_mm=line_mm - runner.below_mm,
        high_mm=line_mm + runner.above_mm,
        spacer_mm=spacer_mm,
    )
