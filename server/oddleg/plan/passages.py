"""Holes through the sides between two items of a run, for a waste, a supply, a plug with its lead, a duct."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Carcass, EndPanel, Job, OpenUnit, Passage, Storey

from .boards import divider_id
from .carcass_box import carcass_box
from .figure import text_mm
from .finding import Finding, Severity
from .fitted_out import PanelKind
from .heights import SAME_MM
from .rod import Placed
from .room_services import Inside, PassageHole
from .set_out import Rod
from .sightings import listed


def passage_hole(rod: Rod, passage: Passage) -> PassageHole:
    """Every side and divider that the passage goes through, from left to right; none where one of its two items is not
    in this run, or hangs."""
    row = _between(rod, passage)
    found: list[tuple[str, str]] = []
    for number, one in enumerate(row):
        if not isinstance(one.item, Carcass | OpenUnit):
            continue
        if number > 0:
            found.append((one.item.id, PanelKind.LEFT.value))
        if 0 < number < len(row) - 1:
            dividers = carcass_box(one.item).dividers_mm
            found += [(one.item.id, divider_id(count)) for count in range(1, len(dividers) + 1)]
        if number < len(row) - 1:
            found.append((one.item.id, PanelKind.RIGHT.value))
    return PassageHole(rod.run.id, passage, tuple(found))


def _between(rod: Rod, passage: Passage) -> list[Placed]:
    """Both items and what stands between them, from left to right."""
    row = [one for one in rod.placed if one.stands]
    at = [number for number, one in enumerate(row) if one.item.id in (passage.from_item, passage.to_item)]
    return row[at[0] : at[1] + 1] if len(at) == 2 else []


def passage_findings(job: Job, rod: Rod, passage: Passage) -> Iterator[Finding]:
    """Items that it cannot join, boards beside the carcasses that it goes through too, and sides that it misses."""
    place, row = f"{passage.name}, {rod.run.name}", _between(rod, passage)
    concerns = (rod.run.id, passage.id, passage.from_item, passage.to_item)
    if not row:
        yield Finding(
            "service.passage_of_nothing",
            Severity.STOP,
            place,
            "It is to go from one item to another, and they do not both stand in this run.",
            "Name two items that stand in this run.",
            "a passage goes through the sides between two items",
            concerns=concerns,
        )
        return
    boards = [one.item.name for one in row if isinstance(one.item, EndPanel)]
    if boards:
        yield Finding(
            "service.passage_through_panel",
            Severity.NOTE,
            place,
            f"It goes through {listed(boards)} too.",
            "Drill it together with the side that it stands against.",
            "what stands between the two items",
            concerns=concerns,
        )
    for one in row:
        item = one.item
        if not isinstance(item, Carcass | OpenUnit):
            continue
        box, radius_mm = carcass_box(item), passage.diameter_mm / 2
        top_mm = job.base_carcass_height_mm if item.storey is Storey.TALL else item.height_mm
        z_mm, u_mm = top_mm - passage.below_top_mm, box.depth_mm - passage.from_back_mm
        clear_mm = min(z_mm - box.floor_mm, box.roof_mm - z_mm, u_mm, box.side_depth_mm - u_mm) - radius_mm
        if clear_mm < -SAME_MM:
            yield Finding(
                "service.passage_outside",
                Severity.STOP,
                f"{passage.name}, {item.name}",
                f"A hole of {text_mm(passage.diameter_mm, job.holes.shop_mm)}, its middle "
                f"{text_mm(passage.below_top_mm, job.rounding_mm)} below the datum and "
                f"{text_mm(passage.from_back_mm, job.rounding_mm)} from the back, does not lie inside this unit: "
                "it meets its top, bottom or an edge.",
                "Move the passage, or make it smaller.",
                "a passage goes from inside to inside",
                concerns=(*concerns, item.id),
            )


def passages_inside(job: Job, rod: Rod, passage: Passage) -> Iterator[Inside]:
    """What the passage takes up of the carcasses: all their width where it goes on, its own diameter beside the side
    where it ends."""
    row: Sequence[Placed] = _between(rod, passage)
    radius_mm = passage.diameter_mm / 2
    for number, one in enumerate(row):
        item = one.item
        if not isinstance(item, Carcass | OpenUnit):
            continue
        box = carcass_box(item)
        left_mm, right_mm = box.board_mm, box.width_mm - box.board_mm
        if number == 0:
            left_mm = right_mm - passage.diameter_mm
        elif number == len(row) - 1:
            right_mm = left_mm + passage.diameter_mm
        top_mm = job.base_carcass_height_mm if item.storey is Storey.TALL else item.height_mm
        z_mm, u_mm = top_mm - passage.below_top_mm, box.depth_mm - passage.from_back_mm
        yield Inside(
            item.id,
            passage.id,
            passage.name,
            left_mm,
            right_mm,
            z_mm - radius_mm,
            z_mm + radius_mm,
            u_mm - radius_mm,
            u_mm + radius_mm,
        )
