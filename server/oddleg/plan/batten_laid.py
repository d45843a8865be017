"""A batten laid along its run: stretches, cut-outs, zones, fixings and pieces, before figures and findings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from oddleg.job import Batten, Feature, FeatureKind, Job, Room, Run

from .batten_packing import Behind, behind
from .batten_places import (
    Places,
    batten_span,
    beside_joints,
    fixing_places,
    kept_clear,
    pieces,
    recess_mm,
    sides,
    wide_gaps,
    without,
)
from .bay_depths import BayDepth, bay_depths
from .figure import text_mm
from .front_line import FrontLine
from .heights import SAME_MM
from .hidden_services import Zone, crosses, zones
from .rod import Placed
from .set_out import Rod
from .wall import Wall
from .wall_profile import Span

HOLES = (FeatureKind.DOOR, FeatureKind.WINDOW)


@dataclass(frozen=True)
class Laid:
    """A batten in its places, x on the rod. `band`: levels of its bottom and top, None before a datum. `forward_mm`:
    its face in front of the line of backs. `holes`: openings in the wall that part it. `stretches`: where there is
    batten; `cuts`: where it is cut out or notched, and why. `forced_mm`: joints that no fixing holds. `passed_mm`:
    supports left out since they lie in a zone."""

    run: Run
    batten: Batten
    room: Room
    wall: Wall
    placed: tuple[Placed, ...]
    band: tuple[float | None, float | None]
    forward_mm: float
    behind: Behind
    zones: tuple[Zone, ...]
    holes: tuple[Feature, ...]
    stretches: tuple[Span, ...]
    cuts: tuple[tuple[Span, str], ...]
    places: tuple[Places, ...]
    pieces: tuple[Span, ...]
    forced_mm: tuple[float, ...]
    passed_mm: tuple[float, ...]


def batten_laid(
    job: Job, room: Room, wall: Wall, line: FrontLine, rod: Rod, datum_mm: float | None, batten: Batten
) -> Laid | None:
    """None where nothing stands that a batten could hold."""
    span = batten_span(rod.placed)
    if span is None:
        return None
    moved_mm = line.zero_mm
    band = _band(line.run, batten, datum_mm)
    forward_mm = recess_mm(rod.placed, batten)
    deep = [one for one in bay_depths(rod.placed, wall, line) if one.cuts_batten(forward_mm)]
    holes = tuple(
        one
        for one in wall.features
        if _is_hole(one, band) and one.left_mm - moved_mm < span[1] and one.right_mm - moved_mm > span[0]
    )
    through, notched = _cuts(rod, batten, span, forward_mm, deep, holes, moved_mm)
    stretches = without(span, [cut for cut, _ in through])
    known = zones(line.run, wall.features, moved_mm, (rod.left_mm, rod.right_mm), band)
    clear = kept_clear(known, [cut for cut, _ in (*through, *notched)])
    supports = sorted(x - moved_mm for x in batten.supports_mm)
    places = tuple(fixing_places(stretch, batten, supports, clear) for stretch in stretches)
    lengths = [pieces(one, at.at_mm, batten.stock_mm) for one, at in zip(stretches, places, strict=True)]
    places = tuple(
        replace(at, at_mm=beside_joints(one, at.at_mm, [right for _, right in parts[:-1]], batten, clear))
        for one, at, (parts, _) in zip(stretches, places, lengths, strict=True)
    )
    standing_out = [
        (one, one.stands_out_mm)
        for one in wall.features
        if one.kind not in HOLES and one.stands_out_mm > 0 and crosses(one, *band)
    ]
    return Laid(
        line.run,
        batten,
        room,
        wall,
        tuple(one for one in rod.placed if one.stands),
        band,
        forward_mm,
        behind(job, wall, line, standing_out, forward_mm, batten.thickness_mm),
        known,
        holes,
        stretches,
        tuple(sorted(_inside((*through, *notched), span))),
        places,
        tuple(one for found, _ in lengths for one in found),
        tuple(x for _, forced in lengths for x in forced),
        tuple(x for x in supports if _passed(x, stretches, known)),
    )


def _band(run: Run, batten: Batten, datum_mm: float | None) -> tuple[float | None, float | None]:
    if datum_mm is None:
        return None, None
    top_mm = datum_mm + run.datum_offset_mm
    return top_mm - batten.height_mm, top_mm


def _is_hole(feature: Feature, band: tuple[float | None, float | None]) -> bool:
    """A doorway reaches down to the floor unless its levels say otherwise; a window counts once they are known."""
    if feature.kind is FeatureKind.DOOR:
        return crosses(feature, *band) is not False
    return feature.kind is FeatureKind.WINDOW and crosses(feature, *band) is True


Cuts = list[tuple[Span, str]]


def _cuts(
    rod: Rod,
    batten: Batten,
    span: Span,
    forward_mm: float,
    deep: Sequence[BayDepth],
    holes: Sequence[Feature],
    moved_mm: float,
) -> tuple[Cuts, Cuts]:
    """Where the batten is cut through, and where it is only notched. `deep`: bays whose appliance needs
    the batten's room."""
    through = [(bay.span, f"The appliance of {bay.placed.item.name} needs the depth.") for bay in deep]
    through += [((one.left_mm - moved_mm, one.right_mm - moved_mm), f"{one.name} is in the way.") for one in holes]
    through += [(gap, "Nothing stands here.") for gap in wide_gaps(rod.placed, batten)]
    at_sides = sides(rod.placed, span) if forward_mm > 0 else ()
    if forward_mm >= batten.thickness_mm - SAME_MM:
        why = (
            f"Cut through at carcass sides: it lies in the recess, {text_mm(forward_mm)} deep, with all its thickness."
        )
        return [*through, *((side, why) for side in at_sides)], []
    why = f"Notched {text_mm(forward_mm)} deep at carcass sides: so far it lies in the recess."
    return through, [(side, why) for side in at_sides]


def _inside(cuts: Sequence[tuple[Span, str]], span: Span) -> Cuts:
    clipped = [((max(left, span[0]), min(right, span[1])), why) for (left, right), why in cuts]
    return [(cut, why) for cut, why in clipped if cut[1] > cut[0]]


def _passed(x_mm: float, stretches: Sequence[Span], known: Sequence[Zone]) -> bool:
    on_batten = any(left < x_mm < right for left, right in stretches)
    return on_batten and any(zone.holds(x_mm) for zone in known if not zone.whole)
