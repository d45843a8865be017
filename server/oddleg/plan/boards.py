"""The boards of a carcass, cut to size and not yet drilled. Carcass axes and panel axes, mm."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from oddleg.job import BackIs, FrontIs, Pin, Shelf, TopIs

from .carcass_box import CarcassBox, Space
from .fitted_out import Face, Groove, Hole, Panel, PanelKind, PlacedFront
from .grid import line_mm, nearest_line
from .hardware import Hardware
from .panel_axes import panel

Flank = tuple[str, Face]
"""A panel that bounds a compartment, and the face of it that looks into the compartment."""
Boards = Mapping[str, Panel]
"""The carcass's panels by id."""
BoardHole = tuple[str, Hole]
"""Id of a panel and a hole in it."""


def divider_id(number: int) -> str:
    """Id of the divider to the right of compartment `number`, counted from 1."""
    return f"{PanelKind.DIVIDER}-{number}"


def flanks(box: CarcassBox, compartment: str) -> tuple[Flank, Flank]:
    """What is to the left and to the right of a compartment. Raises StopIteration for another carcass's compartment."""
    number = next(i for i, one in enumerate(box.spaces, 1) if one.compartment.id == compartment)
    left = (PanelKind.LEFT.value, Face.SHOWN) if number == 1 else (divider_id(number - 1), Face.OTHER)
    last = number == len(box.spaces)
    return left, (PanelKind.RIGHT.value if last else divider_id(number), Face.SHOWN)


def boards(box: CarcassBox, known: Hardware, fronts: Sequence[PlacedFront]) -> tuple[Panel, ...]:
    """Every board of the carcass that has a size: what comes out at nought or less is left out, and the box's own
    findings tell of it."""
    made = [*_sides(box), *_level(box), _back(box), *_shelves(box, known), *(_front(box, one) for one in fronts)]
    grooved = [replace(one, groove=_groove(box)) if one.kind in GROOVED else one for one in made]
    return tuple(one for one in grooved if min(one.width_mm, one.height_mm, one.thickness_mm) > 0)


# The boards that a back in a groove goes into; rails lie before it.
GROOVED = (PanelKind.LEFT, PanelKind.RIGHT, PanelKind.BOTTOM, PanelKind.TOP)


def _groove(box: CarcassBox) -> Groove | None:
    """As wide as the back is thick, since `inside_depth_mm` ends at its inside face."""
    made = box.item.box
    if made.back is not BackIs.GROOVE or made.back_mm <= 0:
        return None
    return Groove(box.inside_depth_mm, made.back_mm, made.groove_mm)


def _sides(box: CarcassBox) -> Iterator[Panel]:
    item, board_mm = box.item.id, box.board_mm
    size_mm = (box.side_depth_mm, box.height_mm - box.side_foot_mm, board_mm)
    for kind, name, x_mm in (
        (PanelKind.LEFT, "left side", board_mm),
        (PanelKind.RIGHT, "right side", box.width_mm - board_mm),
    ):
        yield panel(kind, kind.value, item, name, size_mm, (x_mm, 0.0, box.side_foot_mm))
    # A divider stands on the bottom, under the top, in front of the back.
    size_mm = (box.inside_depth_mm, box.roof_mm - box.floor_mm, box.divider_mm)
    many = len(box.dividers_mm) > 1
    for number, x_mm in enumerate(box.dividers_mm, 1):
        name = f"divider {number}" if many else "divider"
        yield panel(PanelKind.DIVIDER, divider_id(number), item, name, size_mm, (x_mm, 0.0, box.floor_mm))


def _level(box: CarcassBox) -> Iterator[Panel]:
    item, made, board_mm = box.item.id, box.item.box, box.board_mm
    inside_mm = box.width_mm - 2 * board_mm
    # Sides that stand on the bottom start at its upper face: then it reaches under both of them.
    edge_mm = board_mm if box.side_foot_mm == 0 else 0.0
    size_mm = (box.width_mm - 2 * edge_mm, box.side_depth_mm, board_mm)
    yield panel(PanelKind.BOTTOM, PanelKind.BOTTOM.value, item, "bottom", size_mm, (edge_mm, 0.0, box.floor_mm))
    top_mm = box.roof_mm + board_mm
    if made.top is TopIs.PANEL:
        size_mm = (inside_mm, box.side_depth_mm, board_mm)
        yield panel(PanelKind.TOP, PanelKind.TOP.value, item, "top", size_mm, (board_mm, 0.0, top_mm))
        return
    for kind, name, u_mm in (
        (PanelKind.FRONT_RAIL, "front rail", 0.0),
        (PanelKind.BACK_RAIL, "back rail", box.inside_depth_mm - made.rail_mm),
    ):
        size_mm = (inside_mm, made.rail_mm, board_mm)
        yield panel(kind, kind.value, item, name, size_mm, (board_mm, u_mm, top_mm))


def _back(box: CarcassBox) -> Panel:
    size_mm = (box.back_right_mm - box.back_left_mm, box.back_top_mm - box.back_foot_mm, box.item.box.back_mm)
    origin_mm = (box.back_left_mm, box.inside_depth_mm, box.back_foot_mm)
    return panel(PanelKind.BACK, PanelKind.BACK.value, box.item.id, "back", size_mm, origin_mm)


def _shelves(box: CarcassBox, known: Hardware) -> Iterator[Panel]:
    for space in box.spaces:
        for shelf in space.compartment.shelves:
            thickness_mm = box.board_mm if shelf.thickness_mm is None else shelf.thickness_mm
            clear_mm = 0.0 if shelf.fixed else shelf.clear_mm
            size_mm = (space.width_mm - 2 * clear_mm, box.inside_depth_mm - shelf.set_back_mm, thickness_mm)
            foot_mm = shelf_foot_mm(box, known, shelf)
            origin_mm = (space.left_mm + clear_mm, shelf.set_back_mm, foot_mm + thickness_mm)
            yield panel(PanelKind.SHELF, shelf_id(space, shelf.id), box.item.id, shelf.name, size_mm, origin_mm)


def shelf_foot_mm(box: CarcassBox, known: Hardware, shelf: Shelf) -> float:
    """z of a shelf's underside: where it is asked for, or, on pins, at the line of the grid nearest to that."""
    asked_mm = box.floor_mm + shelf.up_mm
    pin = None if shelf.fixed else known.row(Pin, shelf.pins)
    return asked_mm if pin is None else line_mm(box, nearest_line(box, asked_mm, pin.pitch_mm), pin.pitch_mm)


def on_pins(box: CarcassBox, known: Hardware) -> frozenset[str]:
    """Ids of the shelves' panels that are not fixed and can be moved."""
    return frozenset(
        shelf_id(space, shelf.id)
        for space in box.spaces
        for shelf in space.compartment.shelves
        if not shelf.fixed and known.row(Pin, shelf.pins) is not None
    )


def shelf_id(space: Space, shelf: str) -> str:
    return f"{PanelKind.SHELF}-{space.compartment.id}-{shelf}"


def front_id(front: str) -> str:
    return f"{PanelKind.FRONT}-{front}"


def _front(box: CarcassBox, front: PlacedFront) -> Panel:
    thickness_mm = 0.0 if front.front is FrontIs.SPACE else front.thickness_mm
    size_mm = (front.width_mm, front.height_mm, thickness_mm)
    # Seen from behind its left edge is the right one as it hangs.
    origin_mm = (front.left_mm + front.width_mm, front.stands_mm, front.foot_mm)
    return panel(PanelKind.FRONT, front_id(front.id), box.item.id, front.name, size_mm, origin_mm)
