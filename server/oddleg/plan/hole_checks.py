"""What is wrong with the holes of a carcass's panels: against each other, edges, boards, cut-outs and drawers."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from oddleg.job import HoleLimits, Job

from .boards import flanks, on_pins
from .carcass_box import CarcassBox
from .figure import text_mm
from .finding import Finding, Severity
from .fitted_out import DrawerBox, Face, Hole, HoleFor, Panel, PanelKind
from .hardware import Hardware
from .hole_distances import SAME_MM, from_cut_out_mm, meet_inside, web_mm
from .hole_faults import Fault, told
from .meeting_boards import boards_met
from .runner_lines import runner_lines
from .shelf_checks import bracket_findings, shelf_findings

if TYPE_CHECKING:
    from .front_stacks import FilledFronts

LIMITS = "the job's limits for holes"


def hole_findings(
    job: Job, box: CarcassBox, known: Hardware, filled: FilledFronts, panels: Sequence[Panel]
) -> tuple[Finding, ...]:
    """Of one carcass, its connecting screws included where `panels` has them. Holes that break one rule in one way are
    told together, so that one wrong figure in a chart is one finding."""
    limits, pinned = job.holes, on_pins(box, known)
    stay = [one for one in panels if one.id not in pinned]
    faults: list[Fault] = []
    for panel in panels:
        if panel.holes:
            faults += _edges(panel, limits)
            faults += _depths(panel, limits)
            faults += _webs(panel, limits)
            faults += _cut_outs(panel, limits)
            faults += _under_boards(panel, stay)
            faults += _runners(known, panel, panels)
            faults += _through_drawers(box, panel, filled.drawers)
    return (*told(job, box, faults), *shelf_findings(job, box, known, panels), *bracket_findings(job, box, known))


def _edges(panel: Panel, limits: HoleLimits) -> Iterator[Fault]:
    for hole in panel.holes:
        centre_mm = min(hole.u_mm, panel.width_mm - hole.u_mm, hole.v_mm, panel.height_mm - hole.v_mm)
        rim_mm = centre_mm - hole.diameter_mm / 2
        if rim_mm < -SAME_MM:
            yield Fault(
                "hole.outside",
                Severity.STOP,
                panel,
                (hole,),
                "not on the board with the whole of its rim",
                "Check the chart's figures and the size of the carcass; drill nothing before that is right.",
                "a hole lies on its board",
                -rim_mm,
            )
        elif rim_mm < limits.least_edge_mm - SAME_MM:
            yield Fault(
                "hole.near_edge",
                Severity.WARN,
                panel,
                (hole,),
                f"less than {text_mm(limits.least_edge_mm, limits.shop_mm)} from rim to the board's edge",
                "Move it, or accept that the edge may break out.",
                LIMITS,
                limits.least_edge_mm - rim_mm,
            )


def _depths(panel: Panel, limits: HoleLimits) -> Iterator[Fault]:
    for hole in panel.holes:
        if hole.depth_mm is None:
            continue
        left_mm = panel.thickness_mm - hole.depth_mm
        if left_mm >= limits.least_skin_mm - SAME_MM:
            continue
        out = left_mm <= SAME_MM
        board = text_mm(panel.thickness_mm, limits.shop_mm)
        deep = text_mm(hole.depth_mm, limits.shop_mm)
        yield Fault(
            "hole.too_deep",
            Severity.STOP if out else Severity.WARN,
            panel,
            (hole,),
            f"{deep} deep in a board of {board}" + (": it comes out on the other face" if out else ""),
            "Use a shorter screw and a shallower hole, or a thicker board.",
            f"at least {text_mm(limits.least_skin_mm, limits.shop_mm)} of the board stays behind a hole",
            limits.least_skin_mm - left_mm,
        )


def _webs(panel: Panel, limits: HoleLimits) -> Iterator[Fault]:
    """Pairs that come too near. Holes are sorted into squares so wide that only neighbouring ones can meet, which keeps
    the work about as long as the list of holes."""
    wide_mm = max(one.diameter_mm for one in panel.holes) + limits.least_web_mm
    squares: dict[tuple[int, int], list[Hole]] = {}
    for hole in panel.holes:
        across, up = math.floor(hole.u_mm / wide_mm), math.floor(hole.v_mm / wide_mm)
        for square in ((across + i, up + j) for i in (-1, 0, 1) for j in (-1, 0, 1)):
            for other in squares.get(square, ()):
                fault = _web(panel, other, hole, limits)
                if fault is not None:
                    yield fault
        squares.setdefault((across, up), []).append(hole)


def _web(panel: Panel, one: Hole, other: Hole, limits: HoleLimits) -> Fault | None:
    left_mm = web_mm(one, other)
    if left_mm >= limits.least_web_mm - SAME_MM or not meet_inside(panel, one, other, limits):
        return None
    overlap = left_mm < -SAME_MM
    if not overlap and (one.of, one.row) == (other.of, other.row):
        # How near the holes of one piece of hardware are to each other is its chart's affair.
        return None
    back_to_back = one.face is not other.face and one.depth_mm is not None and other.depth_mm is not None
    if back_to_back:
        says = f"back to back from both faces of a board of {text_mm(panel.thickness_mm, limits.shop_mm)}"
        deep_mm = (one.depth_mm or 0.0) + (other.depth_mm or 0.0)
        stop = overlap and deep_mm >= panel.thickness_mm - SAME_MM
        return Fault(
            "hole.back_to_back",
            Severity.STOP if stop else Severity.WARN,
            panel,
            (one, other),
            f"{says}, {'where they meet' if stop else 'with too little left between them'}",
            "Move one of them, or use shorter screws and shallower holes on both faces.",
            f"at least {text_mm(limits.least_skin_mm, limits.shop_mm)} of the board stays between two holes",
            deep_mm + limits.least_skin_mm - panel.thickness_mm,
        )
    if overlap:
        return Fault(
            "hole.overlap",
            Severity.STOP,
            panel,
            (one, other),
            "one runs into the other",
            "Move one of them: nothing holds in a hole that is open to its side.",
            "two holes never share their wood",
            -left_mm,
        )
    return Fault(
        "hole.web",
        Severity.WARN,
        panel,
        (one, other),
        f"less than {text_mm(limits.least_web_mm, limits.shop_mm)} from rim to rim",
        "Move one of them, or accept that the wood between them may break.",
        LIMITS,
        limits.least_web_mm - left_mm,
    )


def _cut_outs(panel: Panel, limits: HoleLimits) -> Iterator[Fault]:
    for hole in panel.holes:
        for cut in panel.cut_outs:
            rim_mm = from_cut_out_mm(cut, hole)
            if rim_mm < limits.least_edge_mm - SAME_MM:
                inside = rim_mm < -SAME_MM
                near = f"less than {text_mm(limits.least_edge_mm, limits.shop_mm)} from"
                yield Fault(
                    "hole.in_cut_out" if inside else "hole.near_cut_out",
                    Severity.STOP if inside else Severity.WARN,
                    panel,
                    (hole,),
                    f"{'in' if inside else near} the cut-out for {cut.words}",
                    "Move what is screwed on there, or the cut-out.",
                    "no wood is left in a cut-out" if inside else LIMITS,
                    limits.least_edge_mm - rim_mm,
                    cut.id,
                )


def _under_boards(panel: Panel, stay: Sequence[Panel]) -> Iterator[Fault]:
    """Holes under the end of a fixed board. A hanging bracket may be meant to reach through the back, which is then
    notched round it, so a bracket's hole there is asked about."""
    for face in Face:
        holes = [one for one in panel.holes if one.face is face or one.depth_mm is None]
        for met in boards_met(panel, face, stay) if holes else ():
            for hole in holes:
                rim_mm = met.from_rim_mm(hole)
                if rim_mm < -SAME_MM:
                    in_back = hole.hole_for is HoleFor.BRACKET and met.board.kind is PanelKind.BACK
                    yield Fault(
                        "hole.bracket_in_back" if in_back else "hole.under_board",
                        Severity.WARN if in_back else Severity.STOP,
                        panel,
                        (hole,),
                        f"where the {met.board.name} meets the board",
                        "Set the back in or out so that the hole clears it, or notch the back round the bracket where "
                        "the bracket's own sheet says so."
                        if in_back
                        else f"Move what is screwed on there, or the {met.board.name}.",
                        "a hole that another board covers cannot be used",
                        -rim_mm,
                        met.board.id,
                    )


