"""Standing a tall unit up: the height that it needs about its rear foot, against the lowest ceiling on its way."""

from __future__ import annotations

import math
from collections.abc import Iterator

from oddleg.job import Carcass, HeightOf, Job, OpenUnit

from .axes import to_room
from .ceiling import Ceiling, Overhead, Zone
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .finished_floor import Floor
from .heights import underside_below_datum_mm
from .rod import Placed
from .surfaces import SurfaceLevel
from .tall_wall import TiltUp

# Words of a way, about the back of the carcass and about its side, by whether legs are on.
WAYS = {
    True: ("on its rear feet, legs on", "sideways, legs on"),
    False: ("on its rear edge, legs fitted afterwards", "sideways, legs fitted afterwards"),
}
LEGLESS = ("on its rear edge", "sideways")


def diagonal_mm(height_mm: float, across_mm: float, leg_mm: float = 0.0, inset_mm: float = 0.0) -> float:
    """Height above the floor, mm, that a carcass needs while it is stood up about a foot: sqrt((height + leg)^2 +
    (across - inset)^2), `across` its depth or width, `inset` from its far edge to the foot's centre. First principles.
    """
    return math.hypot(height_mm + leg_mm, across_mm - inset_mm)


def tilt_up(
    job: Job, placed: Placed, item: Carcass | OpenUnit, floor: Floor, ceiling: Ceiling, datum_mm: float | None
) -> tuple[TiltUp, tuple[Finding, ...]]:
    """How a tall unit may be stood up. The leg is the longest of its rear ones at this datum; before a datum or a floor
    is known, the longest that its legs can be. It needs its diagonal over the highest floor on its way, under the
    lowest ceiling there; its way is its place and as far out in front as it is high, since so far it lies at first.
    Sideways is told where that needs less. Legs afterwards need a lift by their length once it stands.
    """
    step_mm = job.rounding_mm
    leg_mm, leg_words = _leg(job, placed, item, floor, datum_mm)
    turns = [(WAYS[True], leg_mm, item.legs.inset_back_mm, item.legs.inset_side_mm)] if item.legs else []
    turns.append((WAYS[False] if item.legs else LEGLESS, 0.0, 0.0, 0.0))
    zone = Zone(
        placed.run, placed.left_mm, placed.right_mm, placed.back_mm, placed.back_mm + item.depth_mm + item.height_mm
    )
    over, high = ceiling.lowest(zone, HeightOf.TALL_TOP), _highest(zone, floor)
    lowest = _headroom(over, high, ceiling, step_mm)

    def way(words: str, across: str, across_mm: float, leg: float, inset: float) -> tuple[str, Figure, bool | None]:
        legs = f" plus leg {text_mm(leg, step_mm)} ({leg_words})" if leg else ""
        less = f" less inset {text_mm(inset, step_mm)}" if inset else ""
        why = (
            f"Root of the squares of height {text_mm(item.height_mm, step_mm)}{legs} and of {across} "
            f"{text_mm(across_mm, step_mm)}{less}."
        )
        needed = figure(diagonal_mm(item.height_mm, across_mm, leg, inset), step_mm, why)
        return words, needed, None if lowest is None else needed.mm <= lowest.mm

    ways = []
    for (upright, sideways), leg, inset_back_mm, inset_side_mm in turns:
        ways.append(way(upright, "depth", item.depth_mm, leg, inset_back_mm))
        if item.width_mm - inset_side_mm < item.depth_mm - inset_back_mm:
            ways.append(way(sideways, "width", item.width_mm, leg, inset_side_mm))
    _, diagonal, goes = ways[0]
    reckoned = figure(leg_mm, step_mm, f"{leg_words[0].upper()}{leg_words[1:]}.") if item.legs else None
    made = TiltUp(item.id, item.name, diagonal, lowest, goes, tuple(ways), reckoned)
    return made, tuple(_wrong(job, placed, made, over, high))


