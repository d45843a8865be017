"""What hangs over a hob or cooker, against what the appliances' own sheets want. No figure for it is built in here."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from oddleg.job import Appliance, ApplianceBay, ApplianceSeat, Carcass, HeightOf, Job, OpenUnit, Room, Storey

from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .heights import SAME_MM, Height, worktop_over_datum_mm
from .rod import Placed
from .sightings import listed
from .tall_wall import OverHob

SOURCE = "the appliance's own sheet"


def over_hobs(
    job: Job, room: Room, placed: Sequence[Placed], rising: Mapping[tuple[HeightOf, str], Height]
) -> tuple[tuple[OverHob, ...], tuple[Finding, ...]]:
    """Every hob (let into the top) and cooker (beside the top) with each wall unit that hangs over part of it.

    What there is: the wall unit's underside less the worktop's top of the run; a hood is as low as the unit that it is
    in. What is wanted: the greater of what the sheet of the hob or cooker wants above the worktop and what that of the
    hood wants below itself. A value that nobody has read is asked for. `rising`: heights over the datum, by what and
    item.
    """
    made: list[OverHob] = []
    findings: list[Finding] = []
    hoods_over: set[str] = set()
    hung = [
        one
        for one in placed
        if one.item.storey is Storey.WALL and (HeightOf.WALL_UNIT_UNDERSIDE, one.item.id) in rising
    ]
    hobs = [(one, machine) for one in placed if one.stands for machine in _hobs(one)]
    for one, hob in hobs:
        over = [other for other in hung if other.run.id == one.run.id and _over(one, other)]
        for other in over:
            hood = next(iter(_hoods(other)), None)
            if hood is not None:
                hoods_over.add(hood.id)
            under = rising[HeightOf.WALL_UNIT_UNDERSIDE, other.item.id]
            found, told = _over_hob(job, room, one, hob, other, hood, under)
            made.append(found)
            findings.extend(told)
        if not over and hob.clear_above_mm is not None:
            findings.append(_nothing_over(one, hob, job.rounding_mm))
    for one in placed:
        if not one.stands:
            findings.extend(_no_hob(one, hood) for hood in _hoods(one) if hood.id not in hoods_over)
    if made:
        findings.append(_caution(room))
    return tuple(made), tuple({(one.rule, one.concerns): one for one in findings}.values())


def _hobs(one: Placed) -> Iterator[Appliance]:
    if isinstance(one.item, ApplianceBay) and one.item.appliance.seat in (
        ApplianceSeat.IN_TOP,
        ApplianceSeat.BESIDE_TOP,
    ):
        yield one.item.appliance
    if isinstance(one.item, Carcass):
        yield from (machine for machine in one.item.appliances if _is_hob(machine))


def _is_hob(machine: Appliance) -> bool:
    return machine.seat is ApplianceSeat.IN_TOP and machine.cooks


def _hoods(one: Placed) -> Iterator[Appliance]:
    machines: tuple[Appliance, ...] = ()
    if isinstance(one.item, Carcass):
        machines = one.item.appliances
    elif isinstance(one.item, ApplianceBay):
        machines = (one.item.appliance,)
    return (machine for machine in machines if machine.seat is ApplianceSeat.OVER_TOP)


def _over(below: Placed, above: Placed) -> bool:
    return min(below.right_mm, above.right_mm) - max(below.left_mm, above.left_mm) > SAME_MM


def _over_hob(
    job: Job, room: Room, one: Placed, hob: Appliance, other: Placed, hood: Appliance | None, under: Height
) -> tuple[OverHob, list[Finding]]:
    step_mm, name = job.rounding_mm, hood.name if hood is not None else other.item.name
    top_mm = worktop_over_datum_mm(room, one.run.datum_offset_mm)
    why = (
        f"Underside of {other.item.name} ({under.how}) {text_mm(under.over_datum_mm, step_mm)} over the datum, less "
        f"the worktop's top {text_mm(top_mm, step_mm)} over it."
    )
    has = figure(under.over_datum_mm - top_mm, step_mm, why)
    asked = [(hob, "above", hob.clear_above_mm)]
    if hood is not None:
        asked.append((hood, "below", hood.clear_below_mm))
    findings = [_ask(machine, which, one) for machine, which, value in asked if value is None]
    told = [(value, machine) for machine, _, value in asked if value is not None]
    if not told:
        words = f"No sheet's value is in the job yet; there are {has.text} clear over the worktop."
        return OverHob(hob.name, name, None, has, words), findings
    wants_mm, strictest = max(told, key=lambda pair: pair[0])
    guessed = [machine.name for _, machine in told if {"clear_above_mm", "clear_below_mm"} & set(machine.assumed)]
    why = f"What the sheet of the {strictest.name} wants clear, as the job has it."
    wants = figure(wants_mm, step_mm, why)
    spare_mm = has.mm - wants_mm
    words = f"{wants.text} wanted by the sheet of the {strictest.name}, {has.text} there: "
    words += f"{text_mm(-spare_mm, step_mm)} short." if spare_mm < -SAME_MM else f"{text_mm(spare_mm, step_mm)} more."
    if findings:
        words += (
            f" The sheet of the {' and of the '.join(m.name for m, _, v in asked if v is None)} is still to be read."
        )
    if guessed:
        words += f" A guess: nobody has confirmed the value of {listed(guessed)}."
    if spare_mm < -SAME_MM:
        findings.append(_short(one, hob, other, name, wants, has, figure(-spare_mm, step_mm, words)))
    return OverHob(hob.name, name, wants, has, words), findings


def _ask(machine: Appliance, which: str, one: Placed) -> Finding:
    what = "above the worktop" if which == "above" else "between the worktop and itself"
    return Finding(
        "hood.ask",
        Severity.WARN,
        f"{machine.name}, {one.run.name}",
        f"Nobody has read off the sheet of the {machine.name} how much must be clear {what}.",
        "Read it off the appliance's own sheet and put it into the job before the wall units are fixed.",
        SOURCE,
        concerns=(machine.id, one.item.id),
    )


def _short(one: Placed, hob: Appliance, other: Placed, name: str, wants: Figure, has: Figure, short: Figure) -> Finding:
    return Finding(
        "hood.too_low",
        Severity.STOP,
        f"{name} over {hob.name}, {one.run.name}",
        f"{has.text} are clear over the worktop; {wants.text} are wanted by the sheet.",
        f"Do not fix {other.item.name} there. Ask which may give: its height, the line of tops, or its place.",
        SOURCE,
        short,
        (one.item.id, other.item.id, hob.id),
    )


def _nothing_over(one: Placed, hob: Appliance, step_mm: float) -> Finding:
    return Finding(
        "hood.none_over",
        Severity.NOTE,
        f"{hob.name}, {one.run.name}",
        f"Nothing in the job hangs over it; its sheet wants {text_mm(hob.clear_above_mm or 0.0, step_mm)} clear.",
        "If a hood or a shelf comes there all the same, keep to both sheets.",
        SOURCE,
        concerns=(one.item.id, hob.id),
    )


def _no_hob(other: Placed, hood: Appliance) -> Finding:
    if not isinstance(other.item, Carcass | OpenUnit):
        return Finding(
            "hood.no_height",
            Severity.WARN,
            f"{hood.name}, {other.run.name}",
            "It is in a bay among the wall units, and nothing says how high its underside hangs.",
            "Give it in the job as an appliance of a wall unit as high as itself.",
            "a hood is as low as the unit that it is in",
            concerns=(other.item.id, hood.id),
        )
    return Finding(
        "hood.no_hob",
        Severity.WARN,
        f"{hood.name}, {other.run.name}",
        "No hob or cooker stands under it in this run.",
        "Look at the places of both in the job.",
        "first principles",
        concerns=(other.item.id, hood.id),
    )


def _caution(room: Room) -> Finding:
    return Finding(
        "hood.caution",
        Severity.NOTE,
        room.name,
        "Heat, grease and, with gas, flame and fumes reach what hangs over a hob.",
        "Keep to the makers' sheets of hob and hood and to the local code; gas is for the licensed trade. What is "
        "worked out here only compares heights with those sheets.",
        "the makers' sheets and the local code decide",
        concerns=(room.id,),
        caution=True,
    )
