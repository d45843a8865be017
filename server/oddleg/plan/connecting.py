"""Screws that join neighbours: through both sides where these lie on each other and nothing is in the way."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from oddleg.job import Carcass, Connector, HeightOf, Job, OpenUnit

from .boards import BoardHole
from .carcass_box import CarcassBox
from .figure import figure, text_mm
from .finding import Finding, Severity
from .fitted_out import Face, Hole, HoleFor, Panel, PanelKind
from .hardware import Hardware
from .heights import heights, underside_below_datum_mm
from .hole_distances import SAME_MM, from_cut_out_mm, web_mm
from .hole_words import in_order
from .meeting_boards import Met, boards_met
from .rod import Placed, placed_items
from .runner_lines import RunnerLine, runner_lines
from .sightings import listed

STEP_MM = 1.0
"""A screw gives way along its line in whole mm: finer than a driver finds its place, and it reads well on a tape."""


@dataclass(frozen=True)
class _Side:
    """One of the two sides: its u starts at `start_mm` in the left one's, its v at level `foot_mm` over the datum."""

    item: Carcass | OpenUnit
    box: CarcassBox
    panel: Panel
    start_mm: float
    foot_mm: float
    met: tuple[Met, ...]
    lines: tuple[RunnerLine, ...]

    @property
    def top_mm(self) -> float:
        return self.foot_mm + self.panel.height_mm

    def at(self, hole: Hole) -> Hole:
        return replace(hole, u_mm=hole.u_mm - self.start_mm, v_mm=hole.v_mm - self.foot_mm)

    def cleared_mm(self, hole: Hole) -> float:
        """The least distance from the hole's rim to anything on this side."""
        here = self.at(hole)
        return min(
            (
                *(web_mm(here, other) for other in self.panel.holes),
                *(board.from_rim_mm(here) for board in self.met),
                *(from_cut_out_mm(cut, here) for cut in self.panel.cut_outs),
                *(line.from_rim_mm(here) for line in self.lines),
            ),
            default=math.inf,
        )


def connected(
    job: Job,
    known: Hardware,
    placed_row: Sequence[Placed],
    panels_of: Mapping[str, tuple[Panel, ...]],
    boxes: Mapping[str, CarcassBox],
) -> tuple[dict[str, tuple[Panel, ...]], tuple[Finding, ...]]:
    """The panels with the holes that join neighbours of one run, and what could not be joined. Only carcasses whose
    sides touch are joined: a panel, post or filler between them is fixed in its own way."""
    drilled = dict(panels_of)
    findings: list[Finding] = []
    over_mm = _undersides_mm(job, placed_row)
    for stands in (True, False):
        row = sorted((one for one in placed_row if one.stands is stands), key=lambda one: one.left_mm)
        for one, other in pairwise(row):
            connector = _connector(known, one, other)
            if connector is None or abs(one.body_mm[1] - other.body_mm[0]) > SAME_MM:
                continue
            sides = _sides(known, one, other, drilled, boxes, over_mm)
            if sides is None:
                continue
            findings += _boards(job, connector, *sides)
            holes, stuck = _holes(job, connector, *sides)
            findings += stuck
            for side in sides:
                id = side.item.id
                new = [side.at(hole) for panel, hole in holes if panel == id]
                drilled[id] = tuple(
                    replace(board, holes=in_order((*board.holes, *new))) if board.id == side.panel.id else board
                    for board in drilled[id]
                )
    return drilled, tuple(findings)


def _connector(known: Hardware, left: Placed, right: Placed) -> Connector | None:
    """The left one's choice; where it has none, the right one's."""
    for placed in (left, right):
        fitted = placed.item.fitting_out if isinstance(placed.item, Carcass | OpenUnit) else None
        row = known.row(Connector, fitted.connector if fitted is not None else None)
        if row is not None:
            return row
    return None


def _undersides_mm(job: Job, placed_row: Sequence[Placed]) -> dict[str, float]:
    """Item id to the level of its underside over the datum. What hangs is asked of the room's heights."""
    found = {}
    runs = {one.run.id for one in placed_row if not one.stands}
    for room in job.rooms:
        if any(run.id in runs for run in room.runs):
            everything = [one for run in room.runs for one in placed_items(run)]
            for height in heights(job, room, everything):
                if height.of is HeightOf.WALL_UNIT_UNDERSIDE:
                    found[height.concerns[0]] = height.over_datum_mm
    for one in placed_row:
        below_mm = underside_below_datum_mm(job, one)
        if below_mm is not None:
            found[one.item.id] = -below_mm
    return found


def _sides(
    known: Hardware,
    left: Placed,
    right: Placed,
    panels_of: Mapping[str, tuple[Panel, ...]],
    boxes: Mapping[str, CarcassBox],
    over_mm: Mapping[str, float],
) -> tuple[_Side, _Side] | None:
    """The right side of the left one and the left side of the right one; None where one of them is not known."""
    found = []
    for placed, kind in ((left, PanelKind.RIGHT), (right, PanelKind.LEFT)):
        item = placed.item
        panels = panels_of.get(item.id, ())
        panel = next((one for one in panels if one.kind is kind), None)
        if panel is None or item.id not in over_mm or not isinstance(item, Carcass | OpenUnit):
            return None
        if left.front_mm is None or placed.front_mm is None:
            return None
        start_mm = left.front_mm - placed.front_mm
        met = boards_met(panel, Face.SHOWN, panels)
        lines = runner_lines(known, panel)
        found.append(_Side(item, boxes[item.id], panel, start_mm, over_mm[item.id] + panel.z_mm, met, lines))
    return found[0], found[1]


