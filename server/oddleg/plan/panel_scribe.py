"""What comes off an end panel's rear edge where it meets the wall."""

from __future__ import annotations

from oddleg.job import EndPanel, Job, Storey, WallHeight

from .figure import figure, text_mm
from .front_line import FrontLine
from .packing import PanelScribe
from .set_out import Rod
from .wall import Wall
from .wall_profile import HEIGHT_WORDS, STANDING, wall_at, wall_points


def panel_scribes(job: Job, wall: Wall | None, line: FrontLine, rod: Rod) -> tuple[PanelScribe, ...]:
    """The end panels that stand (or hang, for a line of what hangs) before a wall that is read beside them.

    A panel is cut to its depth + the deepest void behind it, so that it reaches the wall everywhere, and scribed at
    each height by what the wall stands nearer there (first principles). The wall is taken at the panel's middle.
    """
    hangs = line.storey is Storey.WALL
    found = []
    for placed in rod.placed:
        panel = placed.item
        if not isinstance(panel, EndPanel) or placed.stands is hangs:
            continue
        heights: tuple[WallHeight, ...] = (WallHeight.WALL_UNITS,) if hangs else STANDING
        if panel.storey is Storey.TALL:
            heights = tuple(WallHeight)
        x_mm = (placed.left_mm + placed.right_mm) / 2 + line.zero_mm
        reach_mm = job.tolerances.wall_spacing_mm / 2
        read = [
            (height, line.back_at(x_mm) - at.y_mm)
            for height in heights
            if (at := wall_at(wall_points(wall, height), x_mm, reach_mm)) is not None
        ]
        if read:
            found.append(_scribe(job, panel, read))
    return tuple(found)


def _scribe(job: Job, panel: EndPanel, read: list[tuple[WallHeight, float]]) -> PanelScribe:
    step_mm = job.rounding_mm
    deepest_mm = max(void_mm for _, void_mm in read)
    deepest = text_mm(deepest_mm, step_mm)
    return PanelScribe(
        panel.id,
        panel.name,
        figure(
            panel.depth_mm + deepest_mm,
            step_mm,
            f"Panel {text_mm(panel.depth_mm, step_mm)} + deepest void behind it {deepest}.",
        ),
        tuple(
            (
                HEIGHT_WORDS[height],
                figure(
                    deepest_mm - void_mm,
                    step_mm,
                    f"Deepest void {deepest} less {text_mm(void_mm, step_mm)} {HEIGHT_WORDS[height]}.",
                ),
            )
            for height, void_mm in read
        ),
    )
