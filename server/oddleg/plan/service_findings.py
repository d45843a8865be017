"""What is wrong with where a service lands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from oddleg.job import ApplianceBay, Carcass, ComesFrom, Item, Job, OpenUnit, Room, ServiceKind, Storey

from .below_top import let_in_spans
from .figure import figure, text_mm
from .finding import Finding, Severity
from .heights import SAME_MM, worktop_over_datum_mm
from .room_services import Landing
from .service_places import Behind, Spot
from .setting_out import RunSetOut
from .sightings import listed

NEAR_WATER = (ServiceKind.SOCKET, ServiceKind.SWITCH)
# Guidance, not a regulation: sockets and switches stay so far, sideways, from a sink or hob (diynot.com).
NEAR_SINK_MM = 300.0


def landing_findings(
    job: Job,
    room: Room,
    run: RunSetOut,
    spot: Spot,
    behind: Sequence[Behind],
    cut: Sequence[bool],
    made: Mapping[tuple[str, str], str],
    landing: Landing,
) -> Iterator[Finding]:
    """`cut`: which of the backs are to be cut out for it; `made`: the cut-outs that there are, by item and service."""
    service = spot.service
    place, concerns = f"{service.name}, {run.run.name}", (run.run.id, service.id)
    if behind and spot.over is None and service.comes_from is ComesFrom.WALL:
        yield Finding(
            "service.height_unknown",
            Severity.NOTE,
            place,
            f"It may land {landing.words}: nothing is cut out for it.",
            "Measure how high it lies, decide the datum, and read the floor there if its height counts from it.",
            "a cut-out is marked down from the datum line",
            concerns=(*concerns, *(one.stood.placed.item.id for one in behind)),
        )
        return
    yield from _joint(place, concerns, behind, cut)
    yield from _missed(place, concerns, spot, behind, cut, made)
    yield from _covered(place, concerns, spot, behind, landing)
    yield from _worktop(job, room, run, spot, place, concerns)
    yield from _batten(job, run, spot, place, concerns)
    yield from _elsewhere(run, spot, behind, place, concerns)
    yield from _near_sink(job, run, spot, place, concerns)


def _joint(place: str, concerns: tuple[str, ...], behind: Sequence[Behind], cut: Sequence[bool]) -> Iterator[Finding]:
    """Across the joint of two items, behind the sides that meet there."""
    side_by_side = [one for one in behind if one.spot.service.comes_from is ComesFrom.WALL and not one.under]
    if len(side_by_side) < 2:
        return
    names = listed([one.stood.placed.item.name for one in side_by_side])
    reaches = any(cut) or any(one.spot.service.stands_out_mm > 0 for one in side_by_side)
    yield Finding(
        "service.at_joint",
        Severity.WARN if reaches else Severity.NOTE,
        place,
        f"It lies across the joint of {names}, partly behind what meets there.",
        "Have it moved clear of the joint; else cut out the back of each, and the sides as far as it stands out.",
        "a service lies behind one item, clear of its sides",
        concerns=(*concerns, *(one.stood.placed.item.id for one in side_by_side)),
    )


def _missed(
    place: str,
    concerns: tuple[str, ...],
    spot: Spot,
    behind: Sequence[Behind],
    cut: Sequence[bool],
    made: Mapping[tuple[str, str], str],
) -> Iterator[Finding]:
    """What wants a cut-out and lies behind a board only, beside the back panel."""
    for one, wanted in zip(behind, cut, strict=True):
        item = one.stood.placed.item
        if wanted and (item.id, spot.service.id) not in made:
            yield Finding(
                "service.beside_back",
                Severity.WARN,
                place,
                f"It lies behind a side, the top or the bottom of {item.name}, beside its back panel: no cut-out "
                "there gives way to it.",
                "Have it moved behind the back panel, or notch the board there.",
                "the back panel lies between the boards round it",
                concerns=(*concerns, item.id),
            )


def _covered(
    place: str, concerns: tuple[str, ...], spot: Spot, behind: Sequence[Behind], landing: Landing
) -> Iterator[Finding]:
    """What must stay within reach and cannot be; a bay tells of its machine by itself."""
    service = spot.service
    if landing.reached is not None or not service.reach or not behind:
        return
    item = behind[0].stood.placed.item
    if isinstance(item, ApplianceBay):
        return
    if service.comes_from is ComesFrom.FLOOR and spot.out_y_mm is None:
        yield Finding(
            "service.place_unknown",
            Severity.NOTE,
            place,
            f"It comes out of the floor under {item.name} or behind it; how far out of the wall is not known.",
            "Measure its middle out of the wall.",
            "what must stay within reach is not built in",
            concerns=(*concerns, item.id),
        )
        return
    yield Finding(
        "service.covered",
        Severity.WARN,
        place,
        f"It must stay within reach, and {item.name} covers it for good.",
        "Have it moved to where it can be reached, or make what covers it so that it comes off.",
        "what must stay within reach is not built in",
        concerns=(*concerns, item.id),
    )


def _worktop(
    job: Job, room: Room, run: RunSetOut, spot: Spot, place: str, concerns: tuple[str, ...]
) -> Iterator[Finding]:
    """At the height of the worktop's edge."""
    if spot.over is None or spot.service.comes_from is ComesFrom.FLOOR:
        return
    foot_mm = run.run.datum_offset_mm
    top_mm = worktop_over_datum_mm(room, foot_mm)
    over_top = any(
        one.item.storey is Storey.BASE and one.stands and one.left_mm < spot.right_mm and one.right_mm > spot.left_mm
        for one in run.rod.placed
    )
    tall_mm = min(spot.over[1], top_mm) - max(spot.over[0], foot_mm)
    if not over_top or tall_mm <= SAME_MM:
        return
    yield Finding(
        "service.at_worktop",
        Severity.WARN,
        place,
        f"It lies at the height of the worktop's edge, over {text_mm(tall_mm, job.rounding_mm)} of its own height.",
        "Have it moved above the worktop or below the datum.",
        "the worktop goes to the wall",
        figure(tall_mm, job.rounding_mm, "What worktop and it have in common in height."),
        concerns,
    )