def _place(left: _Side, right: _Side) -> str:
    return f"{left.item.name} and {right.item.name}"


def _boards(job: Job, connector: Connector, left: _Side, right: _Side) -> list[Finding]:
    together_mm = left.panel.thickness_mm + right.panel.thickness_mm
    least_mm, greatest_mm = connector.least_boards_mm, connector.greatest_boards_mm
    if least_mm - SAME_MM <= together_mm <= greatest_mm + SAME_MM:
        return []
    step_mm = job.holes.shop_mm
    out_mm = together_mm - greatest_mm if together_mm > greatest_mm else least_mm - together_mm
    return [
        Finding(
            "hole.connector_boards",
            Severity.STOP,
            _place(left, right),
            f"Their two sides together are {text_mm(together_mm, step_mm)} thick; {connector.name} is for "
            f"{text_mm(least_mm, step_mm)} to {text_mm(greatest_mm, step_mm)}.",
            "Choose a connecting screw of another length.",
            "the connecting screw's chart",
            figure(out_mm, step_mm),
            (left.item.id, right.item.id),
        )
    ]


def _holes(job: Job, connector: Connector, left: _Side, right: _Side) -> tuple[list[BoardHole], list[Finding]]:
    """Up to four holes, each twice: (item id, hole in the left side's u and in levels over the datum)."""
    low_mm, high_mm = max(left.foot_mm, right.foot_mm), min(left.top_mm, right.top_mm)
    holes: list[BoardHole] = []
    stuck: list[str] = []
    for line, u_mm in _lines(connector, left, right):
        for end, towards in (("lower", 1), ("upper", -1)):
            asked_mm = low_mm + connector.bottom_mm if towards > 0 else high_mm - connector.top_mm
            words = f"{connector.name} to {{}}, {line} line, {end} one"
            hole = Hole("", u_mm, asked_mm, connector.hole_mm, None, HoleFor.CONNECTOR, "", words, row=connector.id)
            found = next(
                (
                    one
                    for one in _tries(job, hole, low_mm, high_mm, towards)
                    if min(left.cleared_mm(one), right.cleared_mm(one)) >= connector.clear_mm - SAME_MM
                ),
                None,
            )
            if found is None:
                stuck.append(f"the {end} one on the {line} line")
                continue
            for side, other in ((left, right), (right, left)):
                id = f"{HoleFor.CONNECTOR}-{other.item.id}-{line}-{end}"
                named = replace(found, id=id, of=other.item.id, words=words.format(other.item.name))
                holes.append((side.item.id, named))
    return holes, _stuck(job, connector, left, right, stuck)


def _lines(connector: Connector, left: _Side, right: _Side) -> Iterator[tuple[str, float]]:
    """u of the front and the back line where both sides lie on each other. The back line keeps in front of both backs:
    nobody can drive a screw behind them."""
    near_mm = max(left.start_mm, right.start_mm)
    far_mm = min(one.start_mm + one.panel.width_mm for one in (left, right))
    inside_mm = min(one.start_mm + one.box.inside_depth_mm for one in (left, right))
    yield "front", near_mm + connector.front_mm
    yield "back", min(far_mm - connector.back_mm, inside_mm - connector.hole_mm / 2 - connector.clear_mm)


def _tries(job: Job, hole: Hole, low_mm: float, high_mm: float, towards: int) -> Iterator[Hole]:
    """Where it is asked for, then further and further away by whole mm, first towards the middle; a lower screw stays
    in the lower half and an upper one in the upper."""
    rim_mm = hole.diameter_mm / 2 + job.holes.least_edge_mm
    middle_mm = (low_mm + high_mm) / 2
    least_mm, greatest_mm = (low_mm + rim_mm, middle_mm) if towards > 0 else (middle_mm, high_mm - rim_mm)
    for steps in range(max(0, math.ceil((high_mm - low_mm) / STEP_MM)) + 1):
        for way in (towards, -towards) if steps else (towards,):
            v_mm = hole.v_mm + way * steps * STEP_MM
            if least_mm - SAME_MM <= v_mm <= greatest_mm + SAME_MM:
                yield replace(hole, v_mm=v_mm)


def _stuck(job: Job, connector: Connector, left: _Side, right: _Side, stuck: Sequence[str]) -> list[Finding]:
    if not stuck:
        return []
    return [
        Finding(
            "hole.connector_no_place",
            Severity.WARN,
            _place(left, right),
            f"{connector.name}: {listed(stuck)} has no place that keeps "
            f"{text_mm(connector.clear_mm, job.holes.shop_mm)} from everything on both sides.",
            "Join them there in another way, or move what is in the way.",
            "clear distance by the connecting screw's chart",
            concerns=(left.item.id, right.item.id),
        )
    ]
