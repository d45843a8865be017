"""Ventilation and ducts as the sheets of the appliances ask for them, against what there is. No figure of ours."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from oddleg.job import (
    Appliance,
    ApplianceBay,
    Carcass,
    Job,
    OpenUnit,
    PlinthCutKind,
    Service,
    ServiceKind,
    Vent,
    VentBy,
)

from .bay_depths import bay_depths
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .heights import SAME_MM
from .rod import Placed
from .room_services import VentRoute
from .service_places import void_mm
from .setting_out import RunSetOut

SHEET = "the appliance's own sheet"
CM2_STEP = 0.1


@dataclass(frozen=True)
class _Asked:
    """What is asked and what there is, in `unit`; each None where it is not known."""

    asked: float | None
    has: float | None
    unit: str
    asked_words: str
    has_words: str


def vents(
    job: Job, run: RunSetOut, placed: Placed, services: Sequence[Service]
) -> Iterator[tuple[VentRoute, tuple[Finding, ...]]]:
    """Of each vent that the sheet of an appliance of this item asks for: what there is of it, and what is wrong."""
    item = placed.item
    sheets: tuple[Appliance, ...] = ()
    if isinstance(item, Carcass):
        sheets = item.appliances
    elif isinstance(item, ApplianceBay):
        sheets = (item.appliance,)
    for sheet in sheets:
        for vent in sheet.vents:
            found = _asked(job, run, placed, vent, services)
            holds = None if found.asked is None or found.has is None else found.has >= found.asked - SAME_MM
            route = VentRoute(item.id, sheet.name, found.asked_words, found.has_words, holds)
            yield route, tuple(_findings(run, placed, sheet, vent, found, holds))


def _asked(job: Job, run: RunSetOut, placed: Placed, vent: Vent, services: Sequence[Service]) -> _Asked:
    step_mm = job.rounding_mm
    if vent.by is VentBy.GRILLE:
        cuts = placed.item.plinth_cuts if isinstance(placed.item, Carcass | ApplianceBay) else ()
        area = sum(one.width_mm * one.height_mm for one in cuts if one.kind is PlinthCutKind.GRILLE) / 100.0
        shown = text_mm(area, CM2_STEP)
        has = f"{shown} cm² cut out of the plinth; a grille's own free area is less, see its sheet"
        asked = None if vent.area_cm2 is None else f"{text_mm(vent.area_cm2, CM2_STEP)} cm² free in the plinth"
        return _Asked(vent.area_cm2, area, "cm²", asked or "a grille in the plinth, its area not read", has)
    if vent.by is VentBy.CHIMNEY:
        free_mm, has = _chimney(job, run, placed)
        asked = None if vent.depth_mm is None else f"{text_mm(vent.depth_mm, step_mm)} free behind it"
        return _Asked(vent.depth_mm, free_mm, "mm", asked or "free depth behind it, how much not read", has)
    duct = next((one for one in services if one.id == vent.service), None)
    asked = None if vent.bore_mm is None else f"a duct of {text_mm(vent.bore_mm, step_mm)} bore"
    asked = asked or "a duct, its bore not read"
    ways = [] if duct is None else [(duct.name, min(duct.width_mm, duct.width_mm if duct.round else duct.height_mm))]
    ways += [
        (one.name, one.diameter_mm)
        for one in run.run.passages
        if one.kind is ServiceKind.DUCT and placed.item.id in (one.from_item, one.to_item)
    ]
    if duct is None:
        return _Asked(vent.bore_mm, None, "mm", asked, "no duct is named for it")
    least = min(bore for _, bore in ways)
    has = ", ".join(f"{name} {text_mm(bore, step_mm)}" for name, bore in ways)
    return _Asked(vent.bore_mm, least, "mm", asked, has)


def _chimney(job: Job, run: RunSetOut, placed: Placed) -> tuple[float | None, str]:
    """Free depth behind a machine in its bay, or behind the back of a carcass."""
    step_mm, item = job.rounding_mm, placed.item
    if isinstance(item, Carcass | OpenUnit):
        free_mm = void_mm(run, placed, *placed.body_mm)
        recess_mm = item.box.back_recess_mm
        words = f"void {text_mm(free_mm, step_mm)}"
        if recess_mm:
            words += f" + back recess {text_mm(recess_mm, step_mm)}"
        return free_mm + recess_mm, f"{words} behind its back"
    for bay in bay_depths(run.rod.placed, run.wall, run.line):
        if bay.placed.item.id == item.id and bay.wants_mm is not None:
            free_mm = max(bay.has_mm - bay.wants_mm, 0.0)
            return free_mm, f"{text_mm(free_mm, step_mm)} free behind the machine"
    return None, "nobody has read how deep the machine is"


def _findings(
    run: RunSetOut, placed: Placed, sheet: Appliance, vent: Vent, found: _Asked, holds: bool | None
) -> Iterator[Finding]:
    place, source = f"{sheet.name}, {placed.item.name}", vent.source or SHEET
    concerns = (run.run.id, placed.item.id, sheet.id)
    if found.asked is None:
        yield Finding(
            "vent.unread",
            Severity.NOTE,
            place,
            f"It wants {found.asked_words}.",
            "Read the figure off its sheet, and put it into the job.",
            source,
            concerns=concerns,
        )
    if vent.by is VentBy.DUCT and found.has is None:
        yield Finding(
            "vent.no_duct",
            Severity.WARN,
            place,
            f"It wants {found.asked_words}, and no duct is named for it.",
            "Put the duct's outlet into the run's services and name it, so that its way can be seen before plaster.",
            source,
            concerns=concerns,
        )
    if holds is False and found.asked is not None and found.has is not None:
        amount: Figure = figure(found.asked - found.has, CM2_STEP, f"What is asked less what there is, {found.unit}.")
        yield Finding(
            f"vent.{vent.by.value}",
            Severity.WARN,
            place,
            f"It wants {found.asked_words}; there is {found.has_words}: {amount.text} {found.unit} short.",
            "Give it the air that its sheet asks for, or take another appliance.",
            source,
            amount,
            concerns,
        )
