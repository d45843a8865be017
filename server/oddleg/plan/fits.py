"""Computation 10: will it fit: the worst case first, then what is likely if sizes vary as stated.

What sizes, joints and the tape can do adds to the row, and the mean of the units measured shifts all of it. A joint
opens and never closes below nought, so it adds half of what it may open on average: that does not cancel out.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from oddleg.job import (
    Carcass,
    CornerPost,
    EndPanel,
    EndsAt,
    Entry,
    Filler,
    Item,
    Job,
    OpeningWidth,
    OpenUnit,
    Storey,
    Tolerances,
    UnitWidth,
)

from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .fit import Fit
from .row import SAME_SPOT_MM, taken_mm
from .set_out import Rod
from .sightings import counted, listed
from .site import Site, body

# A batch has a mean of its own; from so many of it measured on it says more than the makers' limits.
MEASURED_FOR_A_MEAN = 3
# Half-widths that 95 % lie within are this many standard deviations.
OF_95 = 1.96
# A unit so many times further off than it may be, and so far at all, was misread or is another one (ours).
MISREAD_TIMES, LEAST_MISREAD_MM = 10.0, 5.0
# What the play at a joint hides without anybody deciding anything (ours).
NOTED_MM = 2.0
ROW_VERBS = {
    "base": ("What stands", "goes", "it comes", "does"),
    "wall": ("The wall units", "go", "they come", "do"),
}


@dataclass(frozen=True)
class _Spread:
    """What a row can come out longer than it is drawn, mm: at worst, and within 95 %; `middle_mm` of the latter is what
    joints add on average, `half_mm` its half-width. `shift_mm`: mean of the units measured times their number."""

    worst_mm: float
    middle_mm: float
    half_mm: float
    shift_mm: float | None
    why_worst: str
    why_likely: str
    why_shift: str

    @property
    def likely_mm(self) -> float:
        return self.middle_mm + self.half_mm


def fits(job: Job, here: Site, rod: Rod) -> tuple[Fit, ...]:
    """One a row with units in it, where the opening is known and something stands at both ends of it.

    Where the opening was measured again at the same height and depth, what the readings differ by counts in the place
    of the tape's give or take, if it is more."""
    if rod.opening is None or EndsAt.OPEN in (rod.run.left_end.at, rod.run.right_end.at):
        return ()
    openings = [one for one in (body(entry, OpeningWidth) for entry in here.openings) if one.run == rod.run.id]
    widths = {body(entry, UnitWidth).item: entry for entry in here.unit_widths}
    found = []
    for row, hangs in (("base", False), ("wall", True)):
        items = [item for item in rod.run.items if (item.storey is Storey.WALL) is hangs]
        if any(isinstance(item, Carcass | OpenUnit) for item in items):
            found.append(_fit(job, rod, row, items, widths, openings))
    return tuple(found)


def _fit(
    job: Job, rod: Rod, row: str, items: Sequence[Item], widths: dict[str, Entry], openings: Sequence[OpeningWidth]
) -> Fit:
    assert rod.opening is not None
    step_mm = job.rounding_mm
    least_of_mm = _least_on_rod_mm(rod, items)
    least_mm = sum(least_of_mm.values())
    drawn_mm = sum(taken_mm(item) for item in items if not isinstance(item, Filler))
    space = _space(rod, rod.opening, row, step_mm)
    spare_mm = space.mm - drawn_mm - least_mm
    spread = _spread(job, items, widths, openings)
    shift_mm = spread.shift_mm or 0.0
    over_mm = spread.worst_mm + shift_mm - spare_mm
    stuck = spare_mm >= 0 and _past_an_end(rod, items, least_of_mm)
    doubted = [item for item in items if _is_misread(item, widths, job.tolerances)]
    sure = over_mm <= SAME_SPOT_MM and not stuck and not doubted
    taken = figure(drawn_mm + least_mm, step_mm, _taken_why(least_mm, step_mm))
    spare = figure(spare_mm, step_mm, _spare_why(space, taken))
    worst = figure(spread.worst_mm, step_mm, spread.why_worst)
    shift = None if spread.shift_mm is None else figure(spread.shift_mm, step_mm, spread.why_shift, signed=True)
    needed_mm = max(0.0, over_mm)
    words = _words(row, items, spare_mm, spread.worst_mm + shift_mm, min(needed_mm, least_mm), needed_mm, step_mm)
    if stuck:
        words = f"Not with the anchor where it is: see the rod. With the anchor moved: {words}"
    if doubted:
        told = listed([_measured_words(item, widths) for item in doubted])
        words = f"Not certain yet: {told}. Taken as drawn: {words}"
    elif shift is not None:
        words = f"{words} {_shift_words(job.tolerances)}"
    return Fit(
        row,
        space,
        taken,
        spare,
        worst,
        figure(spread.likely_mm, step_mm, spread.why_likely),
        shift,
        sure,
        figure(needed_mm, step_mm, "The worst case and the measured shift less what is to spare."),
        words,
        _chance_words(spread, spare_mm, shift_mm, step_mm),
        tuple(_findings(job, rod, items, widths, spare_mm, needed_mm, words)),
    )


