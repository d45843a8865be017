"""The boards of each drawer: base and back from the chart and the width that is there, and the rebates that bring a
board thicker than the chart's back to it. All mm, nothing rounded.

Along the grain lies the side that runs across the drawer, for base and back alike.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from oddleg.job import FittingOut, Job, RebateFace, Runner

from .carcass_box import CarcassBox
from .figure import figure, text_mm
from .finding import Finding, Severity
from .fitted_out import DrawerBox, DrawerPart, PartIs, Rebate
from .hardware import Hardware
from .sightings import listed

if TYPE_CHECKING:
    from .front_stacks import FilledFronts

NOTHING_MM = 1e-6


def drawer_parts(
    job: Job, box: CarcassBox, known: Hardware, filled: FilledFronts
) -> tuple[tuple[DrawerPart, ...], tuple[Finding, ...]]:
    """Base, back and spacers of every drawer of one carcass whose runner's chart is known, and what is wrong with them.

    Base: inside width less `base_less_mm`, by the runner's length less `base_shorter_mm`. Back: inside width less
    `back_less_mm`, by `back_height_mm`. The inside width is that between the faces that the runners are fixed to, so
    spacers come off it. A board no thicker than the chart's has no rebate; one that is thinner is told.
    """
    fitted = box.item.fitting_out or FittingOut()
    board_mm = box.board_mm if fitted.drawer_board_mm is None else fitted.drawer_board_mm
    parts: list[DrawerPart] = []
    findings: list[Finding] = []
    for drawer in filled.drawers:
        runner = known.row(Runner, drawer.runner)
        if runner is None:
            continue
        inside_mm = drawer.right_mm - drawer.left_mm
        made = [
            _base(job, drawer, runner, inside_mm, board_mm),
            _back(job, drawer, runner, inside_mm, board_mm),
        ]
        if drawer.spacer_mm > 0:
            made.append(_spacers(drawer, runner, fitted))
        nothing = [one for one in made if min(one.length_mm, one.width_mm) <= NOTHING_MM]
        if nothing:
            findings.append(_nothing_left(job, box, drawer, runner, inside_mm, nothing))
        parts += [one for one in made if one not in nothing]
        findings += _board_findings(job, box, runner, board_mm)
    return tuple(parts), tuple(_joined(findings))


def _base(job: Job, drawer: DrawerBox, runner: Runner, inside_mm: float, board_mm: float) -> DrawerPart:
    return DrawerPart(
        drawer=drawer.id,
        part=PartIs.BASE,
        length_mm=inside_mm - runner.base_less_mm,
        width_mm=runner.length_mm - runner.base_shorter_mm,
        thickness_mm=board_mm,
        count=1,
        rebate=_rebate(job, runner, board_mm, runner.base_lip_mm, runner.base_edges, runner.base_face),
        words=(
            f"across: inside {_shown(job, inside_mm)} less {_shown(job, runner.base_less_mm)}; front to back: runner "
            f"{_shown(job, runner.length_mm)} less {_shown(job, runner.base_shorter_mm)}"
        ),
    )


def _back(job: Job, drawer: DrawerBox, runner: Runner, inside_mm: float, board_mm: float) -> DrawerPart:
    return DrawerPart(
        drawer=drawer.id,
        part=PartIs.BACK,
        length_mm=inside_mm - runner.back_less_mm,
        width_mm=runner.back_height_mm,
        thickness_mm=board_mm,
        count=1,
        rebate=_rebate(job, runner, board_mm, runner.back_lip_mm, runner.back_edges, None),
        words=(
            f"across: inside {_shown(job, inside_mm)} less {_shown(job, runner.back_less_mm)}; height "
            f"{_shown(job, runner.back_height_mm)} by the chart"
        ),
    )


def _spacers(drawer: DrawerBox, runner: Runner, fitted: FittingOut) -> DrawerPart:
    return DrawerPart(
        drawer=drawer.id,
        part=PartIs.SPACER,
        length_mm=runner.length_mm,
        width_mm=fitted.spacer_strip_mm,
        thickness_mm=drawer.spacer_mm,
        count=2,
        rebate=None,
        words="one under each runner, the line of screws along its middle",
    )


def _rebate(
    job: Job, runner: Runner, board_mm: float, lip_mm: float, edges: tuple[str, ...], face: RebateFace | None
) -> Rebate | None:
    """Depth = board - chart's board. None where the board is no thicker, or the chart asks for no edge."""
    depth_mm = board_mm - runner.board_mm
    if depth_mm <= NOTHING_MM or not edges or lip_mm <= 0:
        return None
    where = {
        RebateFace.BELOW: "on its underside, so that it hangs lower than its lip",
        RebateFace.ABOVE: "on its upper face, which takes as much off the inside",
        None: "on its rear face, so that the inside stays flush",
    }[face]
    words = (
        f"rebate {_shown(job, depth_mm)} deep, {_shown(job, lip_mm)} wide, along {listed(_sides(edges))}, {where}: "
        f"{_shown(job, board_mm)} board in a chart made for {_shown(job, runner.board_mm)}"
    )
    return Rebate(depth_mm, lip_mm, edges, face, words)


