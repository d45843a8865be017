"""What stands out of a wall, hangs below a top or goes through sides, against what a carcass is fitted out with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Carcass, ComesFrom, FrontIs, Job, ServiceKind

from .figure import figure, text_mm
from .finding import Finding, Severity
from .fitted_out import DrawerBox, FittedOut, Panel, PanelKind
from .heights import SAME_MM
from .panel_axes import AXES
from .room_services import BackCut, Inside, RoomServices

AT_THE_BACK = (PanelKind.SHELF, PanelKind.DIVIDER, PanelKind.BACK_RAIL)
# A board that ends so near the back leaves no way past it (ours).
NEAR_MM = 10.0

Room3 = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]
"""Spans along x, u and z of a carcass, mm."""


def service_clashes(job: Job, services: RoomServices, units: Sequence[FittedOut]) -> tuple[Finding, ...]:
    """Between the services of a room and the boards, drawers and built-in appliances of its fitted-out units."""
    found: list[Finding] = []
    for unit in units:
        here = [one for one in services.inside if one.item == unit.item]
        for one in here:
            found += _with_boards(job, unit, one)
            found += _with_drawers(job, unit, one)
        for cut in services.cuts:
            if cut.item == unit.item:
                found += _before_cut(unit, cut)
                found += _behind_hanging(unit, cut, here)
        found += _behind_appliance(unit, services)
        found += _behind_fixed(unit, services)
    return tuple(found)


def panel_room(panel: Panel) -> Room3:
    """The room that a panel takes up in its carcass."""
    axes = AXES[panel.kind]
    spans = []
    for origin_mm, along_u, along_v, looks in zip(
        (panel.x_mm, panel.u_mm, panel.z_mm), axes.along_u, axes.along_v, axes.looks, strict=True
    ):
        to_mm = origin_mm + along_u * panel.width_mm + along_v * panel.height_mm - looks * panel.thickness_mm
        spans.append((min(origin_mm, to_mm), max(origin_mm, to_mm)))
    return spans[0], spans[1], spans[2]


def drawer_room(drawer: DrawerBox) -> Room3:
    return (drawer.left_mm, drawer.right_mm), (drawer.front_u_mm, drawer.rear_u_mm), (drawer.low_mm, drawer.high_mm)


def _room(one: Inside) -> Room3:
    return (one.left_mm, one.right_mm), (one.from_u_mm, one.to_u_mm), (one.low_mm, one.high_mm)


def _common(one: Room3, other: Room3) -> tuple[float, float, float] | None:
    """What two rooms have in common along x, u and z; None where they are clear of each other."""
    shared = tuple(min(a[1], b[1]) - max(a[0], b[0]) for a, b in zip(one, other, strict=True))
    return (shared[0], shared[1], shared[2]) if min(shared) > SAME_MM else None


def _with_boards(job: Job, unit: FittedOut, one: Inside) -> Iterator[Finding]:
    step_mm = job.rounding_mm
    for panel in unit.panels:
        if panel.kind in (PanelKind.BACK, PanelKind.FRONT) or _comes_up_through(one, panel):
            continue
        common = _common(_room(one), panel_room(panel))
        if common is None:
            continue
        by_mm = common[2] if one.hangs else common[1]
        if one.hangs:
            wrong = f"{one.name} hangs {text_mm(by_mm, step_mm)} into the {panel.name}, its air gap counted."
            cure = f"Cut the {panel.name} out for it, lower it, or turn it upright, as the sheet allows."
        elif one.service is None:
            wrong = f"The passage {one.name} meets the {panel.name}."
            cure = f"Move the passage, or the {panel.name}."
        else:
            wrong = f"{one.name} stands {text_mm(by_mm, step_mm)} out into the {panel.name}."
            cure = f"Notch the {panel.name} there, set it back, or have the service moved."
        yield Finding(
            "service.hangs_into" if one.hangs else "service.board",
            Severity.WARN,
            f"{panel.name} of {unit.name}",
            wrong,
            cure,
            "two things in one place",
            figure(by_mm, step_mm, "What both have in common."),
            (unit.item, one.of),
        )


def _comes_up_through(one: Inside, panel: Panel) -> bool:
    """`service.through_bottom` tells of it, with the place of its hole."""
    from_floor = one.service is not None and one.service.comes_from is ComesFrom.FLOOR
    return from_floor and panel.kind is PanelKind.BOTTOM


def _with_drawers(job: Job, unit: FittedOut, one: Inside) -> Iterator[Finding]:
    step_mm = job.rounding_mm
    for drawer in unit.drawers:
        common = _common(_room(one), drawer_room(drawer))
        if common is None:
            continue
        by_mm = common[2] if one.hangs else common[1]
        way = "below the top into" if one.hangs else "into"
        yield Finding(
            "service.drawer",
            Severity.STOP,
            f"{drawer.name}, {unit.name}",
            f"{one.name} comes {text_mm(by_mm, step_mm)} {way} the room of {drawer.name} with its runners.",
            "Take a lower drawer or a shorter runner, cut the drawer round it as its maker allows, or have it moved.",
            "two things in one place",
            figure(by_mm, step_mm, "What both have in common."),
            (unit.item, one.of, drawer.id),
        )


def _before_cut(unit: FittedOut, cut: BackCut) -> Iterator[Finding]:
    """Boards that end at the back right before a cut-out, and drawers that stand before it."""
    box = unit.box
    opening = (
        (box.back_left_mm + cut.cut.left_mm, box.back_left_mm + cut.cut.left_mm + cut.cut.width_mm),
        (box.back_foot_mm + cut.cut.foot_mm, box.back_foot_mm + cut.cut.foot_mm + cut.cut.height_mm),
    )
    for panel in unit.panels:
        x, u, z = panel_room(panel)
        if panel.kind not in AT_THE_BACK or u[1] < box.inside_depth_mm - NEAR_MM:
            continue
        if _meet(x, opening[0]) and _meet(z, opening[1]):
            yield Finding(
                "service.behind_board",
                Severity.WARN,
                f"{panel.name} of {unit.name}",
                f"The {panel.name} ends at the back right before the cut-out {cut.cut.words}.",
                f"Move the {panel.name} clear of it or notch it there, so that the opening stays free.",
                "a cut-out is reached from inside",
                concerns=(unit.item, *cut.cut.services),
            )
    behind = [
        drawer.name
        for drawer in unit.drawers
        if _meet((drawer.left_mm, drawer.right_mm), opening[0]) and _meet((drawer.low_mm, drawer.high_mm), opening[1])
    ]
    if behind:
        yield Finding(
            "service.behind_drawer",
            Severity.NOTE,
            f"back of {unit.name}",
            f"The cut-out {cut.cut.words} lies behind {', '.join(dict.fromkeys(behind))}: it is reached only with the "
            "drawer taken out, and a plug or valve there stands out further.",
            "Keep what is used or might have to be shut off out of there.",
            "a cut-out is reached from inside",
            concerns=(unit.item, *cut.cut.services),
        )


def _behind_hanging(unit: FittedOut, cut: BackCut, inside: Sequence[Inside]) -> Iterator[Finding]:
    """A cut-out that lies behind what hangs below the top."""
    left_mm = unit.box.back_left_mm + cut.cut.left_mm
    low_mm = unit.box.back_foot_mm + cut.cut.foot_mm
    for one in inside:
        if not one.hangs:
            continue
        across = _meet((one.left_mm, one.right_mm), (left_mm, left_mm + cut.cut.width_mm))
        if across and _meet((one.low_mm, one.high_mm), (low_mm, low_mm + cut.cut.height_mm)):
            yield Finding(
                "service.behind_hanging",
                Severity.WARN,
                f"back of {unit.name}",
                f"The cut-out {cut.cut.words} lies behind the {one.name}, which hangs there below the top.",
                "Have the service moved lower or to the side, or look on the sheet whether a hand still gets there.",
                "what must stay within reach is not built in",
                concerns=(unit.item, one.of, *cut.cut.services),
            )


def _meet(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return min(one[1], other[1]) - max(one[0], other[0]) > SAME_MM


def _behind_fixed(unit: FittedOut, services: RoomServices) -> Iterator[Finding]:
    """Cut-outs in a compartment none of whose fronts opens."""
    within = {one.service.id for one in services.landings if one.service.reach}
    for cut in services.cuts:
        if cut.item != unit.item or not within & set(cut.cut.services):
            continue
        left_mm = unit.box.back_left_mm + cut.cut.left_mm
        spaces = [
            one.compartment
            for one in unit.box.spaces
            if _meet((one.left_mm, one.right_mm), (left_mm, left_mm + cut.cut.width_mm))
        ]
        fronts = [one for one in unit.fronts if one.compartment in {each.id for each in spaces}]
        if fronts and all(one.front is FrontIs.FIXED for one in fronts):
            yield Finding(
                "service.behind_fixed",
                Severity.WARN,
                f"back of {unit.name}",
                f"The cut-out {cut.cut.words} lies behind fronts that do not open, and must stay within reach.",
                "Have the service moved to where a door opens, or make the front so that it comes off.",
                "what must stay within reach is not built in",
                concerns=(unit.item, *cut.cut.services),
            )


def _behind_appliance(unit: FittedOut, services: RoomServices) -> Iterator[Finding]:
    """Cut-outs behind a niche without a front, which a built-in appliance fills."""
    niches = [one for one in unit.fronts if one.front is FrontIs.SPACE]
    item = unit.box.item
    built_in = [one.name for one in (item.appliances if isinstance(item, Carcass) else ()) if one.built_in]
    if not built_in:
        return
    points = [one.service for one in services.landings if one.service.kind is not ServiceKind.CABLE]
    within = {one.id for one in points if one.reach}
    for cut in services.cuts:
        low_mm = unit.box.back_foot_mm + cut.cut.foot_mm
        across = (unit.box.back_left_mm + cut.cut.left_mm, unit.box.back_left_mm + cut.cut.left_mm + cut.cut.width_mm)
        met = [
            one
            for one in niches
            if _meet((one.foot_mm, one.foot_mm + one.height_mm), (low_mm, low_mm + cut.cut.height_mm))
            and _meet((one.left_mm, one.left_mm + one.width_mm), across)
        ]
        if cut.item == unit.item and met and within & set(cut.cut.services):
            yield Finding(
                "service.behind_appliance",
                Severity.WARN,
                f"back of {unit.name}",
                f"The cut-out {cut.cut.words} lies behind {met[0].name}, where a built-in appliance stands "
                f"({', '.join(built_in)}): it must stay within reach, and is covered.",
                "Have it put into a cupboard beside, above or below, where it is reached with the appliance in place.",
                "common practice; the appliance's sheet and the local code rule",
                concerns=(unit.item, *cut.cut.services),
                caution=True,
            )
