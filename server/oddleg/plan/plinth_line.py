"""Computation 6: the pieces of a room's plinth lines, and each piece's heights over the finished floor."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from oddleg.job import Job, PlinthBoard, Point, Room

from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .finished_floor import Floor
from .heights import SAME_MM
from .plinth_cuts import CutOut, cut_findings, cut_outs
from .plinth_layout import PlinthEnd, WallEnds, plinth_lines
from .plinth_lengths import PlinthLength, plinth_lengths
from .rod import Placed
from .sources import floor_words
from .surfaces import Surface, SurfaceLevel

SAMPLE_MM = 100.0
BESIDE_MM = 60.0
"""A station so near to the plinth line counts as standing on it."""


@dataclass(frozen=True)
class ProfilePoint:
    """`at`: from the piece's left end, facing it. `height`: of the cut board there. `gap`: finished floor to edge."""

    at: Figure
    height: Figure
    gap: Figure


@dataclass(frozen=True)
class PlinthPiece:
    """One piece of plinth, left and right as you face its front from the room.

    `x0_mm`, `y0_mm`, `x1_mm`, `y1_mm`: left and right end of its face in room axes. `left`, `right`: heights to cut at
    the ends. `profile`: heights along it, both ends included; empty where a straight cut does. `uncut`: the stock board
    goes in as it is. `rip`: the most that comes off the board, None where uncut. `open_above`: the most that stays open
    between board and visible edge, play included. `returns`: a return at a visible end. `cuts`: notches and grilles.
    `number`: 1, 2, 3 over the room.
    """

    id: str
    number: int
    name: str
    run: str
    returns: bool
    x0_mm: float
    y0_mm: float
    x1_mm: float
    y1_mm: float
    length: Figure
    recess: Figure
    left_end: PlinthEnd
    right_end: PlinthEnd
    left: Figure
    right: Figure
    least_gap: Figure
    greatest_gap: Figure
    profile: tuple[ProfilePoint, ...]
    uncut: bool
    rip: Figure | None
    open_above: Figure
    units: tuple[str, ...]
    cuts: tuple[CutOut, ...] = ()


@dataclass(frozen=True)
class _Sample:
    """At `at_mm` from the left end: the floor, and the gap over it."""

    at_mm: float
    floor: SurfaceLevel
    gap_mm: float


def plinth_pieces(
    job: Job,
    room: Room,
    placed: Sequence[Placed],
    floor: Floor,
    datum_mm: float,
    names: Mapping[str, str],
    wall_ends: WallEnds | None = None,
) -> tuple[tuple[PlinthPiece, ...], tuple[Finding, ...]]:
    """Every piece of plinth of a room at this datum, numbered in the order of runs, left to right, and what is wrong.

    A line is one piece as long as the stock board reaches; else it is joined where two units meet, in the fewest
    pieces, the longest first from the left. The gap runs from the finished floor on the line of the face up to the
    lowest visible edge; a piece is cut to the gap less the fit (1 to 2, common practice), at most the stock board.
    Where that leaves the straight line between its ends by more than `plinth_bow_mm` or the fit, the lesser of both,
    since more would not go in, the piece has a profile. The scribed edge is the lower one. First principles.
    `wall_ends`: where ends were set out to walls.
    """
    pieces: list[PlinthPiece] = []
    findings: list[Finding] = []
    lines = plinth_lines(job, room, placed, wall_ends)
    all_lengths: list[PlinthLength] = []
    for line in lines:
        lengths, told = plinth_lengths(job, room, line, lines)
        findings.extend(told)
        all_lengths += lengths
        for one in lengths:
            piece, told = _piece(job, room.plinth, one, len(pieces) + 1, floor.finished, datum_mm, names)
            findings.extend(told)
            if piece is not None:
                pieces.append(piece)
    findings += cut_findings(job, [one for one in placed if one.stands], all_lengths)
    return tuple(pieces), tuple(findings)