def _runners(known: Hardware, panel: Panel, panels: Sequence[Panel]) -> Iterator[Fault]:
    """Runners against shelves, movable ones too where they lie now, and against what comes through the side."""
    lines = runner_lines(known, panel)
    if not lines:
        return
    shelves = [one for one in panels if one.kind is PanelKind.SHELF]
    met_on = {face: boards_met(panel, face, shelves) for face in Face}
    passages = [one for one in panel.holes if one.hole_for is HoleFor.PASSAGE]
    first = {(one.of, one.face): one for one in reversed(panel.holes) if one.hole_for is HoleFor.RUNNER}
    for line in lines:
        hole = first[line.of, line.face]
        for met in met_on[line.face]:
            over_mm = min(line.v_mm + line.half_mm, met.high_mm) - max(line.v_mm - line.half_mm, met.low_mm)
            if over_mm > SAME_MM and min(line.to_u_mm, met.right_mm) - max(line.from_u_mm, met.left_mm) > SAME_MM:
                yield Fault(
                    "hole.runner_meets_shelf",
                    Severity.STOP,
                    panel,
                    (hole,),
                    f"its runner lies where the {met.board.name} is",
                    "Move the shelf or the drawer.",
                    "a runner lies flat on the side over its whole length",
                    over_mm,
                    met.board.id,
                )
        for passage in passages:
            rim_mm = line.from_rim_mm(passage)
            if rim_mm < -SAME_MM:
                yield Fault(
                    "hole.passage_behind_runner",
                    Severity.STOP,
                    panel,
                    (passage, hole),
                    "the first comes through the side where the other's runner lies",
                    "Move the passage or the drawer.",
                    "a runner lies flat on the side over its whole length",
                    -rim_mm,
                )


def _through_drawers(box: CarcassBox, panel: Panel, drawers: Sequence[DrawerBox]) -> Iterator[Fault]:
    passages = [one for one in panel.holes if one.hole_for is HoleFor.PASSAGE]
    for drawer in drawers if passages else ():
        if panel.id not in [id for id, _ in flanks(box, drawer.compartment)]:
            continue
        for hole in passages:
            radius_mm = hole.diameter_mm / 2
            z_mm = hole.v_mm + panel.z_mm
            deep_mm = drawer.rear_u_mm - (hole.u_mm - radius_mm)
            high_mm = min(z_mm + radius_mm - drawer.low_mm, drawer.high_mm - z_mm + radius_mm)
            if min(deep_mm, high_mm) > SAME_MM:
                yield Fault(
                    "hole.passage_in_drawer",
                    Severity.STOP,
                    panel,
                    (hole,),
                    f"it comes out in the space of {drawer.name}",
                    "Move the passage behind or below the drawer, or take a shorter runner.",
                    "what comes through the side stays where it is when the drawer comes and goes",
                    min(deep_mm, high_mm),
                    drawer.id,
                )
