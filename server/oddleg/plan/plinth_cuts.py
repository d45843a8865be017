"""Notches and grilles in plinths, from the sheets of the appliances behind them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from oddleg.job import ApplianceBay, ApplianceSeat, Carcass, Job, PlinthCut, PlinthCutKind

from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .heights import SAME_MM
from .plinth_lengths import PlinthLength
from .rod import Placed

SOURCE = "the appliance's own sheet"


@dataclass(frozen=True)
class CutOut:
    """A notch at the top edge or a grille in a piece of plinth. `at`: its left edge from the piece's left end, facing
    it. `up`: from the board's foot to a grille's lower edge, None where that is unknown, and for a notch. `words`: what
    it is for and from which sheet."""

    kind: PlinthCutKind
    item: str
    at: Figure
    width: Figure
    height: Figure
    words: str
    up: Figure | None = None


def cut_outs(
    job: Job, one: PlinthLength, number: int, height_mm: Callable[[float], float]
) -> tuple[tuple[CutOut, ...], list[Finding]]:
    """What is cut out of one piece, left to right, and what is wrong about it. `height_mm`: of the board as cut, at a
    place from its left end. A cut over a joint is told on both pieces, each with its own part of it."""
    step_mm, place = job.rounding_mm, f"plinth {number} ({one.name})"
    if one.left_mm is None:
        return (), []
    made: list[tuple[float, float, CutOut]] = []
    findings: list[Finding] = []
    for placed, cut in _cuts(one.over):
        left_mm = placed.left_mm + cut.left_mm - one.left_mm
        start_mm, stop_mm = max(left_mm, 0.0), min(left_mm + cut.width_mm, one.length_mm)
        if stop_mm - start_mm <= SAME_MM:
            continue
        what, sheet = cut.kind.value, cut.source or SOURCE
        concerns = (placed.run.id, placed.item.id)
        if stop_mm - start_mm < cut.width_mm - SAME_MM:
            findings.append(
                Finding(
                    "plinth.cut_over_end",
                    Severity.WARN,
                    place,
                    f"The {what} for {placed.item.name} passes an end of this piece: of "
                    f"{text_mm(cut.width_mm, step_mm)} only {text_mm(stop_mm - start_mm, step_mm)} are here.",
                    "Hide the joint elsewhere, or ask whether it may be cut in two pieces.",
                    sheet,
                    concerns=concerns,
                )
            )
        least_mm = min(height_mm(start_mm), height_mm(stop_mm))
        reaches_mm = cut.height_mm + (cut.up_mm or 0.0)
        if reaches_mm >= least_mm - SAME_MM:
            findings.append(
                Finding(
                    "plinth.cut_too_high",
                    Severity.STOP,
                    place,
                    f"The {what} for {placed.item.name} {_reach_words(cut, step_mm)}, and the board is only "
                    f"{text_mm(least_mm, step_mm)} high there: it would part it.",
                    "Read the sheet again; ask for another grille or a higher datum, or leave the plinth out there.",
                    sheet,
                    figure(reaches_mm - least_mm, step_mm, "Height that the cut goes to less that of the board."),
                    concerns,
                )
            )
        why = (
            f"{placed.item.name} starts {text_mm(placed.left_mm - one.left_mm, step_mm, signed=True)} from the piece's "
            f"left end; {text_mm(cut.left_mm, step_mm)} from its edge, as {sheet} says."
        )
        where = "at the top edge" if cut.kind is PlinthCutKind.NOTCH else "in the board"
        if cut.kind is PlinthCutKind.GRILLE and cut.up_mm is None:
            where += ", how high up is not given,"
            findings.append(
                Finding(
                    "plinth.grille_height",
                    Severity.NOTE,
                    place,
                    f"How high the {what} for {placed.item.name} goes is not given: nobody can cut it.",
                    "Read on its sheet how far its lower edge lies up from the plinth's foot, and put it into the job.",
                    sheet,
                    concerns=concerns,
                )
            )
        words = f"{what} {where} for {placed.item.name}, from {sheet}"
        width, height = (
            figure(size_mm, step_mm, f"As {sheet} says.") for size_mm in (stop_mm - start_mm, cut.height_mm)
        )
        up = None if cut.up_mm is None else figure(cut.up_mm, step_mm, f"From the board's foot, as {sheet} says.")
        at = figure(start_mm, step_mm, why)
        made.append((start_mm, stop_mm, CutOut(cut.kind, placed.item.id, at, width, height, words, up)))
    made.sort(key=lambda spot: spot[:2])
    if any(after[0] < before[1] - SAME_MM for before, after in pairwise(made)):
        findings.append(
            Finding(
                "plinth.cuts_meet",
                Severity.WARN,
                place,
                "Two of its notches or grilles overlap.",
                "Read their places off the sheets again.",
                SOURCE,
                concerns=one.concerns,
            )
        )
    return tuple(cut for _, _, cut in made), findings


def _reach_words(cut: PlinthCut, step_mm: float) -> str:
    high = text_mm(cut.height_mm, step_mm)
    if not cut.up_mm:
        return f"is {high} high"
    return f"goes to {text_mm(cut.up_mm + cut.height_mm, step_mm)} ({text_mm(cut.up_mm, step_mm)} up and {high} high)"


def _cuts(over: Sequence[Placed]) -> Iterator[tuple[Placed, PlinthCut]]:
    for placed in over:
        if isinstance(placed.item, Carcass | ApplianceBay):
            yield from ((placed, cut) for cut in placed.item.plinth_cuts)


def cut_findings(job: Job, placed: Sequence[Placed], lengths: Sequence[PlinthLength]) -> list[Finding]:
    """Cuts that no plinth passes or that reach beyond their item; and appliances behind a plinth whose sheet may want
    one, and nothing says so."""
    step_mm = job.rounding_mm
    findings = []
    for one, cut in _cuts(placed):
        passing = any(one.item.id == at.item.id for each in lengths if each.left_mm is not None for at in each.over)
        place, what = f"{one.item.name}, {one.run.name}", cut.kind.value
        if not passing:
            findings.append(
                Finding(
                    "plinth.cut_of_nothing",
                    Severity.WARN,
                    place,
                    f"Its sheet wants a {what} in the plinth, and no plinth passes in front of it.",
                    "Say in the job that the plinth runs through, or take the cut out.",
                    cut.source or SOURCE,
                    concerns=(one.run.id, one.item.id),
                )
            )
        if cut.left_mm < -SAME_MM or cut.left_mm + cut.width_mm > one.item.width_mm + SAME_MM:
            findings.append(
                Finding(
                    "plinth.cut_beyond_item",
                    Severity.WARN,
                    place,
                    f"Its {what} goes from {text_mm(cut.left_mm, step_mm)} to "
                    f"{text_mm(cut.left_mm + cut.width_mm, step_mm)}; its item {text_mm(one.item.width_mm, step_mm)}.",
                    "Read the place off the sheet again: it counts from the left edge, facing it.",
                    cut.source or SOURCE,
                    concerns=(one.run.id, one.item.id),
                )
            )
    for length in lengths:
        for one in length.over if length.left_mm is not None else ():
            machines = [] if getattr(one.item, "plinth_cuts", ()) else list(_behind_plinth(one))
            findings += [_ask(one, name) for name in machines]
    return list({(one.rule, one.place, one.wrong): one for one in findings}.values())


def _behind_plinth(one: Placed) -> Iterator[str]:
    """Names of appliances that a plinth hides: in a bay that it runs in front of, or built into a carcass over it."""
    if isinstance(one.item, ApplianceBay):
        yield one.item.appliance.name
    elif isinstance(one.item, Carcass):
        for machine in one.item.appliances:
            if machine.built_in and machine.seat is ApplianceSeat.IN_CARCASS:
                yield machine.name


def _ask(one: Placed, machine: str) -> Finding:
    return Finding(
        "plinth.ask_sheet",
        Severity.NOTE,
        f"{one.item.name}, {one.run.name}",
        f"A plinth passes in front of the {machine}, and nothing says whether it wants a notch or a grille there.",
        "Read its sheet: a door's swing or ventilation may ask for one. Put it into the job before the plinth is cut.",
        SOURCE,
        concerns=(one.run.id, one.item.id),
    )
