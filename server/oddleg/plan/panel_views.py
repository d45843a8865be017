"""The faces of a panel that are worked from, as they lie before you, and the numbers of its holes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .fitted_out import CutOut, Face, Hole, HoleFor, Panel, PanelKind
from .panel_axes import front_edge_on, mirrored_on


@dataclass(frozen=True)
class NumberedHole:
    """A hole with its number in the panel's table, on drawings and on templates."""

    number: int
    hole: Hole


@dataclass(frozen=True)
class PanelView:
    """One face of a panel as it lies before you: `mirrored`: u runs to the left on it. `front_edge`: the edge of the
    drawing that is the carcass's front. `field`: of its drawing in the carcass's part. `holes`: those drilled from this
    face; `from_behind`: those that come right through from the other. Cut-outs are marked on the shown face."""

    panel: Panel
    face: Face
    field: str
    mirrored: bool
    front_edge: str | None
    words: str
    holes: tuple[NumberedHole, ...]
    from_behind: tuple[NumberedHole, ...]
    cut_outs: tuple[CutOut, ...]

    def x_mm(self, u_mm: float) -> float:
        """From the left of the drawing."""
        return self.panel.width_mm - u_mm if self.mirrored else u_mm


# Where u and v are counted from, in a joiner's words.
SIDE_AXES = ("front edge", "lower edge")
LYING_AXES = ("left edge", "front edge")
COUNTED_FROM = {
    PanelKind.LEFT: SIDE_AXES,
    PanelKind.RIGHT: SIDE_AXES,
    PanelKind.DIVIDER: SIDE_AXES,
    PanelKind.BOTTOM: LYING_AXES,
    PanelKind.TOP: LYING_AXES,
    PanelKind.FRONT_RAIL: LYING_AXES,
    PanelKind.BACK_RAIL: LYING_AXES,
    PanelKind.SHELF: LYING_AXES,
    PanelKind.BACK: ("left edge", "lower edge"),
    PanelKind.FRONT: ("left edge as seen from behind", "lower edge"),
}


def counted_from(view: PanelView) -> tuple[str, str]:
    """The edges that u and v count from, as the face lies on the bench: turned over, a board has its left edge at the
    right."""
    across, up = COUNTED_FROM[view.panel.kind]
    return (f"{across}, now on your RIGHT" if view.mirrored and across == "left edge" else across), up


# First what a pair of sides has alike, last what each has for itself.
ORDER = (
    HoleFor.RUNNER,
    HoleFor.PULL_OUT,
    HoleFor.PIN,
    HoleFor.BRACKET,
    HoleFor.CUP,
    HoleFor.CUP_SCREW,
    HoleFor.LEG,
    HoleFor.PLATE,
    HoleFor.CONNECTOR,
    HoleFor.PASSAGE,
)


def views(panel: Panel) -> tuple[PanelView, ...]:
    """Its faces that have something to mark, the shown one first; none where the board stays as it is."""
    numbered = numbered_holes(panel)
    found: list[PanelView] = []
    for face in Face:
        own = tuple(one for one in numbered if one.hole.face is face)
        cuts = panel.cut_outs if face is Face.SHOWN else ()
        if not own and not cuts:
            continue
        found.append(
            PanelView(
                panel,
                face,
                f"panel-{panel.id}{'-other' if found else ''}",
                mirrored_on(panel, face),
                front_edge_on(panel, face),
                panel.face_words if face is Face.SHOWN else panel.other_face_words,
                own,
                tuple(one for one in numbered if one.hole.face is not face and one.hole.depth_mm is None),
                cuts,
            )
        )
    return tuple(found)


def numbered_holes(panel: Panel) -> tuple[NumberedHole, ...]:
    """From 1 up: first what both sides have alike, to have equal numbers on both; what serves one thing together,
    the lowest first, along its rows or, where those are more than its columns, along its columns."""
    groups: dict[tuple[Face, HoleFor, str], list[Hole]] = {}
    for hole in panel.holes:
        groups.setdefault((hole.face, hole.hole_for, hole.of), []).append(hole)
    faces = tuple(Face)

    def first(key: tuple[Face, HoleFor, str]) -> tuple[int, int, float, float, str]:
        face, hole_for, of = key
        low_mm, front_mm = (min(at) for at in zip(*((one.v_mm, one.u_mm) for one in groups[key]), strict=True))
        return faces.index(face), ORDER.index(hole_for), round(low_mm, 3), round(front_mm, 3), of

    ordered = [hole for key in sorted(groups, key=first) for hole in _in_order(groups[key])]
    return tuple(NumberedHole(number, hole) for number, hole in enumerate(ordered, 1))


def _in_order(holes: Sequence[Hole]) -> list[Hole]:
    columns, rows = ({round(at, 3) for at in ats} for ats in ([h.u_mm for h in holes], [h.v_mm for h in holes]))
    if len(columns) < len(rows):
        return sorted(holes, key=lambda one: (round(one.u_mm, 3), one.v_mm, one.id))
    return sorted(holes, key=lambda one: (round(one.v_mm, 3), one.u_mm, one.id))


def letters(number: int) -> str:
    """A to Z, then AA and so on, from 0."""
    head, last = divmod(number, 26)
    return (letters(head - 1) if head else "") + chr(ord("A") + last)
