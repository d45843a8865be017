"""What the units of a room are fitted out with and what its services ask: services, fronts, panels, checks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from oddleg.job import Carcass, Job, OpenUnit, Room, Storey

from .carcass_box import CarcassBox, carcass_box
from .connecting import connected
from .drawer_parts import drawer_parts
from .finding import Finding
from .finished_floor import Floor
from .fitted_out import FittedOut, Panel
from .front_stacks import FilledFronts, filled
from .hardware import Hardware
from .hole_checks import hole_findings
from .legs import unit_numbers
from .panels import panels
from .rod import Placed
from .room_services import RoomServices
from .service_clashes import service_clashes
from .services import room_services
from .setting_out import SettingOut
from .site import Site
from .sticks import sticks


@dataclass(frozen=True)
class RoomFitting:
    """`units`: every carcass and open unit that is fitted out, or whose back or side is cut or bored for a service, in
    room order."""

    units: tuple[FittedOut, ...]
    services: RoomServices

    @property
    def hanging(self) -> tuple[FittedOut, ...]:
        """Those that hang: they have no legs, and no number in the unit list."""
        return tuple(one for one in self.units if one.box.item.storey is Storey.WALL)


NOTHING_FITTED = RoomFitting((), RoomServices())


def room_fitting(
    job: Job, room: Room, here: Site, out: SettingOut, floor: Floor, datum_mm: float | None, known: Hardware
) -> RoomFitting:
    """Cut-outs and passages come first, since holes keep clear of them; connecting screws last, for they go where
    nothing else is."""
    services = room_services(job, room, here, out, floor, datum_mm)
    touched = {cut.item for cut in services.cuts} | {item for one in services.passages for item, _ in one.panels}
    placed = [one for one in out.placed if _has_panels(one, touched)]
    boxes = {one.item.id: carcass_box(one.item) for one in placed if isinstance(one.item, Carcass | OpenUnit)}
    fronts = {id: filled(job, box, known) for id, box in boxes.items()}
    made = {
        id: panels(
            job,
            box,
            known,
            fronts[id],
            tuple(one.cut for one in services.cuts if one.item == id),
            tuple(one for one in services.passages if any(item == id for item, _ in one.panels)),
        )
        for id, box in boxes.items()
    }
    made, between = _connected(job, known, out, made, boxes)
    numbers = unit_numbers(out.placed)
    units = tuple(
        _unit(job, known, box, fronts[id], made[id], numbers.get(id), [one for one in between if id == one.concerns[0]])
        for id, box in boxes.items()
    )
    met = service_clashes(job, services, units)
    return RoomFitting(units, replace(services, findings=(*services.findings, *met)))


def _has_panels(placed: Placed, touched: set[str]) -> bool:
    item = placed.item
    return isinstance(item, Carcass | OpenUnit) and (item.fitting_out is not None or item.id in touched)


def _connected(
    job: Job,
    known: Hardware,
    out: SettingOut,
    made: dict[str, tuple[Panel, ...]],
    boxes: dict[str, CarcassBox],
) -> tuple[dict[str, tuple[Panel, ...]], tuple[Finding, ...]]:
    findings: list[Finding] = []
    for run in out.runs:
        made, told = connected(job, known, run.rod.placed, made, boxes)
        findings += told
    return made, tuple(findings)


def _unit(
    job: Job,
    known: Hardware,
    box: CarcassBox,
    fronts: FilledFronts,
    made: tuple[Panel, ...],
    number: int | None,
    between: Sequence[Finding],
) -> FittedOut:
    """`between`: what is wrong between it and its neighbour on the right."""
    boards, told = drawer_parts(job, box, known, fronts)
    unit = FittedOut(
        item=box.item.id,
        number=number,
        name=box.item.name,
        box=box,
        stacks=fronts.stacks,
        fronts=fronts.fronts,
        drawers=fronts.drawers,
        panels=made,
        drawer_parts=boards,
        sticks=sticks(job, box, made),
    )
    return replace(unit, findings=(*fronts.findings, *hole_findings(job, box, known, fronts, made), *told, *between))
