"""What comes out of the floor under a unit, or out of the wall in its leg space, against its legs and its bottom."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import Carcass, ComesFrom, Job, OpenUnit

from .figure import figure, text_mm
from .finding import Finding, Severity
from .heights import SAME_MM
from .legs import leg_places
from .rod import Placed
from .service_places import Behind, void_mm
from .setting_out import RunSetOut
from .sightings import listed

LEG_MM = 40.0
"""What a leg takes up round its middle, foot and socket (ours, a rule of thumb)."""


def leg_space_findings(job: Job, run: RunSetOut, one: Behind) -> Iterator[Finding]:
    """Legs that stand where the service is, and a bottom that it comes up through."""
    placed, spot = one.stood.placed, one.spot
    item, service = placed.item, spot.service
    if not isinstance(item, Carcass | OpenUnit) or not placed.stands:
        return
    place, concerns = f"{service.name}, {item.name}", (run.run.id, item.id, service.id)
    across = _across(run, one)
    low = service.comes_from is ComesFrom.FLOOR if spot.over is None else spot.over[0] < one.stood.low_mm
    if across is not None and low:
        met = [
            name
            for name, x_mm, out_mm in _legs(job, placed)
            if max(spot.left_mm - x_mm, x_mm - spot.right_mm, 0.0) ** 2
            + max(across[0] - out_mm, out_mm - across[1], 0.0) ** 2
            < LEG_MM**2 - SAME_MM
        ]
        if met:
            yield Finding(
                "service.at_leg",
                Severity.WARN,
                place,
                f"It lies within {text_mm(LEG_MM)} of where a leg of {item.name} stands ({listed(met)}).",
                "Set that leg elsewhere under the unit, or have the service moved.",
                "a leg's foot needs its room on the floor",
                concerns=concerns,
            )
    if service.comes_from is not ComesFrom.FLOOR or spot.over is None or spot.out_y_mm is None:
        return
    up_mm = spot.over[1] - one.stood.low_mm
    if up_mm <= SAME_MM or spot.out_y_mm <= 0:
        return
    step_mm = job.rounding_mm
    from_left_mm = (spot.left_mm + spot.right_mm) / 2 - placed.body_mm[0]
    yield Finding(
        "service.through_bottom",
        Severity.WARN,
        place,
        f"It comes up through the bottom of {item.name}, {text_mm(up_mm, step_mm)} over its underside: its middle lies "
        f"{text_mm(from_left_mm, step_mm)} from the unit's left outside edge and {text_mm(spot.out_y_mm, step_mm)} "
        "from its back.",
        "Cut a hole in the bottom for it before the unit is set down, or have it taken back.",
        "what stands higher than the legs comes through the bottom",
        figure(up_mm, step_mm, "Its top less the carcass's underside."),
        concerns,
    )


def _across(run: RunSetOut, one: Behind) -> tuple[float, float] | None:
    """From where to where it lies out of the line of backs; None where that is not known."""
    spot = one.spot
    if spot.service.comes_from is ComesFrom.FLOOR:
        half_mm = spot.service.height_mm / 2
        return None if spot.out_y_mm is None else (spot.out_y_mm - half_mm, spot.out_y_mm + half_mm)
    free_mm = void_mm(run, one.stood.placed, spot.left_mm, spot.right_mm)
    return (-free_mm, spot.service.stands_out_mm - free_mm)


def _legs(job: Job, placed: Placed) -> Iterator[tuple[str, float, float]]:
    """Name, x on the rod and distance out of the line of backs of each leg."""
    if placed.legs is None:
        return
    for one in leg_places(placed, job.tolerances):
        yield one.name, one.x_mm, one.y_mm - placed.back_mm
