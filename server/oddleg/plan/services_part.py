"""The part of a room's services: where they land, what is cut, what is wanted before plaster."""

from __future__ import annotations

from . import RoomPlan
from .figure import Figure, figure, text_mm
from .first_fix import KIND_WORDS
from .part_values import Part, figure_part, finding_part
from .room_services import BackCut, Landing, PassageHole, from_datum
from .setting_out import RunSetOut
from .sightings import listed

LEAST_APART_MM = 0.25


def services_part(room_plan: RoomPlan) -> Part:
    """Texts and figures of the room's services, in run order. Drawings are added further out."""
    services = room_plan.fitting.services
    runs = {run.id: run for run in room_plan.room.runs}
    names = {item.id: item.name for run in room_plan.room.runs for item in run.items}
    return {
        "room": room_plan.room.id,
        "name": room_plan.room.name,
        "landings": [_landing(one, runs[one.run].name, names) for one in services.landings],
        "cuts": [_cut(one, names) for one in services.cuts],
        "passages": [_passage(one, names) for one in services.passages],
        "hanging": [
            {
                "item": one.item,
                "name": f"{one.name}, {names.get(one.item, one.item)}",
                "below_datum": figure_part(one.below_datum),
                "words": one.words,
            }
            for one in services.hanging
        ],
        "wanted": [
            {
                "id": one.service.id,
                "name": one.service.name,
                "run": runs[one.run].name,
                "from_left": figure_part(one.from_left),
                "from_left_words": one.from_left_words,
                "over_floor": figure_part(one.over_floor),
                "below_datum": figure_part(one.below_datum),
                "from_datum": from_datum(one.below_datum) if one.below_datum is not None else "",
                "words": one.words,
            }
            for one in services.wanted
        ],
        "vents": [
            {
                "name": f"{one.appliance}, {names.get(one.item, one.item)}",
                "asked": one.asked,
                "has": one.has,
                "holds": one.holds,
            }
            for one in services.vents
        ],
        "zeros": [
            {"run": run.run.id, "words": words} for run in room_plan.setting_out.runs if (words := zero_words(run))
        ],
        "cautions": list(services.cautions),
        "findings": [finding_part(one) for one in services.findings],
    }


def zero_words(run: RunSetOut) -> str:
    """Where the zero that walls and services are measured from lies apart from the rod's zero mark; empty where they
    are one to the last half mm."""
    away_mm = run.line.zero_mm
    if abs(away_mm) < LEAST_APART_MM:
        return ""
    side = "right" if away_mm > 0 else "left"
    return (
        f"{run.run.name}: the rod's zero mark lies {text_mm(abs(away_mm))} to the {side} of the zero that its walls "
        "are read from. Places told here count from the rod's zero mark; a service that is recorded counts from the "
        "walls' zero."
    )


def _landing(one: Landing, run: str, names: dict[str, str]) -> Part:
    service = one.service
    return {
        "id": service.id,
        "name": service.name,
        "what": KIND_WORDS[service.kind],
        "kind": service.kind.value,
        "comes_from": service.comes_from.value,
        "round": service.round,
        "reach": service.reach,
        "live": service.live,
        "found": service.found,
        "run": run,
        "run_id": one.run,
        "behind": listed([names.get(id, id) for id in (one.item, *one.also)]) if one.item else None,
        "left": figure_part(one.left),
        "right": figure_part(one.right),
        "middle": figure_part(one.middle),
        "low": figure_part(one.low),
        "high": figure_part(one.high),
        "below_datum": figure_part(one.below_datum),
        "from_datum": from_datum(one.below_datum) if one.below_datum is not None else "",
        "cut_out": one.cut_out,
        "reached": one.reached,
        "words": one.words,
    }


def _cut(one: BackCut, names: dict[str, str]) -> Part:
    return {
        "item": one.item,
        "name": f"back of {names.get(one.item, one.item)}",
        "words": one.cut.words,
        "from_left": figure_part(one.from_left),
        "from_right": figure_part(one.from_right),
        "from_foot": figure_part(one.from_foot),
        "from_top": figure_part(one.from_top),
        "from_behind": figure_part(one.from_behind),
        "below_datum": figure_part(one.below_datum),
        "from_datum": from_datum(one.below_datum),
        "round": one.cut.round,
        "width": figure_part(one.width),
        "height": figure_part(one.height),
        "radius": figure_part(one.radius),
        "open_to": list(one.cut.open_to),
    }


def _passage(one: PassageHole, names: dict[str, str]) -> Part:
    passage = one.passage
    return {
        "name": passage.name,
        "words": f"{KIND_WORDS[passage.kind]}, from {names.get(passage.from_item, passage.from_item)} to "
        f"{names.get(passage.to_item, passage.to_item)}",
        "diameter": figure_part(_asked(passage.diameter_mm, "As the job asks for it.")),
        "from_back": figure_part(_asked(passage.from_back_mm, "Its middle before the outside of the units' backs.")),
        "below_datum": figure_part(_asked(passage.below_top_mm, "Its middle, down from the run's datum line.")),
        "panels": [f"{panel_words(panel)} of {names.get(item, item)}" for item, panel in one.panels],
    }


def panel_words(panel: str) -> str:
    """A panel's id as it is called: "left side", "divider 1"."""
    return panel.replace("_", " ").replace("-", " ")


def _asked(mm: float, why: str) -> Figure:
    return figure(mm, 0.1, why)