def _leg(job: Job, placed: Placed, item: Carcass | OpenUnit, floor: Floor, datum_mm: float | None) -> tuple[float, str]:
    """The rear leg that it is stood up on, mm, and where that length comes from; 0 where it has none."""
    legs, below_mm = item.legs, underside_below_datum_mm(job, placed)
    if legs is None:
        return 0.0, ""
    if datum_mm is not None and below_mm is not None:
        spots = [
            to_room(placed.run, x_mm, placed.back_mm + legs.inset_back_mm)
            for x_mm in (placed.left_mm + legs.inset_side_mm, placed.right_mm - legs.inset_side_mm)
        ]
        found = [level for spot in spots if (level := floor.under_legs.at(spot.x_mm, spot.y_mm)) is not None]
        if len(found) == len(spots):
            return datum_mm - below_mm - min(
                level.level_mm for level in found
            ), "the longer of its rear ones at the datum"
    why = "no datum is decided" if datum_mm is None else "no floor is known there"
    return legs.greatest_mm - legs.reserve_mm, f"as long as its legs may be, since {why}"


def _highest(zone: Zone, floor: Floor) -> SurfaceLevel | None:
    """The highest floor known on the way, of its corners and edges' middles and every station in it."""
    xs = (zone.left_mm, (zone.left_mm + zone.right_mm) / 2, zone.right_mm)
    ys = (zone.back_mm, (zone.back_mm + zone.front_mm) / 2, zone.front_mm)
    spots = [to_room(zone.run, x_mm, y_mm) for x_mm in xs for y_mm in ys]
    at = [(spot.x_mm, spot.y_mm) for spot in spots]
    at += [(one.x_mm, one.y_mm) for one in floor.under_legs.spots if zone.distance_mm(one.x_mm, one.y_mm) == 0.0]
    found = [level for x_mm, y_mm in at if (level := floor.under_legs.at(x_mm, y_mm)) is not None]
    return max(found, key=lambda level: level.level_mm, default=None)


def _headroom(over: Overhead | None, high: SurfaceLevel | None, ceiling: Ceiling, step_mm: float) -> Figure | None:
    if over is None or high is None:
        return None
    why = (
        f"The lowest overhead on its way ({over.words(step_mm)}; of what was read within {text_mm(ceiling.reach_mm)}) "
        f"less the highest floor there, {text_mm(high.level_mm, step_mm, signed=True)}."
    )
    return figure(over.level_mm - high.level_mm, step_mm, why)


def _wrong(
    job: Job, placed: Placed, made: TiltUp, over: Overhead | None, high: SurfaceLevel | None
) -> Iterator[Finding]:
    if made.lowest is None or over is None or high is None:
        return
    step_mm, spare_mm = job.rounding_mm, made.lowest.mm - made.diagonal.mm
    give_mm = math.hypot(over.half_width_mm, high.half_width_mm)
    stations = () if over.station is None else (over.station,)
    others = [f"{words} ({needed.text})" for words, needed, goes in made.ways[1:] if goes]
    two = "or ask before it is ordered whether it can come in two parts"
    if not made.goes:
        cure = f"Stand it up {' or '.join(others)}, {two}." if others else f"No way about it goes: {two[3:]}."
        yield Finding(
            "tall.tilt_up",
            Severity.WARN if others else Severity.STOP,
            f"{made.name}, {placed.run.name}",
            f"Stood up {made.ways[0][0]}, it needs {made.diagonal.text}; on its way there are {made.lowest.text}.",
            cure,
            "first principles: the diagonal about the foot that it turns on",
            figure(-spare_mm, step_mm, "What it needs less what there is."),
            (made.item, *stations),
        )
    elif spare_mm <= give_mm:
        yield Finding(
            "tall.tilt_up_close",
            Severity.WARN,
            f"{made.name}, {placed.run.name}",
            f"Stood up {made.ways[0][0]}, it has {text_mm(spare_mm, step_mm)} to spare, give or take "
            f"{text_mm(give_mm, step_mm)}: that cannot tell whether it goes.",
            f"Read the ceiling on its way again, at its lowest{'; or stand it up ' + others[0] if others else ''}.",
            "give or take of the readings of ceiling and floor",
            figure(spare_mm, step_mm, "What there is less what it needs."),
            (made.item, *stations),
        )