def _least_on_rod_mm(rod: Rod, items: Sequence[Item]) -> dict[str, float]:
    """Least that each filler of the row takes between the marks: where its side wall lies beyond the mark all along,
    that much of it shows there, as on the rod."""
    beyond_mm = {one.item: one.narrow.mm - one.width.mm for one in rod.fillers}
    return {item.id: max(0.0, item.least_mm - beyond_mm[item.id]) for item in items if isinstance(item, Filler)}


def _space(rod: Rod, opening: Figure, row: str, step_mm: float) -> Figure:
    """The opening, less what a row that hangs ends before its marks in corners."""
    short_mm = sum(one.short_mm for one in rod.hung_ends if one is not None) if row == "wall" else 0.0
    if not short_mm:
        return opening
    why = f"{opening.text} between the marks, less {text_mm(short_mm, step_mm)} that what hangs ends before them."
    return figure(opening.mm - short_mm, step_mm, why)


def _past_an_end(rod: Rod, items: Sequence[Item], least_mm: Mapping[str, float]) -> bool:
    """Whether the row, though it would go in as a whole, goes past an end or squeezes a filler beside its anchor."""
    here = {item.id for item in items}
    past = any(
        one.left_mm < rod.left_mm - SAME_SPOT_MM or one.right_mm > rod.right_mm + SAME_SPOT_MM
        for one in rod.placed
        if one.item.id in here
    )
    return past or any(one.width.mm < least_mm.get(one.item, 0.0) - SAME_SPOT_MM for one in rod.fillers)


def _spread(job: Job, items: Sequence[Item], widths: dict[str, Entry], openings: Sequence[OpeningWidth]) -> _Spread:
    limits, step_mm = job.tolerances, job.rounding_mm
    units = [item for item in items if isinstance(item, Carcass | OpenUnit)]
    within_mm = [width_within_mm(item, limits) for item in items]
    off_mm = [_off_mm(one, widths) for one in units if one.id in widths and not _is_misread(one, widths, limits)]
    joints = joint_count(items)
    tape_mm, tape_words = _measured_within(limits.tape_mm, openings, step_mm)
    joint = text_mm(limits.greatest_joint_mm, 0.1)
    parts = [*_size_words(items, limits), f"{counted(joints, 'joint')} of up to {joint}", tape_words]
    worst_mm = sum(within_mm) + joints * limits.greatest_joint_mm + tape_mm
    half_joint_mm = limits.greatest_joint_mm / 2
    half_mm = math.sqrt(sum(mm**2 for mm in within_mm) + joints * half_joint_mm**2 + tape_mm**2)
    middle_mm = joints * half_joint_mm
    shift_mm, why_shift = None, ""
    if len(off_mm) >= MEASURED_FOR_A_MEAN:
        mean_mm = sum(off_mm) / len(off_mm)
        shift_mm = mean_mm * len(units)
        why_shift = (
            f"{len(off_mm)} of {len(units)} units measured are {text_mm(mean_mm, 0.01, signed=True)} off on average; "
            f"all are taken so here. {_shift_words(limits)}"
        )
    return _Spread(
        worst_mm,
        middle_mm,
        half_mm,
        shift_mm,
        f"All at once: {', '.join(parts)}.",
        _why_likely(within_mm, joints, half_joint_mm, tape_mm, middle_mm, half_mm),
        why_shift,
    )


def _why_likely(
    within_mm: Sequence[float], joints: int, half_joint_mm: float, tape_mm: float, middle_mm: float, half_mm: float
) -> str:
    """The sum as it is reckoned, so that anybody can do it again."""
    squares = Counter(mm for mm in within_mm if mm)
    terms = [f"{number} × {text_mm(mm, 0.01)}²" for mm, number in sorted(squares.items(), reverse=True)]
    terms += [f"{joints} × {text_mm(half_joint_mm, 0.01)}²"] if joints and half_joint_mm else []
    terms += [f"{text_mm(tape_mm, 0.01)}²"] if tape_mm else []
    root = f"√({' + '.join(terms) or '0'}) = {text_mm(half_mm, 0.01)}"
    if not (joints and half_joint_mm):
        return f"Sizes and tape either way: {root}."
    return (
        f"A joint opens and never closes below nought, so each adds half its range on average and half either way: "
        f"{joints} × {text_mm(half_joint_mm, 0.01)} = {text_mm(middle_mm, 0.01)}, and sizes, joints and tape either "
        f"way {root}; together {text_mm(middle_mm + half_mm, 0.01)}."
    )


