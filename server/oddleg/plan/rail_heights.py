"""How high wall units hang: underside, rail and top over the datum line, and what stays clear over the worktop."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from oddleg.job import HeightOf, Job, Room

from .figure import figure, text_mm
from .finding import Finding, Severity
from .heights import OF_ALL, SAME_MM, Height, worktop_over_datum_mm
from .rod import Placed
from .sightings import listed
from .tall_wall import RailHeight

Rising = Mapping[tuple[HeightOf, str], Height]


def rail_heights(
    job: Job, room: Room, placed: Sequence[Placed], rising: Rising
) -> tuple[tuple[RailHeight, ...], tuple[Finding, ...]]:
    """One line for each height at which wall units of a run hang; units are named where a run has several.

    All are over the room's datum line, so that they are set off from the laser and never from the floor. The rail's top
    edge lies below the unit's top by what the hanger's sheet says; where the job has no such figure there is no rail
    height, and it is asked for. `rising`: heights over the datum by what and item.
    """
    step_mm, below_mm = job.rounding_mm, room.wall_units.rail_below_top_mm
    rails: list[RailHeight] = []
    findings: list[Finding] = []
    for run in room.runs:
        hung = [one for one in placed if one.run.id == run.id and (HeightOf.WALL_UNIT_TOP, one.item.id) in rising]
        groups: dict[tuple[float, float], list[Placed]] = {}
        for one in hung:
            top_mm, underside_mm = (rising[of, one.item.id].over_datum_mm for of in (TOP, UNDERSIDE))
            groups.setdefault((round(underside_mm, 6), round(top_mm, 6)), []).append(one)
        worktop_mm = worktop_over_datum_mm(room, run.datum_offset_mm)
        for units in groups.values():
            name = run.name if len(groups) == 1 else f"{run.name}: {listed([one.item.name for one in units])}"
            top, underside = (rising[of, units[0].item.id] for of in (TOP, UNDERSIDE))
            clear_mm = underside.over_datum_mm - worktop_mm
            rail = None
            if below_mm is not None:
                why = f"Top of the wall units {text_mm(top.over_datum_mm, step_mm)} over the datum line, less "
                why += f"{text_mm(below_mm, step_mm)} down to the rail's top edge, as the job has it."
                rail = figure(top.over_datum_mm - below_mm, step_mm, why)
            rails.append(
                RailHeight(
                    run.id,
                    name,
                    figure(underside.over_datum_mm, step_mm, f"{_sentence(underside)}; over the datum line."),
                    rail,
                    figure(top.over_datum_mm, step_mm, f"{_sentence(top)}; over the datum line."),
                    figure(
                        clear_mm,
                        step_mm,
                        f"Underside {text_mm(underside.over_datum_mm, step_mm)} less the worktop's top "
                        f"{text_mm(worktop_mm, step_mm)}, both over the datum line.",
                    ),
                )
            )
            if clear_mm <= SAME_MM:
                findings.append(_no_clear(name, units, clear_mm, step_mm))
            if below_mm is not None and below_mm >= top.over_datum_mm - underside.over_datum_mm:
                findings.append(_rail_under_unit(name, units, below_mm, step_mm))
    if rails and below_mm is None:
        findings.append(_ask_rail(room))
    if rails:
        findings.append(_caution(room))
    return tuple(rails), tuple(findings)


TOP, UNDERSIDE = HeightOf.WALL_UNIT_TOP, HeightOf.WALL_UNIT_UNDERSIDE


def _sentence(one: Height) -> str:
    return f"{one.how[0].upper()}{one.how[1:]}"


def one_line(job: Job, room: Room, rising: Rising) -> tuple[str, tuple[Finding, ...]]:
    """Whether tops of tall and wall units lie in one line, in words, and a warning where the job asks for one line and
    they do not. Heights over the datum line."""
    step_mm = job.rounding_mm
    tops = [one for (of, _), one in rising.items() if of in (HeightOf.TALL_TOP, TOP)]
    talls = [one for one in tops if one.of is HeightOf.TALL_TOP]
    if not tops:
        return "", ()
    heights_mm = sorted({round(one.over_datum_mm, 6) for one in tops}, reverse=True)
    wanted = room.wall_units.tops_in_line and len(tops) > len(talls)
    if len(talls) == len(tops) or not talls:
        what = OF_ALL[tops[0].of]
        if len(heights_mm) == 1:
            return f"The {what} is {text_mm(heights_mm[0], step_mm)} over the datum line everywhere.", ()
        return f"The {what} is at {_several(heights_mm, step_mm)} over the datum line.", ()
    if len(heights_mm) == 1:
        asked = "as the job asks" if wanted else "though the job does not ask for it"
        return (
            f"Tops of tall and wall units lie in one line {text_mm(heights_mm[0], step_mm)} over the datum, {asked}.",
            (),
        )
    words = f"Tops of tall and wall units do not lie in one line: {_several(heights_mm, step_mm)} over the datum line."
    if not wanted:
        return f"{words} The job does not ask for it.", ()
    off = [one for one in tops if heights_mm[0] - one.over_datum_mm > SAME_MM]
    return words, (
        Finding(
            "tall.tops_not_in_line",
            Severity.WARN,
            room.name,
            f"One line of tops is asked for, and {_lower(off, heights_mm[0], step_mm)}.",
            "Ask whether it may be so, or order one height of tall units.",
            "tops in line, as the job asks; wall units go by the highest tall one",
            figure(heights_mm[0] - min(one.over_datum_mm for one in off), step_mm, "Highest top less lowest."),
            (room.id, *(id for one in off for id in one.concerns)),
        ),
    )


def _several(heights_mm: Sequence[float], step_mm: float) -> str:
    return listed([text_mm(one, step_mm) for one in heights_mm])


def _lower(off: Sequence[Height], highest_mm: float, step_mm: float) -> str:
    return listed([f"the {one.name} is {text_mm(highest_mm - one.over_datum_mm, step_mm)} lower" for one in off])


def _no_clear(name: str, units: Sequence[Placed], clear_mm: float, step_mm: float) -> Finding:
    return Finding(
        "tall.under_worktop",
        Severity.STOP,
        name,
        f"Its wall units would hang {text_mm(-clear_mm, step_mm)} below the worktop's top: are heights swapped?",
        "Look at the heights of its wall units and of the tall units in the job.",
        "first principles",
        figure(clear_mm, step_mm, "Underside less the worktop's top.", signed=True),
        tuple(one.item.id for one in units),
    )


def _rail_under_unit(name: str, units: Sequence[Placed], below_mm: float, step_mm: float) -> Finding:
    return Finding(
        "tall.rail_under_unit",
        Severity.STOP,
        name,
        f"The rail {text_mm(below_mm, step_mm)} below the top would be under its units.",
        "Look at the rail's place and at the height of the wall units in the job.",
        "a rail is behind the unit that hangs on it",
        concerns=tuple(one.item.id for one in units),
    )


def _ask_rail(room: Room) -> Finding:
    return Finding(
        "tall.rail_unknown",
        Severity.WARN,
        room.name,
        "Nobody has said how far below the top of the wall units their rail comes, so it has no height yet.",
        "Read it off the sheet of the hangers, or measure it at the first unit, and put it into the job.",
        "the hangers' own sheet",
        concerns=(room.id,),
    )


def _caution(room: Room) -> Finding:
    return Finding(
        "tall.wall_fixing",
        Severity.NOTE,
        room.name,
        "Holes for a rail may meet cables and pipes in the wall, and wall units may pull weak fixings out.",
        "Look for cables and pipes as the local code and the licensed trades ask, and fix into what carries.",
        "common practice; the local code decides",
        concerns=(room.id,),
        caution=True,
    )
