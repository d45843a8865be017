"""Cut-outs in the back panel of a carcass for the services behind it, with the figures that they are marked from.

Source: first principles. From behind, left and right change places; from the datum line a cut-out lies where it lies,
whatever the floor does.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot

from oddleg.job import CutOutRule, Job

from .carcass_box import CarcassBox
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .fitted_out import CutOut
from .heights import SAME_MM
from .room_services import BackCut
from .sightings import listed

EDGES = ("left", "right", "top", "bottom")


@dataclass(frozen=True)
class Need:
    """A service that wants an opening: its outline in carcass axes (x, z), without clearance."""

    id: str
    name: str
    left_mm: float
    right_mm: float
    low_mm: float
    high_mm: float
    round: bool = False


@dataclass(frozen=True)
class _Area:
    """An opening in panel axes. `needs`: what it is for."""

    left_mm: float
    foot_mm: float
    right_mm: float
    top_mm: float
    needs: tuple[Need, ...]
    open_to: frozenset[str] = frozenset()

    @property
    def round(self) -> bool:
        return len(self.needs) == 1 and self.needs[0].round and not self.open_to


def back_size_mm(box: CarcassBox) -> tuple[float, float]:
    """Width and height of the back panel."""
    return box.back_right_mm - box.back_left_mm, box.back_top_mm - box.back_foot_mm


def cut_outs(rule: CutOutRule, box: CarcassBox, needs: Sequence[Need]) -> tuple[CutOut, ...]:
    """The openings, u and v of the back from its left lower corner as seen from the front, from left to right.

    Each is its service with the clearance on every side; those nearer to each other than `apart_mm` are one, and one
    that leaves less than `least_edge_mm` of the panel at an edge is open to it. What lies outside the panel needs none.
    """
    width_mm, height_mm = back_size_mm(box)
    areas: list[_Area] = []
    for one in sorted(needs, key=lambda each: (each.left_mm, each.low_mm, each.id)):
        left_mm, right_mm = (x - box.back_left_mm for x in (one.left_mm, one.right_mm))
        foot_mm, top_mm = (z - box.back_foot_mm for z in (one.low_mm, one.high_mm))
        if right_mm <= SAME_MM or left_mm >= width_mm - SAME_MM or top_mm <= SAME_MM or foot_mm >= height_mm - SAME_MM:
            continue
        by_mm = rule.clearance_mm
        area = _Area(left_mm - by_mm, foot_mm - by_mm, right_mm + by_mm, top_mm + by_mm, (one,))
        areas.append(_opened(area, rule, width_mm, height_mm))
    joined = _joined(areas, rule, width_mm, height_mm)
    return tuple(_cut(one, rule) for one in sorted(joined, key=lambda each: (each.left_mm, each.foot_mm)))


def _opened(area: _Area, rule: CutOutRule, width_mm: float, height_mm: float) -> _Area:
    """Out to every edge at which too little of the panel would stay."""
    least_mm = max(rule.least_edge_mm, SAME_MM)
    open_to = set(area.open_to)
    if area.left_mm < least_mm - SAME_MM:
        open_to.add("left")
    if width_mm - area.right_mm < least_mm - SAME_MM:
        open_to.add("right")
    if area.foot_mm < least_mm - SAME_MM:
        open_to.add("bottom")
    if height_mm - area.top_mm < least_mm - SAME_MM:
        open_to.add("top")
    return replace(
        area,
        left_mm=0.0 if "left" in open_to else area.left_mm,
        right_mm=width_mm if "right" in open_to else area.right_mm,
        foot_mm=0.0 if "bottom" in open_to else area.foot_mm,
        top_mm=height_mm if "top" in open_to else area.top_mm,
        open_to=frozenset(open_to),
    )


def _joined(areas: Sequence[_Area], rule: CutOutRule, width_mm: float, height_mm: float) -> list[_Area]:
    found: list[_Area] = []
    for one in areas:
        area = one
        near = next((other for other in found if _apart_mm(area, other) < rule.apart_mm - SAME_MM), None)
        while near is not None:
            found.remove(near)
            both = _Area(
                min(area.left_mm, near.left_mm),
                min(area.foot_mm, near.foot_mm),
                max(area.right_mm, near.right_mm),
                max(area.top_mm, near.top_mm),
                (*near.needs, *area.needs),
                area.open_to | near.open_to,
            )
            area = _opened(both, rule, width_mm, height_mm)
            near = next((other for other in found if _apart_mm(area, other) < rule.apart_mm - SAME_MM), None)
        found.append(area)
    return found


def _apart_mm(one: _Area, other: _Area) -> float:
    across_mm = max(one.left_mm - other.right_mm, other.left_mm - one.right_mm)
    up_mm = max(one.foot_mm - other.top_mm, other.foot_mm - one.top_mm)
    if across_mm < 0 and up_mm < 0:
        return max(across_mm, up_mm)
    return hypot(max(across_mm, 0.0), max(up_mm, 0.0))


def _cut(area: _Area, rule: CutOutRule) -> CutOut:
    width_mm, height_mm = area.right_mm - area.left_mm, area.top_mm - area.foot_mm
    ids = tuple(one.id for one in area.needs)
    names = listed(list(dict.fromkeys(one.name for one in area.needs)))
    opening = [edge for edge in EDGES if edge in area.open_to]
    words = f"for {names}" + (f", open to the panel's {listed(opening)} edge" if opening else "")
    radius_mm = width_mm / 2 if area.round else min(rule.corner_radius_mm, width_mm / 2, height_mm / 2)
    return CutOut(
        f"cut-{min(ids)}",
        area.left_mm,
        area.foot_mm,
        width_mm,
        height_mm,
        radius_mm,
        area.round,
        tuple(opening),
        ids,
        words,
    )


def back_cut(job: Job, box: CarcassBox, cut: CutOut, underside_below_mm: float) -> BackCut:
    """The figures that a cut-out is marked from: of a round one to its middle, where a hole saw is set.
    `underside_below_mm`: the carcass's underside below the run's datum line."""
    step_mm = job.rounding_mm
    width_mm, height_mm = back_size_mm(box)
    half_mm = cut.width_mm / 2 if cut.round else 0.0
    left_mm = cut.left_mm + half_mm
    right_mm = width_mm - cut.left_mm - cut.width_mm + half_mm
    foot_mm = cut.foot_mm + half_mm
    top_mm = height_mm - cut.foot_mm - cut.height_mm + half_mm
    below_mm = underside_below_mm - box.back_foot_mm - height_mm + top_mm
    of, its = ("middle", "Its middle") if cut.round else ("edge", "Its upper edge")
    wide, high = (text_mm(mm, step_mm) for mm in (width_mm, height_mm))
    left, foot = (text_mm(mm, step_mm) for mm in (left_mm, foot_mm))
    across = "" if cut.round else f" and {text_mm(cut.width_mm, step_mm)} wide"
    upright = "" if cut.round else f" and {text_mm(cut.height_mm, step_mm)} high"
    mirrored = f"Panel {wide} less {left} from the left{across}"

    def edge(mm: float, name: str, why: str) -> Figure:
        return figure(mm, step_mm, f"Open to the panel's {name} edge." if name in cut.open_to else why)

    return BackCut(
        box.item.id,
        cut,
        edge(left_mm, "left", f"From the panel's left edge to its {of}, as seen from the front."),
        edge(right_mm, "right", f"{mirrored}, as seen from the front."),
        edge(foot_mm, "bottom", f"From the panel's lower edge to its {of}."),
        edge(top_mm, "top", f"Panel {high} less {foot} from its foot{upright}."),
        edge(right_mm, "right", f"{mirrored}: from the left edge as seen from behind."),
        figure(below_mm, step_mm, f"{its}, down from the run's datum line, whatever the floor does."),
        figure(cut.width_mm, step_mm, _size_why(job.cut_outs, cut, step_mm)),
        figure(cut.height_mm, step_mm, _size_why(job.cut_outs, cut, step_mm)),
        figure(cut.radius_mm, step_mm, "Half its diameter." if cut.round else "Of its corners, as the job says."),
    )


def _size_why(rule: CutOutRule, cut: CutOut, step_mm: float) -> str:
    services = "the services" if len(cut.services) > 1 else "the service"
    clear = f"What holds {services} and {text_mm(rule.clearance_mm, step_mm)} clear on every side"
    return f"{clear}, out to the panel's edge." if cut.open_to else f"{clear}."


def cut_findings(job: Job, box: CarcassBox, cut: CutOut) -> tuple[Finding, ...]:
    """A cut-out that parts the panel, or leaves nothing of it."""
    width_mm, height_mm = back_size_mm(box)
    across = {"left", "right"} <= set(cut.open_to)
    up = {"top", "bottom"} <= set(cut.open_to)
    if not across and not up:
        return ()
    size = f"{text_mm(width_mm, job.holes.shop_mm)} × {text_mm(height_mm, job.holes.shop_mm)}"
    what = "leaves nothing of" if across and up else "goes right across"
    return (
        Finding(
            "panel.cut_parts",
            Severity.WARN,
            f"back of {box.item.name}",
            f"The cut-out {cut.words} {what} the back, which is {size}.",
            "Make the back of two pieces, leave it out there, or have a service moved.",
            "a back that is cut right across holds nothing square",
            concerns=(box.item.id, *cut.services),
        ),
    )