def width_within_mm(item: Item, limits: Tolerances) -> float:
    """How far an item may be off its width, mm, either way: its own figure, else the job's for a unit. A bay and a gap
    are clear widths, a filler is cut to what is left."""
    if not isinstance(item, Carcass | OpenUnit | EndPanel | CornerPost):
        return 0.0
    if item.width_within_mm is not None:
        return item.width_within_mm
    return limits.unit_size_mm if isinstance(item, Carcass | OpenUnit) else 0.0


def _size_words(items: Sequence[Item], limits: Tolerances) -> list[str]:
    """What goes by the job's figure is counted; what has one of its own is named beside it."""
    plain, own = 0, dict[float, list[str]]()
    for item in items:
        if not isinstance(item, Carcass | OpenUnit | EndPanel | CornerPost):
            continue
        if item.width_within_mm is not None:
            own.setdefault(item.width_within_mm, []).append(item.name)
        elif isinstance(item, Carcass | OpenUnit):
            plain += 1
    words = [f"{counted(plain, 'unit')} of up to {text_mm(limits.unit_size_mm, 0.1)} over"] if plain else []
    return words + [f"{listed(names)} of up to {text_mm(mm, 0.1)} over" for mm, names in own.items()]


def joint_count(items: Sequence[Item]) -> int:
    """Joints of the row: where two things meet that keep their width. A panel's allowance is its joint already; a
    filler takes a joint up, a bay and a gap are clear widths."""

    def meets(item: Item) -> bool:
        return isinstance(item, Carcass | OpenUnit | CornerPost) or (
            isinstance(item, EndPanel) and item.allowance_mm == 0
        )

    return sum(meets(one) and meets(other) for one, other in pairwise(items))


def _measured_within(tape_mm: float, openings: Sequence[OpeningWidth], step_mm: float) -> tuple[float, str]:
    """Give or take of the opening: the tape's, or what readings of one height and depth differ by, if that is more."""
    by_place: dict[object, list[float]] = {}
    for one in openings:
        by_place.setdefault((one.height, one.depth), []).append(one.value_mm)
    apart_mm = max((max(mm) - min(mm) for mm in by_place.values()), default=0.0)
    if apart_mm > tape_mm:
        return apart_mm, f"readings of the opening at one place that differ by {text_mm(apart_mm, step_mm)}"
    return tape_mm, f"the opening within {text_mm(tape_mm, step_mm)}"


def _taken_why(least_mm: float, step_mm: float) -> str:
    fillers = f", fillers at their least between the marks, {text_mm(least_mm, step_mm)} together" if least_mm else ""
    return f"Everything in the row as drawn{fillers}."


def _words(
    row: str,
    items: Sequence[Item],
    spare_mm: float,
    over_mm: float,
    by_fillers_mm: float,
    needed_mm: float,
    step_mm: float,
) -> str:
    name, goes, comes, does = ROW_VERBS[row]
    over = _longer(over_mm, step_mm)
    if spare_mm < -SAME_SPOT_MM:
        return f"{name} {does} not go in: {text_mm(-spare_mm, step_mm)} too long as drawn."
    spare = text_mm(spare_mm, step_mm)
    if needed_mm <= SAME_SPOT_MM:
        return f"{name} {goes} in for certain: {spare} to spare, and at worst {comes} out {over}."
    sure = f"at worst {comes} out {over}, and there are {spare} to spare"
    if by_fillers_mm >= needed_mm - SAME_SPOT_MM:
        cure = f"Fillers that may be {text_mm(needed_mm, step_mm)} narrower make it certain."
    elif any(isinstance(item, Filler) for item in items):
        cure = (
            f"It is certain with {text_mm(needed_mm, step_mm)} more: more than the fillers' least widths have to give."
        )
    else:
        cure = f"A filler in place of {text_mm(needed_mm, step_mm)} of it would make it certain."
    return f"{name} {goes} in as drawn, but not for certain: {sure}. {cure}"


def _longer(mm: float, step_mm: float) -> str:
    text = text_mm(abs(mm), step_mm)
    if text == "0":
        return "as drawn"
    return f"{text} {'longer' if mm > 0 else 'shorter'}"