def _batten(job: Job, run: RunSetOut, spot: Spot, place: str, concerns: tuple[str, ...]) -> Iterator[Finding]:
    """Where the batten would be fixed over it."""
    batten = run.batten
    if batten is None or spot.over is None or spot.service.comes_from is ComesFrom.FLOOR:
        return
    top_mm = run.run.datum_offset_mm
    if spot.over[1] <= top_mm - batten.height.mm + SAME_MM or spot.over[0] >= top_mm - SAME_MM:
        return
    if all(one.right.mm <= spot.left_mm or one.left.mm >= spot.right_mm for one in batten.pieces):
        return
    yield Finding(
        "service.at_batten",
        Severity.WARN,
        place,
        f"It lies at the height of the batten, which runs from {text_mm(batten.height.mm, job.rounding_mm)} below the "
        "datum up to it.",
        "Cut the batten out there, or have it moved; no screw goes near it before the licensed trade has made it dead "
        "or shut it off.",
        "what is fixed to a wall stays clear of services",
        concerns=concerns,
        caution=True,
    )


def _elsewhere(
    run: RunSetOut, spot: Spot, behind: Sequence[Behind], place: str, concerns: tuple[str, ...]
) -> Iterator[Finding]:
    """It serves another item than the one that it lands behind, and no passage leads there."""
    serves = spot.service.serves
    items = [one.stood.placed.item for one in behind]
    own = next((one.item for one in run.rod.placed if serves is not None and serves in _ids(one.item)), None)
    if own is None or not items or any(own.id == one.id for one in items):
        return
    joined = {frozenset((one.from_item, one.to_item)) for one in run.run.passages}
    inside = [one for one in items if isinstance(one, Carcass | OpenUnit)]
    if not inside or any(frozenset((own.id, one.id)) in joined for one in inside):
        return
    yield Finding(
        "service.no_passage",
        Severity.NOTE,
        place,
        f"It is for {own.name} and lands behind {listed([one.name for one in inside])}: no hole through the sides "
        "leads from one to the other.",
        "Put a passage for it into the run, or have it moved.",
        "what serves an item has to come to it",
        concerns=(*concerns, own.id, *(one.id for one in inside)),
    )


def _near_sink(job: Job, run: RunSetOut, spot: Spot, place: str, concerns: tuple[str, ...]) -> Iterator[Finding]:
    """A socket or switch over the worktop, beside what is let into it."""
    above = spot.over is not None and spot.over[0] >= run.run.datum_offset_mm
    if spot.service.kind not in NEAR_WATER or not above:
        return
    for placed in run.rod.placed:
        for name, left_mm, right_mm in let_in_spans(placed):
            away_mm = max(left_mm - spot.right_mm, spot.left_mm - right_mm, 0.0)
            if away_mm < NEAR_SINK_MM - SAME_MM:
                yield Finding(
                    "service.near_sink",
                    Severity.NOTE,
                    place,
                    f"It lies {text_mm(away_mm, job.rounding_mm)} beside the {name} of {placed.item.name}.",
                    "Ask the licensed electrician whether it may be there; 300 sideways from sink and hob is usual "
                    "guidance.",
                    "guidance, not a regulation (diynot.com); the local code rules",
                    figure(away_mm, job.rounding_mm, "Sideways, from edge to edge."),
                    (*concerns, placed.item.id),
                    caution=True,
                )


def _ids(item: Item) -> tuple[str, ...]:
    """Ids of an item and its appliances."""
    if isinstance(item, ApplianceBay):
        return item.id, item.appliance.id
    if isinstance(item, Carcass):
        return (item.id, *(one.id for one in item.appliances))
    return (item.id,)
