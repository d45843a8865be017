"""What rests on figures that nobody has confirmed: facts come in the wrong order, and a plan is made all the same."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Appliance, ApplianceBay, Carcass, Job, PlinthBoard, Room, WallUnits, Worktop

from .demands import Interval
from .figure import text_mm
from .finding import Finding, Severity
from .rod import Placed

RESTS_ON = {
    ("worktop", "wanted_height_mm"): "the choice by wanted height",
    ("worktop", "thickness_mm"): "worktop heights, wall units over the top, appliances beside it and height limits",
    ("worktop", "build_up_mm"): "worktop heights, wall units over the top, appliances beside it and height limits",
    ("plinth", "height_mm"): "which plinths are ripped, and the choices that go by the board",
    ("plinth", "fit_mm"): "which plinths are ripped, and the choice with the board uncut",
    ("plinth", "greatest_open_mm"): "where the board leaves more open than wanted",
    ("plinth", "thickness_mm"): "the lengths of the plinths",
    ("plinth", "length_mm"): "joints in plinths, and how many boards to buy",
    ("plinth", "kerf_mm"): "how many plinth boards to buy",
    ("wall units", "clear_over_top_mm"): "wall unit heights",
    ("wall units", "tops_in_line"): "wall unit heights",
    ("wall units", "rail_below_top_mm"): "the height of their rail",
    ("appliance", "clear_above_mm"): "how low the unit over it may hang",
    ("appliance", "clear_below_mm"): "how low the unit that it is in may hang",
    ("appliance", "least_height_mm"): "its least clearance, and how low the datum may be",
    ("appliance", "greatest_height_mm"): "how high the datum may be",
    ("appliance", "bracket_reach_mm"): "how high the datum may be",
    ("appliance", "built_in"): "how high the datum may be",
    ("appliance", "greatest_depth_mm"): "how far out its way is looked at",
    ("appliance", "least_depth_mm"): "how far out its way is looked at",
}


def guesses(
    job: Job, room: Room, placed: Sequence[Placed], ends: Interval
) -> tuple[tuple[str, ...], tuple[Finding, ...]]:
    """Each unconfirmed figure with what rests on it, in words and as a note; one that sets an end of D says so."""
    words, findings = [], []
    binding = [one for one in (ends.least, ends.greatest) if one is not None]
    for kind, name, item, thing in _assuming(room, placed):
        for field in thing.assumed:
            value = getattr(thing, field, None)
            said = f" {text_mm(value, job.rounding_mm)}" if field.endswith("_mm") and value is not None else ""
            what = f"{field.removesuffix('_mm').replace('_', ' ')} of {name}{said}"
            rests = RESTS_ON.get((kind, field), "what is worked out from it")
            text = f"Nobody has confirmed the {what}. On it rest: {rests}."
            if kind == "appliance" and any(item in one.concerns for one in binding):
                text += " It sets an end of what the datum may be."
            words.append(text)
            findings.append(
                Finding(
                    "datum.guess",
                    Severity.NOTE,
                    room.name,
                    text,
                    f"Confirm the {what}, and take it off the list of guesses in the job.",
                    "marked in the job as assumed",
                    concerns=(item,),
                )
            )
    return tuple(words), tuple(findings)


def _assuming(
    room: Room, placed: Sequence[Placed]
) -> Iterator[tuple[str, str, str, Worktop | PlinthBoard | WallUnits | Appliance]]:
    yield "worktop", "the worktop", room.id, room.worktop
    yield "plinth", "the plinth board", room.id, room.plinth
    yield "wall units", "the wall units", room.id, room.wall_units
    for one in placed:
        if isinstance(one.item, ApplianceBay):
            yield "appliance", one.item.appliance.name, one.item.id, one.item.appliance
        elif isinstance(one.item, Carcass):
            for appliance in one.item.appliances:
                yield "appliance", appliance.name, one.item.id, appliance
