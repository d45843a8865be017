"""Five ways to choose a datum, side by side, each with what it brings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from oddleg.job import Job, Room

from .demands import Demand, End, Interval, Subject
from .figure import Figure, figure, rounded_mm, text_mm
from .heights import SAME_MM, worktop_over_datum_mm
from .legs import LEG_STEP_MM, StandingLeg
from .plinth import GapPlace, not_reached, ripped, uncut_from_mm


class ChoiceName(StrEnum):
    UNCUT = "uncut_at_high_spot"
    SPLIT = "split_the_difference"
    WANTED = "wanted_height"
    LEAST_CUTTING = "least_cutting"
    LOWEST = "lowest_possible"


@dataclass(frozen=True)
class Choice:
    """One choice of datum. `asked`: the D that its rule gives; None with `why_not` where the rule has nothing to go by.

    `feasible` False: `binds` names what stops it and `nearest` is the nearest D that can be had. `worktop`, `legs`,
    `gaps`, `rip`, `clearance` describe the D that would be used: `asked` where feasible, else `nearest`, else None.
    `rip`: carcasses whose plinth must be ripped; `reach_not`: carcasses where the board leaves more open than wanted.
    """

    name: ChoiceName
    title: str
    rule: str
    asked: Figure | None
    feasible: bool
    why_not: str
    binds: Demand | None
    nearest: Figure | None
    worktop: Figure | None
    legs: tuple[Figure, Figure] | None
    gaps: tuple[Figure, Figure] | None
    rip: int | None
    reach_not: int | None
    of: int
    clearance: Figure | None


@dataclass(frozen=True)
class Rule:
    """What a choice asks for: the exact D, None with `why_not`; `up`: to the grid upwards only, else to the nearest."""

    name: ChoiceName
    title: str
    words: str
    exact_mm: float | None
    why_not: str = ""
    up: bool = False


@dataclass(frozen=True)
class Ground:
    """What the choices are made from: legs and plinth corners, demands, and the finished floor's high spot, mm."""

    job: Job
    room: Room
    legs: Sequence[StandingLeg]
    gaps: Sequence[GapPlace]
    demands: Sequence[Demand]
    interval: Interval
    finished_high_mm: float | None


def choices(ground: Ground) -> tuple[Choice, ...]:
    """The five choices in a fixed order, those that cannot be had among them, shown as such."""
    return tuple(_choice(ground, rule) for rule in _rules(ground))


def _rules(ground: Ground) -> tuple[Rule, ...]:
    room, board, step_mm = ground.room, ground.room.plinth, ground.job.rounding_mm
    height = text_mm(board.height_mm, step_mm)
    no_gap = "" if ground.gaps else "No finished floor is known yet on the plinth line of any unit on legs."
    uncut_mm = max(uncut_from_mm(ground.gaps, board).values(), default=None)
    split_mm = None
    if ground.gaps:
        same = [place.datum_for_gap_mm(board.height_mm) for place in ground.gaps]
        split_mm = (max(same) + min(same)) / 2
    wanted_mm, why_not_wanted = room.worktop.wanted_height_mm, ""
    if wanted_mm is None:
        why_not_wanted = "The job gives no wanted height for the worktop."
    elif ground.finished_high_mm is None:
        wanted_mm, why_not_wanted = None, "No finished floor is known yet to measure the height from."
    else:
        wanted_mm = ground.finished_high_mm + wanted_mm - worktop_over_datum_mm(room, 0.0)
    least = ground.interval.least
    return (
        Rule(
            ChoiceName.UNCUT,
            "Board uncut at the high spot",
            f"The {height} board just goes in, with {text_mm(board.fit_mm, step_mm)} of play, where the finished floor "
            "leaves least under a unit; nothing is ripped.",
            uncut_mm,
            no_gap,
            up=True,
        ),
        Rule(
            ChoiceName.SPLIT,
            "Split the difference",
            f"The least and the greatest plinth gap lie equally far from the {height} board.",
            split_mm,
            no_gap,
        ),
        Rule(
            ChoiceName.WANTED,
            "Wanted height",
            "The worktop comes to the wanted height above the finished floor's highest spot.",
            wanted_mm,
            why_not_wanted,
        ),
        Rule(
            ChoiceName.LEAST_CUTTING,
            "Least cutting",
            "The lowest datum at which as few plinths as can be are ripped.",
            _least_cutting_mm(ground),
            no_gap,
            up=True,
        ),
        Rule(
            ChoiceName.LOWEST,
            "Lowest possible",
            "As low as everything in the room allows.",
            None if least is None else least.datum_mm,
            "Nothing in this room sets a lower end yet." if least is None else "",
            up=True,
        ),
    )


def _least_cutting_mm(ground: Ground) -> float | None:
    """The lowest D inside the interval at which the fewest units need their plinth ripped.

    Each unit is uncut from a datum of its own on, so the higher the fewer: it is the highest of those datums that can
    be had, or the interval's own least.
    """
    least, greatest = ground.interval.least, ground.interval.greatest
    from_mm = list(uncut_from_mm(ground.gaps, ground.room.plinth).values())
    if not from_mm:
        return None
    had = [mm for mm in from_mm if greatest is None or mm <= greatest.datum_mm + SAME_MM]
    if least is not None:
        had.append(least.datum_mm)
    if had:
        return max(had)
    return None if greatest is None else greatest.datum_mm


