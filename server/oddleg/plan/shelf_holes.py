"""Holes for shelf pins, on the grid: those that carry a shelf now, and spare ones above and below it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from oddleg.job import HoleLimits, Pin

from .boards import BoardHole, Boards, flanks
from .carcass_box import CarcassBox, Space
from .fitted_out import Face, Hole, HoleFor, Panel, PanelKind
from .grid import line_mm, nearest_line
from .hardware import Hardware
from .hole_distances import in_the_way
from .meeting_boards import boards_met
from .panel_axes import on_panel

EPS_MM = 1e-6


def pin_rows_mm(box: CarcassBox, pin: Pin, limits: HoleLimits) -> tuple[float, ...]:
    """u of the rows of pins: the front row, and the rear row the greatest multiple of the pitch behind it that keeps
    `least_back_mm` before the side's rear edge and the pin's rim clear of the back. One row where no second goes in."""
    last_mm = min(box.side_depth_mm - pin.least_back_mm, box.inside_depth_mm - limits.least_edge_mm - pin.hole_mm / 2)
    pitches = math.floor((last_mm - pin.row_mm) / pin.pitch_mm + EPS_MM)
    return (pin.row_mm, pin.row_mm + pitches * pin.pitch_mm) if pitches > 0 else (pin.row_mm,)


def pin_holes(
    box: CarcassBox, known: Hardware, boards: Boards, limits: HoleLimits
) -> tuple[tuple[BoardHole, ...], tuple[BoardHole, ...]]:
    """Holes that carry shelves, and spare ones. The middle of the pin counts as the shelf's underside. Where two
    shelves want the same hole it is there once, as the one that carries."""
    carrying: dict[tuple[str, str], BoardHole] = {}
    spare: dict[tuple[str, str], BoardHole] = {}
    for space in box.spaces:
        for shelf in space.compartment.shelves:
            pin = None if shelf.fixed else known.row(Pin, shelf.pins)
            if pin is None:
                continue
            middle = nearest_line(box, box.floor_mm + shelf.up_mm, pin.pitch_mm)
            for number in range(middle - shelf.spare, middle + shelf.spare + 1):
                z_mm = line_mm(box, number, pin.pitch_mm)
                words = f"{pin.name}, {shelf.name}" + (
                    "" if number == middle else f", spare {'above' if number > middle else 'below'}"
                )
                for panel, hole in _line(box, space, pin, boards, limits, number, z_mm, shelf.id, words):
                    kept = carrying if number == middle else spare
                    kept.setdefault((panel, hole.id), (panel, hole))
    return tuple(carrying.values()), tuple(one for key, one in spare.items() if key not in carrying)


def _line(
    box: CarcassBox,
    space: Space,
    pin: Pin,
    boards: Boards,
    limits: HoleLimits,
    number: int,
    z_mm: float,
    of: str,
    words: str,
) -> Iterator[BoardHole]:
    for panel, face in flanks(box, space.compartment.id):
        if panel not in boards:
            continue
        for row, u_mm in zip(("front", "rear"), pin_rows_mm(box, pin, limits), strict=False):
            u, v = on_panel(boards[panel], 0.0, u_mm, z_mm)
            id = f"{HoleFor.PIN}-{space.compartment.id}-{pin.id}-{number}-{row}"
            yield (
                panel,
                Hole(
                    id,
                    u,
                    v,
                    pin.hole_mm,
                    pin.hole_depth_mm,
                    HoleFor.PIN,
                    of,
                    f"{words}, {row} row",
                    face,
                    pin.id,
                ),
            )


def line_of(hole: Hole) -> str:
    """What the ids of a line's holes for pins share: those of both rows, on both sides of the compartment."""
    return hole.id.rpartition("-")[0]


def spare_that_fit(
    panel: Panel, holes: Iterable[Hole], spare: Iterable[Hole], others: Sequence[Panel], limits: HoleLimits
) -> list[Hole]:
    """Spare holes that lie on the board and in the way of nothing; the others are not drilled, and nobody misses them.

    `others`: boards that stay where they are.
    """
    met = {face: boards_met(panel, face, others) for face in Face}
    kept = list(holes)
    fit = []
    for one in spare:
        rim_mm = one.diameter_mm / 2 + limits.least_edge_mm
        on_board = rim_mm <= one.u_mm <= panel.width_mm - rim_mm and rim_mm <= one.v_mm <= panel.height_mm - rim_mm
        if (
            on_board
            and all(board.from_rim_mm(one) >= limits.least_edge_mm for board in met[one.face])
            and not any(in_the_way(panel, one, other, limits) and not _back_to_back(one, other) for other in kept)
        ):
            kept.append(one)
            fit.append(one)
    return fit


def _back_to_back(one: Hole, other: Hole) -> bool:
    return (
        one.hole_for is other.hole_for
        and one.face is not other.face
        and one.diameter_mm == other.diameter_mm
        and abs(one.u_mm - other.u_mm) < EPS_MM
        and abs(one.v_mm - other.v_mm) < EPS_MM
    )


def drilled_through(panel: Panel, holes: Iterable[Hole], limits: HoleLimits) -> list[Hole]:
    """Two pins' holes back to back in a divider that would meet are one hole right through, which serves both sides."""
    if panel.kind is not PanelKind.DIVIDER:
        return list(holes)
    places: dict[tuple[float, float, float], list[Hole]] = {}
    out = []
    for one in holes:
        if one.hole_for is HoleFor.PIN and one.depth_mm is not None:
            places.setdefault((round(one.u_mm, 3), round(one.v_mm, 3), one.diameter_mm), []).append(one)
        else:
            out.append(one)
    for here in places.values():
        deep_mm = sum(one.depth_mm or 0.0 for one in here)
        if len(here) == 2 and deep_mm > panel.thickness_mm - limits.least_skin_mm:
            first, second = sorted(here, key=lambda one: one.face is Face.OTHER)
            words = f"{first.words}; and {second.words}: one hole right through"
            out.append(replace(first, depth_mm=None, face=Face.SHOWN, words=words))
        else:
            out += here
    return out
