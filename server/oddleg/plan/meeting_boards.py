"""Where other boards of the carcass meet a face of a panel: nothing can be screwed on there, and no hole reached."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .fitted_out import Face, Hole, Panel, PanelKind
from .hole_distances import SAME_MM, from_rectangle_mm
from .panel_axes import AXES, on_panel

# A shelf that lies loose ends so far short of a side, or less, and is in the way on it all the same.
LOOSE_MM = 5.0


@dataclass(frozen=True)
class Met:
    """Another board on a face, in the panel's axes: from (left_mm, low_mm) to (right_mm, high_mm)."""

    board: Panel
    left_mm: float
    right_mm: float
    low_mm: float
    high_mm: float

    def from_rim_mm(self, hole: Hole) -> float:
        """From the hole's rim to the board's edge; below 0: the hole lies in it."""
        return from_rectangle_mm(hole, (self.left_mm, self.right_mm), (self.low_mm, self.high_mm))


def extents_mm(panel: Panel) -> tuple[tuple[float, float], ...]:
    """From where to where the board reaches in the carcass, along x, u and z."""
    axes = AXES[panel.kind]
    found = []
    for at_mm, along_u, along_v, looks in zip(
        (panel.x_mm, panel.u_mm, panel.z_mm), axes.along_u, axes.along_v, axes.looks, strict=True
    ):
        to_mm = at_mm + along_u * panel.width_mm + along_v * panel.height_mm - looks * panel.thickness_mm
        found.append((min(at_mm, to_mm), max(at_mm, to_mm)))
    return tuple(found)


def boards_met(panel: Panel, face: Face, others: Iterable[Panel]) -> tuple[Met, ...]:
    """The boards that stand against this face or go into it. Fronts neither meet nor are met: they open."""
    if panel.kind is PanelKind.FRONT:
        return ()
    looks = AXES[panel.kind].looks
    axis = next(i for i, step in enumerate(looks) if step)
    outwards = looks[axis] if face is Face.SHOWN else -looks[axis]
    low_mm, high_mm = extents_mm(panel)[axis]
    face_mm = high_mm if outwards > 0 else low_mm
    met = []
    for other in others:
        if other.id == panel.id or other.kind is PanelKind.FRONT:
            continue
        reach = extents_mm(other)
        short_mm = LOOSE_MM if other.kind is PanelKind.SHELF else SAME_MM
        if not reach[axis][0] - short_mm <= face_mm <= reach[axis][1] + short_mm:
            continue
        # What only touches the plane of the face from within the board's own thickness is not in front of it.
        if (reach[axis][1] <= face_mm + SAME_MM) if outwards > 0 else (reach[axis][0] >= face_mm - SAME_MM):
            continue
        corners = [on_panel(panel, *(ends[i] for ends in reach)) for i in (0, 1)]
        left_mm, right_mm = sorted(max(0.0, min(panel.width_mm, u)) for u, _ in corners)
        low, high = sorted(max(0.0, min(panel.height_mm, v)) for _, v in corners)
        if right_mm - left_mm > SAME_MM and high - low > SAME_MM:
            met.append(Met(other, left_mm, right_mm, low, high))
    return tuple(met)