def _sides(edges: tuple[str, ...]) -> list[str]:
    return [f"{edge} edge" for edge in edges]


def _board_findings(job: Job, box: CarcassBox, runner: Runner, board_mm: float) -> list[Finding]:
    over_mm = board_mm - runner.board_mm
    place = box.item.name
    concerns = (box.item.id,)
    source = f"chart row {runner.name}: {runner.source}"
    if over_mm < -NOTHING_MM:
        return [
            Finding(
                "drawer.thin_board",
                Severity.WARN,
                place,
                f"The drawers' board is {_shown(job, board_mm)}, thinner than the {_shown(job, runner.board_mm)} that "
                f"{runner.name} is made for, so it sits loose.",
                "Use the board that the chart is made for, or take a runner that is made for this one.",
                source,
                figure(-over_mm, job.holes.shop_mm),
                concerns,
            )
        ]
    if over_mm <= NOTHING_MM:
        return []
    found = []
    lips = (("base", runner.base_lip_mm, runner.base_edges), ("back", runner.back_lip_mm, runner.back_edges))
    without = [name for name, lip_mm, edges in lips if lip_mm <= 0 or not edges]
    if without:
        found.append(
            Finding(
                "drawer.no_rebate",
                Severity.WARN,
                place,
                f"The board is {_shown(job, over_mm)} thicker than {runner.name} is made for, and its chart says "
                f"nothing of a rebate on the {' and the '.join(without)}.",
                "Read the rebate off the hardware's own sheet and put it into the chart, or use the chart's board.",
                source,
                figure(over_mm, job.holes.shop_mm),
                concerns,
            )
        )
    if "base" not in without and runner.base_face is RebateFace.BELOW and over_mm > runner.base_clear_mm + NOTHING_MM:
        found.append(
            Finding(
                "drawer.base_hangs_low",
                Severity.STOP,
                place,
                f"A base of {_shown(job, board_mm)} hangs {_shown(job, over_mm)} under its lip; {runner.name} leaves "
                f"{_shown(job, runner.base_clear_mm)} free there.",
                "Rebate the upper face instead, if the chart allows it, or use a thinner board.",
                source,
                figure(over_mm - runner.base_clear_mm, job.holes.shop_mm),
                concerns,
            )
        )
    return found


def _nothing_left(
    job: Job, box: CarcassBox, drawer: DrawerBox, runner: Runner, inside_mm: float, parts: list[DrawerPart]
) -> Finding:
    names = " and ".join(PART_WORDS[one.part] for one in parts)
    least_mm = max(runner.base_less_mm, runner.back_less_mm)
    return Finding(
        "drawer.no_room",
        Severity.STOP,
        f"{box.item.name}, {drawer.name}",
        f"Nothing is left for its {names}: the inside is {_shown(job, inside_mm)} wide, and the chart of {runner.name} "
        f"takes {_shown(job, least_mm)} off it.",
        "Make the compartment wider, the spacers thinner, or take another runner.",
        f"chart row {runner.name}: {runner.source}",
        figure(least_mm - inside_mm, job.holes.shop_mm),
        (box.item.id,),
    )


def _joined(findings: list[Finding]) -> list[Finding]:
    """One finding for drawers of one carcass that are wrong in the same way."""
    return list(dict.fromkeys(findings))


def _shown(job: Job, value_mm: float) -> str:
    return text_mm(value_mm, job.holes.shop_mm)


PART_WORDS = {PartIs.BASE: "base", PartIs.BACK: "back", PartIs.SPACER: "spacers"}