def _choice(ground: Ground, rule: Rule) -> Choice:
    units = len({place.placed.item.id for place in ground.gaps})
    if rule.exact_mm is None:
        return Choice(
            rule.name, rule.title, rule.words, None, False, rule.why_not, None, None,
            None, None, None, None, None, units, None,
        )  # fmt: skip
    step_mm = ground.job.rounding_mm
    binds = ground.interval.broken_by(rule.exact_mm)
    clash_mm = ground.interval.clash_mm
    feasible = binds is None and not clash_mm
    nearest_mm: float | None = None
    if feasible:
        asked_mm = _into(ground, rule.exact_mm, rule.up)
        used_mm: float | None = asked_mm
        why_not = ""
    else:
        asked_mm = _on_grid(rule.exact_mm, step_mm, rule.up)
        if not clash_mm and binds is not None:
            nearest_mm = _into(ground, binds.datum_mm, binds.end is End.LEAST)
        used_mm = nearest_mm
        why_not = _why_not(ground, rule, binds, nearest_mm)
    return Choice(
        rule.name,
        rule.title,
        rule.words,
        figure(asked_mm, step_mm, rule.words),
        feasible,
        why_not,
        binds,
        None if nearest_mm is None else figure(nearest_mm, step_mm, "The nearest that everything in the room allows."),
        *_brings(ground, used_mm),
        units,
        _clearance(ground, used_mm),
    )


def _why_not(ground: Ground, rule: Rule, binds: Demand | None, nearest_mm: float | None) -> str:
    step_mm, ends = ground.job.rounding_mm, ground.interval
    if ends.clash_mm and ends.least is not None and ends.greatest is not None:
        return (
            f"No datum can be had: {ends.least.name} and {ends.greatest.name} clash by "
            f"{text_mm(ends.clash_mm, step_mm)}."
        )
    if binds is None or nearest_mm is None or rule.exact_mm is None:
        return ""
    out = text_mm(-binds.slack_mm(rule.exact_mm), step_mm)
    wants = (
        f"at least {binds.datum.text}: {out} short"
        if binds.end is End.LEAST
        else f"at most {binds.datum.text}: {out} too high"
    )
    return f"Not possible: {binds.name} wants {wants}. Nearest {text_mm(nearest_mm, step_mm)}."


def _on_grid(value_mm: float, step_mm: float, up: bool) -> float:
    """The value on the job's rounding grid: the nearest multiple, or the next one up that is not below it."""
    nearest = rounded_mm(value_mm, step_mm)
    if up and float(nearest) < value_mm - SAME_MM:
        nearest += rounded_mm(step_mm, step_mm)
    return float(nearest)


def _into(ground: Ground, value_mm: float, up: bool) -> float:
    """A value of the interval on the job's rounding grid, inside the interval; exact where no grid point fits."""
    step_mm, ends = ground.job.rounding_mm, ground.interval
    first = _on_grid(value_mm, step_mm, up)
    around = (first,) if up else (first, first - step_mm, first + step_mm)
    for point in around:
        if ends.broken_by(point) is None:
            return float(rounded_mm(point, step_mm))
    return value_mm


def _brings(
    ground: Ground, datum_mm: float | None
) -> tuple[Figure | None, tuple[Figure, Figure] | None, tuple[Figure, Figure] | None, int | None, int | None]:
    """Worktop height, range of legs, range of gaps, plinths to rip and those that do not reach, at this datum."""
    if datum_mm is None:
        return None, None, None, None, None
    room, step_mm = ground.room, ground.job.rounding_mm
    worktop = legs = None
    if ground.finished_high_mm is not None:
        over_mm = worktop_over_datum_mm(room, 0.0)
        worktop = figure(
            datum_mm + over_mm - ground.finished_high_mm,
            step_mm,
            f"Datum {text_mm(datum_mm, step_mm)} plus build-up and worktop {text_mm(over_mm, step_mm)}, above the "
            f"finished floor's highest spot {text_mm(ground.finished_high_mm, step_mm)}.",
        )
    stands = [
        figure(mm, LEG_STEP_MM, f"{leg.place.name.capitalize()} leg of unit {leg.number}.")
        for leg in ground.legs
        if (mm := leg.height_mm(datum_mm)) is not None
    ]
    opens = [
        figure(place.gap_mm(datum_mm), step_mm, f"At the {place.side} front corner of {place.placed.item.name}.")
        for place in ground.gaps
    ]
    if stands:
        legs = _ends(stands)
    if not opens:
        return worktop, legs, None, None, None
    rip = len(ripped(ground.gaps, room.plinth, datum_mm))
    return worktop, legs, _ends(opens), rip, len(not_reached(ground.gaps, room.plinth, datum_mm))


def _ends(figures: Sequence[Figure]) -> tuple[Figure, Figure]:
    """The least and the greatest."""
    return min(figures, key=lambda one: one.mm), max(figures, key=lambda one: one.mm)


def _clearance(ground: Ground, datum_mm: float | None) -> Figure | None:
    """The least room over an appliance under the top, beyond the opening that it wants, mm."""
    machines = [one for one in ground.demands if one.subject is Subject.APPLIANCE and one.end is End.LEAST]
    if datum_mm is None or not machines:
        return None
    tightest = min(machines, key=lambda one: one.slack_mm(datum_mm))
    why = f"Over the {tightest.name}, beyond the opening that it wants."
    return figure(tightest.slack_mm(datum_mm), ground.job.rounding_mm, why)
