"""What stands out of the wall behind an appliance that stands in a bay, against the depth that is free there."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import ApplianceBay, Job

from .axes import to_room
from .bay_depths import bay_depths
from .figure import figure, text_mm
from .finding import Finding, Severity
from .finished_floor import Floor
from .heights import SAME_MM
from .service_places import Behind
from .setting_out import RunSetOut

SHEET = "the appliance's own sheet"


def bay_words(job: Job, run: RunSetOut, one: Behind) -> str:
    """What may stand proud of the wall behind the bay's machine, in words."""
    item = one.stood.placed.item
    assert isinstance(item, ApplianceBay)
    free_mm = free_behind_mm(run, one)
    sheet = item.appliance
    if free_mm is None:
        return f"behind {item.name}; how deep its machine is, nobody has read off its sheet"
    may = f"behind {item.name}, where {text_mm(max(free_mm, 0.0), job.rounding_mm)} may stand proud of the wall"
    if sheet.relief_height_mm and sheet.relief_depth_mm:
        may += (
            f", and {text_mm(max(free_mm, 0.0) + sheet.relief_depth_mm, job.rounding_mm)} up to "
            f"{text_mm(sheet.relief_height_mm, job.rounding_mm)} over the floor"
        )
    return may


def free_behind_mm(run: RunSetOut, one: Behind) -> float | None:
    """Depth free behind the machine of the bay; None where nobody read its depth."""
    for bay in bay_depths(run.rod.placed, run.wall, run.line):
        if bay.placed.item.id == one.stood.placed.item.id and bay.wants_mm is not None:
            return bay.has_mm - bay.wants_mm
    return None


def behind_bay_findings(job: Job, run: RunSetOut, floor: Floor, one: Behind) -> Iterator[Finding]:
    """Of a service behind a bay: what stands further out than is free there, up to the machine's relief height by so
    much more; and one that must stay within reach, which the machine covers (common practice: it goes into the cupboard
    beside, through a hole in the side)."""
    item = one.stood.placed.item
    assert isinstance(item, ApplianceBay)
    service, step_mm = one.spot.service, job.rounding_mm
    place = f"{service.name}, {item.name}"
    concerns = (run.run.id, item.id, service.id)
    free_mm = free_behind_mm(run, one)
    if service.reach:
        fixed = item.appliance.built_in
        yield Finding(
            "service.behind_machine",
            Severity.WARN if fixed else Severity.NOTE,
            place,
            f"{service.name} must stay within reach, and the {item.appliance.name} covers it"
            + (", fixed as it is." if fixed else "; it is reached only with the machine pulled out."),
            "Have it put into the cupboard beside, and lead plug or hose there through a hole in the side.",
            "common practice: a plug or valve is reached without moving the machine; local code may ask for it",
            concerns=concerns,
            caution=True,
        )
    if free_mm is None:
        if service.stands_out_mm > 0:
            yield Finding(
                "service.bay_unread",
                Severity.NOTE,
                place,
                f"It stands {text_mm(service.stands_out_mm, step_mm)} out behind {item.name}, and nobody has read off "
                f"the sheet how deep the {item.appliance.name} is.",
                "Read the depth off its sheet, with the height and depth of the recess in its back.",
                SHEET,
                concerns=concerns,
            )
        return
    more_mm, words = _relief(run, floor, one)
    over_mm = service.stands_out_mm - max(free_mm, 0.0) - more_mm
    if over_mm <= SAME_MM:
        return
    yield Finding(
        "service.proud_in_bay",
        Severity.WARN,
        place,
        f"It stands {text_mm(service.stands_out_mm, step_mm)} out of the wall behind the {item.appliance.name}, where "
        f"{text_mm(max(free_mm, 0.0) + more_mm, step_mm)} are free{words}. Plug or hose come on top of that.",
        "Have it moved into the cupboard beside, let it into the wall, or put it below the machine's relief height.",
        SHEET,
        figure(over_mm, step_mm, "What it stands out less what is free there."),
        concerns,
    )


def _relief(run: RunSetOut, floor: Floor, one: Behind) -> tuple[float, str]:
    """What more is free where the machine's back stands back, and words for it."""
    item, spot = one.stood.placed.item, one.spot
    assert isinstance(item, ApplianceBay)
    sheet = item.appliance
    if not sheet.relief_height_mm or not sheet.relief_depth_mm:
        return 0.0, ""
    placed = one.stood.placed
    at = to_room(run.rod.run, (placed.left_mm + placed.right_mm) / 2, run.rod.run.void_mm)
    surface = floor.bays.get(item.id)
    stands = None if surface is None else surface.at(at.x_mm, at.y_mm)
    if stands is None or spot.level is None:
        return 0.0, " (whether it lies below the machine's relief height is not known yet)"
    if spot.level[1] <= stands.level_mm + sheet.relief_height_mm + SAME_MM:
        return sheet.relief_depth_mm, " below its relief height"
    return 0.0, " above its relief height"