def _chance_words(spread: _Spread, spare_mm: float, shift_mm: float, step_mm: float) -> str:
    """`shift_mm`: what the mean of the units measured adds to all of it."""
    likely_mm, room_mm = spread.likely_mm + shift_mm, spare_mm - shift_mm
    no_more = "no more than " if likely_mm > 0 else "at least "
    likely = _longer(likely_mm, step_mm)
    start = "If sizes vary as stated, at least 95 of 100 such rows come out "
    start += likely if likely == "as drawn" else f"{no_more}{likely}"
    sd_mm = spread.half_mm / OF_95
    if sd_mm <= 0:
        return f"{start}."
    chance = (1 + math.erf((room_mm - spread.middle_mm) / (sd_mm * math.sqrt(2)))) / 2
    if chance > 0.99:
        return f"{start}, and more than 99 of 100 go in."
    if chance < 0.01:
        return f"{start}, and fewer than 1 of 100 goes in."
    return f"{start}, and {text_mm(chance * 100, 1)} of 100 go in."


def _off_mm(item: Item, widths: Mapping[str, Entry]) -> float:
    return body(widths[item.id], UnitWidth).value_mm - item.width_mm


def _is_misread(item: Item, widths: Mapping[str, Entry], limits: Tolerances) -> bool:
    """Whether its measured width is so far off that it is no unit of this width."""
    if item.id not in widths or not isinstance(item, Carcass | OpenUnit):
        return False
    most_mm = max(LEAST_MISREAD_MM, MISREAD_TIMES * max(limits.unit_size_mm, width_within_mm(item, limits)))
    return abs(_off_mm(item, widths)) > most_mm + SAME_SPOT_MM


def _measured_words(item: Item, widths: Mapping[str, Entry]) -> str:
    measured_mm = item.width_mm + _off_mm(item, widths)
    return f"{item.name} was measured {text_mm(measured_mm, 0.1)} and is drawn {text_mm(item.width_mm, 0.1)}"


def _shift_words(limits: Tolerances) -> str:
    return (
        "The rod keeps the drawn widths; the fit reckons with what was measured. A unit off by more than "
        f"{text_mm(limits.unit_size_mm, 0.1)} is put right at the desk."
    )


def _spare_why(space: Figure, taken: Figure) -> str:
    return (
        f"{space.text} of opening less {taken.text} taken. To spare is with every filler at its least; left over, on "
        "the rod, is what the fillers as set out do not fill."
    )


def _findings(
    job: Job,
    rod: Rod,
    items: Sequence[Item],
    widths: dict[str, Entry],
    spare_mm: float,
    needed_mm: float,
    words: str,
) -> list[Finding]:
    found, step_mm = [], job.rounding_mm
    if spare_mm >= 0 and needed_mm > SAME_SPOT_MM:
        found.append(
            Finding(
                "fit.not_certain",
                Severity.WARN,
                rod.run.name,
                words,
                "Measure the units as they come, or change the filler before it is cut.",
                "the job's limits for sizes, joints and tape",
                figure(needed_mm, step_mm),
                (rod.run.id,),
            )
        )
    for item in items:
        if item.id in widths and isinstance(item, Carcass | OpenUnit):
            off_mm = _off_mm(item, widths)
            if _is_misread(item, widths, job.tolerances):
                found.append(_misread(rod, item, widths))
            elif abs(off_mm) > width_within_mm(item, job.tolerances) + SAME_SPOT_MM:
                found.append(_off_size(job, rod, item, widths))
    return found


def _amount(off_mm: float) -> Figure:
    return figure(off_mm, 0.1, "Width as measured less width as drawn.", signed=True)


def _misread(rod: Rod, item: Carcass | OpenUnit, widths: Mapping[str, Entry]) -> Finding:
    return Finding(
        "fit.misread",
        Severity.WARN,
        f"{rod.run.name}, {item.name}",
        f"{_measured_words(item, widths)}: it was misread, or it is another unit. The fit does not reckon with it.",
        "Measure it again, or put its width right at the desk.",
        "a unit is near to the width that it is drawn",
        _amount(_off_mm(item, widths)),
        (rod.run.id, item.id),
    )


def _off_size(job: Job, rod: Rod, item: Carcass | OpenUnit, widths: Mapping[str, Entry]) -> Finding:
    amount = _amount(_off_mm(item, widths))
    little = abs(amount.mm) <= NOTED_MM + SAME_SPOT_MM
    return Finding(
        "fit.unit_size",
        Severity.NOTE if little else Severity.WARN,
        f"{rod.run.name}, {item.name}",
        f"{_measured_words(item, widths)}: {amount.text}, more than the "
        f"{text_mm(width_within_mm(item, job.tolerances), 0.1)} that it may be off. The rod keeps the drawn width.",
        "Measure it again; if it is so, put its width right at the desk, so that the rod is set out with it.",
        "how far its width may be off, as the job has it",
        amount,
        (rod.run.id, item.id),
    )
