"""Appliance bays in front of a wall: the depth that the appliance wants against what void, bay and front leave."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from oddleg.job import ApplianceBay, Carcass, Job, OpenUnit

from .batten_places import recess_mm
from .figure import figure, text_mm
from .finding import Finding, Severity
from .front_line import FrontLine
from .heights import SAME_MM
from .rod import Placed
from .wall import Wall
from .wall_profile import STANDING, Span
from .worktop_depth import front_face_mm


@dataclass(frozen=True)
class BayDepth:
    """`wants_mm`: what the appliance's sheet asks for, None where nobody read it; it has the least void behind the bay,
    since the machine is stiff, + `depth_mm` of the bay + `front_mm`."""

    placed: Placed
    wants_mm: float | None
    void_mm: float
    depth_mm: float
    front_mm: float

    @property
    def span(self) -> Span:
        return self.placed.left_mm, self.placed.right_mm

    @property
    def has_mm(self) -> float:
        return self.void_mm + self.depth_mm + self.front_mm

    @property
    def proud_mm(self) -> float:
        return 0.0 if self.wants_mm is None else max(self.wants_mm - self.has_mm, 0.0)

    def past_batten_mm(self, forward_mm: float) -> float:
        """What is left in front of a batten whose face lies so far in front of the line of backs."""
        return self.depth_mm + self.front_mm - forward_mm

    def cuts_batten(self, forward_mm: float) -> bool:
        return self.wants_mm is not None and self.wants_mm > self.past_batten_mm(forward_mm) + SAME_MM


def bay_depths(placed: Sequence[Placed], wall: Wall | None, line: FrontLine) -> tuple[BayDepth, ...]:
    """Every standing bay of a run. Without a front of its own an appliance may come out as far as the front of a unit
    beside it; one behind a front may not."""
    row = [one for one in placed if one.stands]
    found = []
    for before, one, after in zip([None, *row], row, [*row[1:], None], strict=False):
        bay = one.item
        if not isinstance(bay, ApplianceBay):
            continue
        beside = [each.item for each in (before, after) if each and isinstance(each.item, Carcass | OpenUnit)]
        front_mm = 0.0 if bay.front else max((front_face_mm(item) for item in beside), default=0.0)
        void_mm = line.least_void_mm(wall, STANDING, (one.left_mm + line.zero_mm, one.right_mm + line.zero_mm))
        sheet = bay.appliance
        wants_mm = sheet.greatest_depth_mm if sheet.least_depth_mm is None else sheet.least_depth_mm
        found.append(BayDepth(one, wants_mm, void_mm, bay.depth_mm, front_mm))
    return tuple(found)


def bay_findings(job: Job, wall: Wall | None, line: FrontLine, placed: Sequence[Placed]) -> Iterator[Finding]:
    """Of every bay of a run at a wall: an appliance that stands proud, a depth that nobody read, a batten cut out."""
    if wall is None:
        return
    batten = line.run.batten
    forward_mm = None if batten is None else recess_mm(placed, batten)
    for bay in bay_depths(placed, wall, line):
        yield from _bay(line, bay, forward_mm, job.rounding_mm)


def _bay(line: FrontLine, bay: BayDepth, forward_mm: float | None, step_mm: float) -> Iterator[Finding]:
    """`forward_mm`: how far the batten's face lies in front of the line of backs; None where there is no batten."""
    name, place, concerns = bay.placed.item.name, line.run.name, (line.run.id, bay.placed.item.id)
    has = (
        f"void {text_mm(bay.void_mm, step_mm)} + bay {text_mm(bay.depth_mm, step_mm)} + front "
        f"{text_mm(bay.front_mm, step_mm)} = {text_mm(bay.has_mm, step_mm)}"
    )
    before_batten = "" if forward_mm is None else text_mm(bay.past_batten_mm(forward_mm), step_mm)
    if bay.wants_mm is None:
        runs_through = f"; the batten runs through, and leaves {before_batten} in front of it" if before_batten else ""
        yield Finding(
            "front_line.bay_depth_unread",
            Severity.NOTE,
            place,
            f"Nobody has read off its sheet what depth the appliance of {name} wants; there is {has}{runs_through}.",
            "Read the depth off the appliance's sheet, hoses, plug and outlet included.",
            "an appliance's depth comes from its own sheet",
            concerns=concerns,
        )
        return
    wants = text_mm(bay.wants_mm, step_mm)
    if bay.proud_mm > 0:
        proud = figure(bay.proud_mm, step_mm)
        yield Finding(
            "front_line.appliance_proud",
            Severity.WARN,
            place,
            f"The appliance of {name} stands {proud.text} proud: it wants {wants}, and there is {has}."
            + (" The batten is cut out there." if forward_mm is not None else ""),
            f"Bring the line out by {proud.text}, take a shallower appliance, or let hoses and plug into the wall.",
            "the appliance's own sheet; look whether hoses are in its depth",
            proud,
            concerns,
        )
    elif forward_mm is not None and bay.cuts_batten(forward_mm):
        yield Finding(
            "batten.cut_at_bay",
            Severity.NOTE,
            place,
            f"The batten is cut out over {name}: its appliance wants {wants}, and in front of the batten there would "
            f"be {before_batten} ({has} without it).",
            "Hold the worktop there another way, as its maker allows: cleats on the neighbours' sides, or a rail.",
            "the appliance's own sheet",
            concerns=concerns,
        )
