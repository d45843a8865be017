"""The depth that the worktop of a run needs, from the deepest hollow behind it to its front edge."""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.job import ApplianceBay, Carcass, Gap, Item, Job, OpenUnit, Room, Storey, WallHeight

from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .front_line import FrontLine
from .front_paths import front_of, proud_mm
from .heights import SAME_MM
from .rod import Placed
from .wall import Wall
from .wall_profile import merged, points_behind, wall_points

BEHIND_TOP = (WallHeight.WORKTOP, WallHeight.BATTEN, WallHeight.FLOOR)


def front_face_mm(item: Item) -> float:
    """How far its front, or the face frame of an open unit, stands out of the carcass front, without handles."""
    return item.frame_thickness_mm if isinstance(item, OpenUnit) else proud_mm(front_of(item))


def worktop_depth(
    job: Job, room: Room, placed: Sequence[Placed], wall: Wall | None, line: FrontLine
) -> tuple[Figure | None, list[Finding]]:
    """Greatest void behind the base units + carcass depth + front + overhang - what a splashback covers; a finding
    where that is more than the board.

    The void counts at worktop height; where that is not read, at the next height below that is. None where no worktop
    is fitted to a wall: over tall units, along a free-standing run, or where nothing with a depth stands.
    """
    base = [one for one in placed if one.item.storey is Storey.BASE and not isinstance(one.item, Gap)]
    deep = [one for one in base if isinstance(one.item, Carcass | OpenUnit)]
    deep = deep or [one for one in base if isinstance(one.item, ApplianceBay)]
    if not deep or line.run.wall is None:
        return None, []
    top, step_mm = room.worktop, job.rounding_mm
    deepest = max(deep, key=lambda one: ((one.depth_mm or 0.0) + front_face_mm(one.item), -one.left_mm))
    box_mm, front_mm = deepest.depth_mm or 0.0, front_face_mm(deepest.item)
    void_mm, at_mm = _greatest_void(base, wall, line)
    needed_mm = void_mm + box_mm + front_mm + top.overhang_mm - top.cover_mm
    where = "" if at_mm is None else f" at {text_mm(at_mm, step_mm)} from the zero"
    why = (
        f"Void {text_mm(void_mm, step_mm)}{where} + carcass {text_mm(box_mm, step_mm)} + front "
        f"{text_mm(front_mm, step_mm)} + overhang {text_mm(top.overhang_mm, step_mm)} ({deepest.item.name})"
        + (f" - {text_mm(top.cover_mm, step_mm)} that the splashback covers." if top.cover_mm else ".")
    )
    needed = figure(needed_mm, step_mm, why)
    short_mm = needed_mm - top.depth_mm
    if short_mm <= SAME_MM:
        return needed, []
    return needed, [_short(job, room, line, needed, short_mm, where)]


def _greatest_void(base: Sequence[Placed], wall: Wall | None, line: FrontLine) -> tuple[float, float | None]:
    """The greatest void behind these items and where; the line's own where no height is read there."""
    spans = merged((one.left_mm, one.right_mm) for one in base)
    for height in BEHIND_TOP:
        voids = [(line.back_at(at.x_mm) - at.y_mm, at.x_mm) for at in points_behind(wall_points(wall, height), spans)]
        if voids:
            return max(voids)
    return line.greatest_void.mm, None


def _short(job: Job, room: Room, line: FrontLine, needed: Figure, short_mm: float, where: str) -> Finding:
    top, step_mm = room.worktop, job.rounding_mm
    short = text_mm(short_mm, step_mm)
    will_do = [text_mm(one, step_mm) for one in sorted(set(top.stock_depths_mm)) if one >= needed.mm - SAME_MM]
    cures = [f"take a board of {' or '.join(will_do)}" if will_do else "no board in the list is deep enough"]
    cures.append(f"cover {short} more at the wall (splashback, wall panel)")
    if short_mm < top.overhang_mm:
        cures.append(f"let it overhang {text_mm(top.overhang_mm - short_mm, step_mm)}")
    covered = f" with {text_mm(top.cover_mm, step_mm)} of it covered at the wall" if top.cover_mm else ""
    words = "; ".join(cures)
    return Finding(
        "front_line.worktop_depth",
        Severity.WARN if line.read else Severity.NOTE,
        line.run.name,
        f"The worktop needs {needed.text}{covered}; a {text_mm(top.depth_mm, step_mm)} board is {short} short{where}."
        + ("" if line.read or line.run.wall is None else " The wall is not read yet: this rests on the job's void."),
        f"{words[0].upper()}{words[1:]}.",
        "void, carcass, front and overhang together, less what is covered",
        figure(short_mm, step_mm),
        (line.run.id, room.id),
    )
