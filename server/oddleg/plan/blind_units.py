"""Computation 8: blind corner units: how far off the other wall, what they use of the run, what is left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Carcass, Job, Room

from .corner import BlindUnit
from .corner_arms import Lines, arms, void_behind
from .corner_post import ids_of, post_cure
from .figure import figure, text_mm
from .finding import Finding, Severity
from .front_paths import SAME_MM, Across, across, blind_side, nearest
from .meeting_runs import Arm
from .rod import Placed
from .set_out import Rod
from .wall import Wall
from .wall_profile import HEIGHT_WORDS


def blind_units(
    job: Job, room: Room, rods: Sequence[Rod], walls: Sequence[Wall], lines: Lines
) -> tuple[tuple[BlindUnit, ...], tuple[Finding, ...]]:
    """Every carcass with a blind part, in room order.

    Its opening begins clear of the front and handle of the run across: from the other wall void + carcass + front +
    handle + play, less the blind part, is what it is set off that wall, and that much more it uses of the run. Where
    the rod sets it nearer, its opening loses as much.
    """
    units: list[BlindUnit] = []
    findings: list[Finding] = []
    seen: set[str] = set()
    for own, other in sorted(arms(room, rods), key=lambda pair: [run.id for run in room.runs].index(pair[0].run.id)):
        for one, between in _blind(own):
            if one.item.id not in seen:
                seen.add(one.item.id)
                unit, finding = _unit(job, own, other, one, between, walls, lines)
                units.append(unit)
                findings += [finding] if finding is not None else []
    for rod in rods:
        for one in rod.placed:
            if isinstance(one.item, Carcass) and one.item.blind_mm > 0 and one.item.id not in seen:
                findings.append(_alone(one))
    return tuple(units), tuple(findings)


def _blind(own: Arm) -> Iterator[tuple[Placed, list[Placed]]]:
    """The blind units at this end, each with what lies between it and the corner."""
    for hangs in (False, True):
        row = own.row(hangs)
        for place, one in enumerate(row):
            if blind_side(one) == own.side:
                yield one, row[:place]


def _unit(
    job: Job,
    own: Arm,
    other: Arm,
    one: Placed,
    between: list[Placed],
    walls: Sequence[Wall],
    lines: Lines,
) -> tuple[BlindUnit, Finding | None]:
    item, step_mm, play_mm = one.item, job.rounding_mm, job.tolerances.play_mm
    assert isinstance(item, Carcass)
    met = across(one, own, other) or nearest(one, other) or Across(other.deepest_mm(), 0.0, 0.0, other.run.name)
    void_mm, height = void_behind(other, own.front_mm(one) or item.depth_mm, not one.stands, walls, lines)
    clear_mm = void_mm + met.total_mm + play_mm
    needed_mm = max(clear_mm - item.blind_mm, 0.0)
    stands_mm = own.near_far_mm(one)[0] + void_mm
    short_mm = needed_mm - stands_mm
    opening_mm = item.width_mm - item.blind_mm
    reach_mm = max(opening_mm - item.box.board_mm - max(short_mm, 0.0), 0.0)

    def shown(mm: float) -> str:
        return text_mm(mm, step_mm)

    sums = (
        f"void {shown(void_mm)} + carcass {shown(met.front_mm)} + front {shown(met.proud_mm)} + handle "
        f"{shown(met.handle_mm)} + play {shown(play_mm)} = {shown(clear_mm)} from the wall of {other.run.name}"
    )
    offset = figure(needed_mm, step_mm, f"{sums[0].upper()}{sums[1:]}, less its blind part {shown(item.blind_mm)}.")
    at_height = "" if height is None else f" {HEIGHT_WORDS[height]}, where it stands out most"
    stands_why = f"From the other wall's face{at_height or ' where it stands out most'}, as the rod sets it out."
    stands = figure(stands_mm, step_mm, stands_why)
    uses = figure(
        item.width_mm + needed_mm, step_mm, f"Its width {shown(item.width_mm)} and the {offset.text} it is off."
    )
    reach = figure(
        reach_mm,
        step_mm,
        f"Its opening {shown(opening_mm)} less a side of {shown(item.box.board_mm)}"
        + (f" and {shown(short_mm)} that stand behind the other run's fronts." if short_mm > SAME_MM else "."),
    )
    words = (
        f"Set it {offset.text} off the wall of {other.run.name} or more{at_height}; it then uses {uses.text} of the "
        f"run. The rod sets it {stands.text} off. {reach.text} clear to reach in by."
    )
    unit = BlindUnit(item.id, item.name, own.run.id, offset, uses, reach, words, stands)
    if short_mm <= SAME_MM:
        return unit, None
    finding = Finding(
        "fronts.blind_offset",
        Severity.WARN,
        f"{item.name}, {own.run.name}",
        f"{item.name} stands {stands.text} off the wall of {other.run.name} and has to stand {offset.text} off: "
        f"{sums}, and its blind part is {shown(item.blind_mm)}.",
        post_cure(between, short_mm, "filler", ("take a unit with a wider blind part",)),
        "a blind corner is run length",
        figure(short_mm, step_mm, "What it has to stand off less what it does."),
        (own.run.id, item.id, *ids_of(between)),
    )
    return unit, finding


def _alone(one: Placed) -> Finding:
    return Finding(
        "fronts.blind_alone",
        Severity.WARN,
        f"{one.item.name}, {one.run.name}",
        f"{one.item.name} has a blind part, but its run meets no other run at a square corner, so what it must clear "
        "is not known.",
        "Say at the desk which run it meets, or take its blind part out.",
        "a blind part lies behind another run",
        concerns=(one.run.id, one.item.id),
    )
