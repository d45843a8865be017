"""Panel axes: one table for every kind of panel, and the only place that turns carcass axes into them.

Carcass axes are right-handed: x to the right, u towards the back, z up. A panel's (u, v) are told on its shown face; a
hole in the other face has the same (u, v). A face is drawn with u to the right where u x v comes out of it towards you,
else u runs to the left: mirrored. Nothing else decides what is mirrored.
"""

from __future__ import annotations

from dataclasses import dataclass

from .fitted_out import Face, Panel, PanelKind

Direction = tuple[int, int, int]
RIGHT: Direction = (1, 0, 0)
LEFT: Direction = (-1, 0, 0)
BACK: Direction = (0, 1, 0)
FRONT: Direction = (0, -1, 0)
UP: Direction = (0, 0, 1)


@dataclass(frozen=True)
class PanelAxes:
    """`along_u`, `along_v`: where u and v run in the carcass; `looks`: where the shown face looks."""

    along_u: Direction
    along_v: Direction
    looks: Direction
    face_words: str
    other_face_words: str
    origin_words: str

    @property
    def mirrored(self) -> bool:
        a, b = self.along_u, self.along_v
        out = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
        return out != self.looks

    @property
    def front_edge(self) -> str | None:
        """The edge of the shown face's drawing that is the carcass's front: where u or v starts, if it runs back."""
        if self.along_v == BACK:
            return "bottom"
        if self.along_u == BACK:
            return "right" if self.mirrored else "left"
        return None


_INSIDE = ("inside face up", "outside face up", "front bottom corner of the inside face: u to the back, v up")
_UPPER = ("upper face up", "underside up", "front left corner of the upper face: u to the right, v to the back")
_UPPER_AXES = PanelAxes(RIGHT, BACK, UP, *_UPPER)

AXES: dict[PanelKind, PanelAxes] = {
    PanelKind.LEFT: PanelAxes(BACK, UP, RIGHT, *_INSIDE),
    PanelKind.RIGHT: PanelAxes(BACK, UP, LEFT, *_INSIDE),
    PanelKind.DIVIDER: PanelAxes(
        BACK,
        UP,
        LEFT,
        "the face that looks left up",
        "the face that looks right up",
        "front bottom corner of the face that looks left: u to the back, v up",
    ),
    PanelKind.BOTTOM: _UPPER_AXES,
    PanelKind.TOP: _UPPER_AXES,
    PanelKind.FRONT_RAIL: _UPPER_AXES,
    PanelKind.BACK_RAIL: _UPPER_AXES,
    PanelKind.SHELF: _UPPER_AXES,
    PanelKind.BACK: PanelAxes(
        RIGHT,
        UP,
        FRONT,
        "inside face up, as seen from the front",
        "outside face up, as seen from behind",
        "bottom left corner as seen from the front: u to the right, v up",
    ),
    PanelKind.FRONT: PanelAxes(
        LEFT,
        UP,
        BACK,
        "back face up, as seen from behind",
        "visible face up",
        "bottom left corner as seen from behind: u to the right, v up",
    ),
}


def mirrored_on(panel: Panel, face: Face) -> bool:
    """Whether u runs to the left on the drawing of this face."""
    return panel.mirrored is (face is Face.SHOWN)


def front_edge_on(panel: Panel, face: Face) -> str | None:
    """The edge of this face's drawing that is the carcass's front."""
    turned = {"left": "right", "right": "left"}
    edge = panel.front_edge
    return edge if face is Face.SHOWN or edge is None else turned.get(edge, edge)


def on_panel(panel: Panel, x_mm: float, u_mm: float, z_mm: float) -> tuple[float, float]:
    """A point of the carcass in the panel's (u, v), mm; what it lies in front of or behind the panel falls away."""
    axes = AXES[panel.kind]
    away = (x_mm - panel.x_mm, u_mm - panel.u_mm, z_mm - panel.z_mm)
    return (
        sum(mm * step for mm, step in zip(away, axes.along_u, strict=True)),
        sum(mm * step for mm, step in zip(away, axes.along_v, strict=True)),
    )


def panel(
    kind: PanelKind,
    id: str,
    item: str,
    name: str,
    size_mm: tuple[float, float, float],
    origin_mm: tuple[float, float, float],
) -> Panel:
    """A panel of this size (along u, along v, thickness) whose origin corner lies at (x, u, z) of its carcass."""
    axes = AXES[kind]
    return Panel(
        id,
        item,
        kind,
        name,
        *size_mm,
        *origin_mm,
        mirrored=axes.mirrored,
        front_edge=axes.front_edge,
        face_words=axes.face_words,
        other_face_words=axes.other_face_words,
        origin_words=axes.origin_words,
    )