def _piece(
    job: Job,
    board: PlinthBoard,
    one: PlinthLength,
    number: int,
    finished: Surface,
    datum_mm: float,
    names: Mapping[str, str],
) -> tuple[PlinthPiece | None, list[Finding]]:
    step_mm = job.rounding_mm
    edge_mm = datum_mm - one.edge_below_datum_mm
    places = list(_places(one, finished))
    known = [
        _Sample(at_mm, level, edge_mm - level.level_mm)
        for at_mm, spot in places
        if (level := finished.at(spot.x_mm, spot.y_mm)) is not None
    ]
    if len(known) < 2 or known[0].at_mm > SAME_MM or known[-1].at_mm < one.length_mm - SAME_MM:
        return None, [_no_floor(one)]
    cut_mm = [min(board.height_mm, sample.gap_mm - board.fit_mm) for sample in known]
    shape = list(zip([sample.at_mm for sample in known], cut_mm, strict=True))
    kept = bends(shape, min(job.tolerances.plinth_bow_mm, board.fit_mm))
    points = [
        ProfilePoint(
            figure(known[i].at_mm, step_mm, "From the piece's left end, facing it."),
            _height(board, known[i], cut_mm[i], datum_mm, one.edge_below_datum_mm, names, step_mm),
            _gap(known[i], datum_mm, one.edge_below_datum_mm, names, step_mm),
        )
        for i in kept
    ]
    off_mm = board.height_mm - min(cut_mm)
    uncut = off_mm <= SAME_MM
    narrow, wide = (pick(known, key=lambda sample: sample.gap_mm) for pick in (min, max))
    cuts, cuts_wrong = cut_outs(job, one, number, lambda at_mm: straight_mm(shape, kept, at_mm))
    above_mm = max((sample.gap_mm - straight_mm(shape, kept, sample.at_mm), sample.at_mm) for sample in known)
    piece = PlinthPiece(
        f"plinth-{number}",
        number,
        one.name,
        one.run.name,
        one.returns,
        one.start.x_mm,
        one.start.y_mm,
        one.stop.x_mm,
        one.stop.y_mm,
        figure(one.length_mm, step_mm, one.why),
        figure(one.recess_mm, step_mm, "Carcass front to the plinth's face, as the units have it."),
        one.left_end,
        one.right_end,
        points[0].height,
        points[-1].height,
        _gap(narrow, datum_mm, one.edge_below_datum_mm, names, step_mm),
        _gap(wide, datum_mm, one.edge_below_datum_mm, names, step_mm),
        tuple(points) if len(points) > 2 else (),
        uncut,
        None
        if uncut
        else figure(off_mm, step_mm, f"Board {text_mm(board.height_mm, step_mm)} less the least height to cut."),
        figure(
            above_mm[0],
            step_mm,
            f"The gap less the board's height {text_mm(above_mm[1], step_mm)} from the left end.",
        ),
        one.units,
        cuts,
    )
    return piece, [*_wrong(job, board, one, piece), *cuts_wrong]


def _places(one: PlinthLength, finished: Surface) -> Iterator[tuple[float, Point]]:
    """Places along the face at which the floor is looked at: both ends, every 100 mm or closer, and at each station
    beside the line, since a surface that is linear between its stations bends at them."""
    length_mm = one.length_mm
    dx, dy = one.stop.x_mm - one.start.x_mm, one.stop.y_mm - one.start.y_mm
    steps = max(1, math.ceil(length_mm / SAMPLE_MM))
    at = {length_mm * i / steps for i in range(steps + 1)}
    for spot in finished.spots:
        along = ((spot.x_mm - one.start.x_mm) * dx + (spot.y_mm - one.start.y_mm) * dy) / length_mm
        aside = ((spot.y_mm - one.start.y_mm) * dx - (spot.x_mm - one.start.x_mm) * dy) / length_mm
        if SAME_MM < along < length_mm - SAME_MM and abs(aside) <= BESIDE_MM:
            at.add(along)
    for at_mm in sorted(at):
        share = at_mm / length_mm
        yield at_mm, Point(one.start.x_mm + share * dx, one.start.y_mm + share * dy)


def bends(points: Sequence[tuple[float, float]], tolerance_mm: float) -> list[int]:
    """Numbers of the points to keep so that straight lines between them miss no other by more than the tolerance:
    the ends, and again and again the point that a stretch misses most (the first of equal ones)."""
    kept = {0, len(points) - 1}
    open_stretches = [(0, len(points) - 1)]
    while open_stretches:
        start, stop = open_stretches.pop()
        missed = [
            (abs(points[i][1] - _between(points[start], points[stop], points[i][0])), -i)
            for i in range(start + 1, stop)
        ]
        worst_mm, number = max(missed, default=(0.0, 0))
        if worst_mm > tolerance_mm + SAME_MM:
            kept.add(-number)
            open_stretches += [(start, -number), (-number, stop)]
    return sorted(kept)


