"""Setting-out sticks: lines of holes as distances along a straight stick clamped to a side's lower and front edge.

Two kinds are worth making (common practice: a stick pays where the same marks are struck again and again). A runner's
pattern of screws, from the front edge, serves every runner line of that pattern on both sides. A stick up the side
serves a line of holes that lie at one distance behind the front edge; the line through the runners' first screws among
them gives the heights at which the runner sticks are laid. What lies on no such line is marked from the table.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from oddleg.job import Job

from .carcass_box import CarcassBox
from .figure import text_mm
from .fitted_out import Hole, HoleFor, Panel, PanelKind, Stick, StickMark
from .panel_views import numbered_holes
from .sightings import listed

# A stick has two marks or more and is struck from so often or more, counted over its lines and boards.
LEAST_MARKS, LEAST_HOLES = 2, 4
SAME_MM = 0.005
ALONG_RUNNERS = (HoleFor.RUNNER, HoleFor.PULL_OUT)
KIND_WORDS = {
    HoleFor.RUNNER: "runner",
    HoleFor.PULL_OUT: "pull-out",
    HoleFor.PLATE: "hinge plate",
    HoleFor.PIN: "pin",
    HoleFor.BRACKET: "bracket",
    HoleFor.CONNECTOR: "joining screw",
}


@dataclass(frozen=True)
class _Mark:
    """A hole of a board, as seen along one axis: its distance along the stick and that of its line from the edge."""

    panel: Panel
    hole: Hole
    along_mm: float
    offset_mm: float


def sticks(job: Job, box: CarcassBox, panels: Sequence[Panel]) -> tuple[Stick, ...]:
    """For both sides, then for each divider: runner sticks from the front edge, then sticks up from the lower edge. One
    that a divider shares with the sides is there once."""
    boards = [[one for one in panels if one.kind in (PanelKind.LEFT, PanelKind.RIGHT)]]
    boards += [[one] for one in panels if one.kind is PanelKind.DIVIDER]
    found: list[Stick] = []
    for group in boards:
        for one in _of_boards(group, job.holes.shop_mm):
            twin = next((each for each in found if _marked(each) == _marked(one) and _lines(one) <= _lines(each)), None)
            if twin is None:
                found.append(one)
            else:
                panels_of = (*twin.panels, *one.panels)
                name = f"{twin.name}, {listed([panel.name.lower() for panel in group])}"
                found[found.index(twin)] = _with(twin, panels_of, name)
    return tuple(replace(one, id=f"{box.item.id}-stick-{number}") for number, one in enumerate(found, 1))


def _of_boards(boards: Sequence[Panel], step_mm: float) -> list[Stick]:
    if not boards:
        return []
    whose = "both sides" if len(boards) > 1 else boards[0].name.lower()
    turned = " Turned over it serves the other side." if len(boards) > 1 else ""
    made: list[Stick] = []
    taken: set[str] = set()
    level = [
        _Mark(panel, hole, hole.u_mm, hole.v_mm)
        for panel in boards
        for hole in panel.holes
        if hole.hole_for in KIND_WORDS
    ]
    patterns: dict[tuple[float, ...], list[list[_Mark]]] = {}
    for line in _in_lines(one for one in level if one.hole.hole_for in ALONG_RUNNERS):
        patterns.setdefault(tuple(round(at, 2) for at in _alongs(line)), []).append(line)
    for lines in patterns.values():
        if len(_alongs(lines[0])) < LEAST_MARKS or sum(map(len, lines)) < LEAST_HOLES:
            continue
        offsets = sorted(line[0].offset_mm for line in lines)
        words = (
            "Set its end flush with the front edge and lay it along each line: "
            f"{_list(offsets, step_mm)} up from the lower edge.{turned}"
        )
        marks = _marks([one for line in lines for one in line], boards)
        made.append(
            Stick(
                "", f"Runner stick, {whose}", tuple(one.id for one in boards),
                "lower edge", "front edge", offsets[0], max(one.width_mm for one in boards), marks, words,
                tuple(offsets[1:]),
            )
        )  # fmt: skip
        # The first screw of each line stays for the stick that gives the lines' heights.
        taken |= {one.hole.id for line in lines for one in line if one.along_mm > _alongs(line)[0] + SAME_MM}
    upright = [replace(one, along_mm=one.offset_mm, offset_mm=one.along_mm) for one in level]
    for line in _in_lines(upright):
        left = [one for one in line if one.hole.id not in taken]
        if len(_alongs(left)) < LEAST_MARKS or len(left) < LEAST_HOLES:
            continue
        offset_mm = line[0].offset_mm
        words = (
            f"Set its foot on the lower edge and hold it {text_mm(offset_mm, step_mm)} behind the front edge and level "
            f"with it.{turned}"
        )
        made.append(
            Stick(
                "",
                f"Stick {text_mm(offset_mm, step_mm)} behind the front edge, {whose}",
                tuple(one.id for one in boards), "front edge", "lower edge", offset_mm,
                max(one.height_mm for one in boards), _marks(line, boards), words,
            )
        )  # fmt: skip
    return made


def _in_lines(marks: Iterable[_Mark]) -> list[list[_Mark]]:
    """Marks at one distance from the edge together, the nearest line first."""
    lines: list[list[_Mark]] = []
    for one in sorted(marks, key=lambda each: (each.offset_mm, each.along_mm, each.panel.id, each.hole.id)):
        if lines and one.offset_mm - lines[-1][0].offset_mm <= SAME_MM:
            lines[-1].append(one)
        else:
            lines.append([one])
    return lines


def _alongs(marks: Iterable[_Mark]) -> list[float]:
    found: list[float] = []
    for along_mm in sorted(one.along_mm for one in marks):
        if not found or along_mm - found[-1] > SAME_MM:
            found.append(along_mm)
    return found


def _marks(marks: Sequence[_Mark], boards: Sequence[Panel]) -> tuple[StickMark, ...]:
    """One for each place along the stick: what it is for, with the holes' numbers in the boards' tables; and on which
    board alone, where it is not on all."""
    numbers = {(board.id, one.hole.id): one.number for board in boards for one in numbered_holes(board)}
    found = []
    for along_mm in _alongs(marks):
        here = [one for one in marks if abs(one.along_mm - along_mm) <= SAME_MM]
        kinds = dict.fromkeys(KIND_WORDS[one.hole.hole_for] for one in here)
        of = {
            board.name: sorted(numbers[board.id, one.hole.id] for one in here if one.panel is board) for board in boards
        }
        told = {name: listed([str(number) for number in one]) for name, one in of.items() if one}
        words = ", ".join(kinds)
        if len(set(told.values())) == 1 and len(told) == len(boards):
            words += f" {next(iter(told.values()))}"
        else:
            words += " " + "; ".join(f"{name.lower()} {one}" for name, one in told.items())
            words += " only" if len(told) < len(boards) else ""
        found.append(StickMark(along_mm, here[0].hole.id, words))
    return tuple(found)


def _list(values_mm: Sequence[float], step_mm: float) -> str:
    return listed([text_mm(one, step_mm) for one in values_mm])


def _marked(one: Stick) -> tuple[str, tuple[float, ...]]:
    return one.foot_on, tuple(round(mark.along_mm, 2) for mark in one.marks)


def _lines(one: Stick) -> set[float]:
    return {round(each, 2) for each in (one.offset_mm, *one.also_mm)}


def _with(one: Stick, panels: tuple[str, ...], name: str) -> Stick:
    return replace(one, name=name, panels=panels)
