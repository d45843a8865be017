"""What is let into a worktop and hangs below it into the carcass: bowl, hob, tap."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import Appliance, ApplianceSeat, Carcass, Job, Room

from .carcass_box import carcass_box
from .figure import figure, text_mm
from .finding import Finding, Severity
from .rod import Placed
from .room_services import Hanging, Inside

SHEET = "the appliance's own sheet"


def hanging(job: Job, room: Room, placed: Placed) -> Iterator[Hanging]:
    """Of each appliance of a unit that is let into its top. It hangs `drop_mm` below the top's upper face; of that the
    worktop and what lies under it hide their thickness, and below it its air gap stays free."""
    step_mm = job.rounding_mm
    for item, one in _in_top(placed):
        if one.drop_mm is None:
            continue
        hidden_mm = room.worktop.thickness_mm + room.worktop.build_up_mm
        below_mm = one.drop_mm - hidden_mm + (one.air_gap_mm or 0.0)
        under = "top and what lies under it" if room.worktop.build_up_mm else "top"
        words = f"{text_mm(one.drop_mm, step_mm)} in a {text_mm(hidden_mm, step_mm)} {under}"
        if one.air_gap_mm is None:
            words += f": {text_mm(below_mm, step_mm, signed=True)} below the datum, no air gap is known"
        else:
            words += f" and {text_mm(one.air_gap_mm, step_mm)} of air below it"
        words += (
            f": clear to {text_mm(below_mm, step_mm)} below the datum"
            if below_mm > 0
            else ": nothing hangs below the datum"
        )
        left_mm, right_mm = _along(placed, item, one)
        why = f"{text_mm(one.drop_mm, step_mm)} deep less {text_mm(hidden_mm, step_mm)} of top"
        why += f" plus {text_mm(one.air_gap_mm, step_mm)} of air." if one.air_gap_mm else "."
        yield Hanging(item.id, one.id, one.name, left_mm, right_mm, figure(below_mm, step_mm, why), words)


def let_in_spans(placed: Placed) -> tuple[tuple[str, float, float], ...]:
    """Name, left and right edge along the rod of what is let into the top over a unit."""
    return tuple((one.name, *_along(placed, item, one)) for item, one in _in_top(placed))


def _in_top(placed: Placed) -> tuple[tuple[Carcass, Appliance], ...]:
    """What is let into the top over a carcass, with that carcass."""
    item = placed.item
    if not isinstance(item, Carcass):
        return ()
    return tuple((item, one) for one in item.appliances if one.seat is ApplianceSeat.IN_TOP)


def _along(placed: Placed, item: Carcass, one: Appliance) -> tuple[float, float]:
    """Left and right edge of it along the rod: where the job puts it, else in the middle; all of the unit's inside
    where its width is not known."""
    left_mm, right_mm = placed.body_mm
    width_mm = one.greatest_width_mm or one.least_width_mm
    if width_mm is None:
        return left_mm + item.box.board_mm, right_mm - item.box.board_mm
    at_mm = (right_mm - left_mm - width_mm) / 2 if one.at_mm is None else one.at_mm
    return left_mm + at_mm, left_mm + at_mm + width_mm


def hanging_inside(placed: Placed, one: Hanging) -> Inside | None:
    """The room that it takes up in its carcass; None where nothing hangs below the datum."""
    item = placed.item
    if not isinstance(item, Carcass) or one.below_datum.mm <= 0:
        return None
    box = carcass_box(item)
    from_mm = placed.body_mm[0]
    return Inside(
        item.id,
        one.appliance,
        one.name,
        one.left_mm - from_mm,
        one.right_mm - from_mm,
        box.height_mm - one.below_datum.mm,
        box.height_mm,
        0.0,
        box.inside_depth_mm,
        hangs=True,
    )


def unread_findings(placed: Placed) -> Iterator[Finding]:
    """Figures of what is let into a top that nobody has read off its sheet yet."""
    for item, one in _in_top(placed):
        asked = []
        if one.drop_mm is None:
            asked.append("how deep it hangs below the top's upper face")
        elif one.air_gap_mm is None:
            asked.append("what air must stay free below it")
        if asked:
            yield Finding(
                "service.drop_unread",
                Severity.NOTE,
                f"{one.name}, {item.name}",
                f"Nobody has read off its sheet {asked[0]}: what is below it is not held against it.",
                "Read it off the appliance's own sheet, and put it into the job before drawers are ordered.",
                SHEET,
                concerns=(placed.run.id, item.id, one.id),
            )