def straight_mm(points: Sequence[tuple[float, float]], kept: Sequence[int], at_mm: float) -> float:
    """The height at this place of the straight lines between the points that were kept."""
    for start, stop in pairwise(kept):
        if at_mm <= points[stop][0] + SAME_MM:
            return _between(points[start], points[stop], at_mm)
    return points[kept[-1]][1]


def _between(start: tuple[float, float], stop: tuple[float, float], at_mm: float) -> float:
    return start[1] + (stop[1] - start[1]) * (at_mm - start[0]) / (stop[0] - start[0])


def _gap_words(sample: _Sample, datum_mm: float, below_mm: float, names: Mapping[str, str], step_mm: float) -> str:
    return (
        f"Datum {text_mm(datum_mm, step_mm)} less {text_mm(below_mm, step_mm)} to the lowest visible edge, less "
        f"finished {floor_words(sample.floor, names, step_mm)}"
    )


def _gap(sample: _Sample, datum_mm: float, below_mm: float, names: Mapping[str, str], step_mm: float) -> Figure:
    return figure(sample.gap_mm, step_mm, f"{_gap_words(sample, datum_mm, below_mm, names, step_mm)}.")


def _height(
    board: PlinthBoard,
    sample: _Sample,
    cut_mm: float,
    datum_mm: float,
    below_mm: float,
    names: Mapping[str, str],
    step_mm: float,
) -> Figure:
    why = _gap_words(sample, datum_mm, below_mm, names, step_mm)
    why += f": gap {text_mm(sample.gap_mm, step_mm)}"
    if cut_mm >= board.height_mm - SAME_MM:
        return figure(
            cut_mm, step_mm, f"{why}; the stock board is {text_mm(board.height_mm, step_mm)} and goes in uncut."
        )
    return figure(cut_mm, step_mm, f"{why}, less fit {text_mm(board.fit_mm, step_mm)}.")


def _wrong(job: Job, board: PlinthBoard, one: PlinthLength, piece: PlinthPiece) -> Iterable[Finding]:
    step_mm = job.rounding_mm
    place = f"plinth {piece.number} ({one.name})"
    least_mm = piece.least_gap.mm - board.fit_mm
    bow_mm = min(job.tolerances.plinth_bow_mm, board.fit_mm)
    if least_mm <= SAME_MM:
        yield Finding(
            "plinth.no_room",
            Severity.STOP,
            place,
            f"The gap is {piece.least_gap.text} at least; the board wants {text_mm(board.fit_mm, step_mm)} of play.",
            "Choose a higher datum, or look at the readings there again.",
            "a plinth's height is the gap less its fit",
            piece.least_gap,
            one.concerns,
        )
    if piece.open_above.mm > board.greatest_open_mm + SAME_MM:
        yield Finding(
            "plinth.open_above",
            Severity.WARN,
            place,
            f"{piece.open_above.text} stay open over it; at most {text_mm(board.greatest_open_mm, step_mm)} may.",
            "Take a higher board, or choose a lower datum.",
            "the gap that may stay open, as the job says",
            piece.open_above,
            one.concerns,
        )
    if piece.profile:
        yield Finding(
            "plinth.profile",
            Severity.NOTE,
            place,
            f"The floor leaves a straight line by more than {text_mm(bow_mm, step_mm)}: a "
            "straight cut would stand off it.",
            "Cut its lower edge to the profile, or scribe it in place.",
            "the job's bow tolerance, or the board's play where that is less",
            concerns=one.concerns,
        )


def _no_floor(one: PlinthLength) -> Finding:
    return Finding(
        "plinth.no_floor",
        Severity.WARN,
        one.name,
        "No finished floor is known at an end of this plinth, so it has no height yet.",
        "Read stations at both ends of the plinth line.",
        "a plinth's height is the gap over the finished floor",
        concerns=one.concerns,
    )
