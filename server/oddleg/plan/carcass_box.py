"""The box of a carcass in its own axes: x from its left outside edge, u from its front edge towards the back, z up from
its underside. Shifting the carcass in its run shifts nothing here. All mm."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import BackIs, BottomFit, Box, Carcass, Compartment, FittingOut, OpenUnit, TopIs


@dataclass(frozen=True)
class Space:
    """A compartment's inside, from left_mm to right_mm."""

    compartment: Compartment
    left_mm: float
    right_mm: float

    @property
    def width_mm(self) -> float:
        return self.right_mm - self.left_mm


@dataclass(frozen=True)
class CarcassBox:
    """`side_foot_mm`: z of the sides' lower edges; `floor_mm`, `roof_mm`: z of the bottom's upper face and of the
    underside of what is on top; `side_depth_mm`: the sides' own depth; `inside_depth_mm`: from the front edge to the
    back's inside face; `back_*`: the back panel's edges, groove included. `spaces` in order; their dividers between."""

    item: Carcass | OpenUnit
    width_mm: float
    height_mm: float
    depth_mm: float
    board_mm: float
    side_foot_mm: float
    floor_mm: float
    roof_mm: float
    side_depth_mm: float
    inside_depth_mm: float
    back_left_mm: float
    back_right_mm: float
    back_foot_mm: float
    back_top_mm: float
    divider_mm: float
    spaces: tuple[Space, ...]

    @property
    def dividers_mm(self) -> tuple[float, ...]:
        """x of the left face of each divider."""
        return tuple(one.right_mm for one in self.spaces[:-1])

    def space(self, compartment: str) -> Space:
        """Raises StopIteration for the id of a compartment of another carcass."""
        return next(one for one in self.spaces if one.compartment.id == compartment)


def carcass_box(item: Carcass | OpenUnit) -> CarcassBox:
    """The box that follows from the item's outside size and how it is made. What does not go in has a width of nought
    or less; `box_findings` tells."""
    box, fitted = item.box, item.fitting_out or FittingOut()
    between = box.bottom is BottomFit.BETWEEN_SIDES
    on = box.back is BackIs.ON
    groove_mm = box.groove_mm if box.back is BackIs.GROOVE else 0.0
    floor_mm, roof_mm = box.board_mm, item.height_mm - box.board_mm
    reach_mm = box.board_mm if on else groove_mm
    return CarcassBox(
        item=item,
        width_mm=item.width_mm,
        height_mm=item.height_mm,
        depth_mm=item.depth_mm,
        board_mm=box.board_mm,
        side_foot_mm=0.0 if between else box.board_mm,
        floor_mm=floor_mm,
        roof_mm=roof_mm,
        side_depth_mm=item.depth_mm - (box.back_mm if on else 0.0),
        inside_depth_mm=item.depth_mm - box.back_mm - (0.0 if on else box.back_recess_mm),
        back_left_mm=box.board_mm - reach_mm,
        back_right_mm=item.width_mm - box.board_mm + reach_mm,
        back_foot_mm=floor_mm - reach_mm,
        back_top_mm=roof_mm + (box.board_mm if box.top is TopIs.RAILS else reach_mm),
        divider_mm=fitted.divider_mm,
        spaces=_spaces(item, box, fitted),
    )


def _spaces(item: Carcass | OpenUnit, box: Box, fitted: FittingOut) -> tuple[Space, ...]:
    compartments = fitted.compartments or (Compartment(item.id, "inside"),)
    left_mm = box.board_mm
    inside_mm = item.width_mm - 2 * box.board_mm - fitted.divider_mm * (len(compartments) - 1)
    taken_mm = sum(one.width_mm for one in compartments if one.width_mm is not None)
    sharing = sum(one.width_mm is None for one in compartments)
    share_mm = (inside_mm - taken_mm) / sharing if sharing else 0.0
    found = []
    for one in compartments:
        width_mm = share_mm if one.width_mm is None else one.width_mm
        found.append(Space(one, left_mm, left_mm + width_mm))
        left_mm += width_mm + fitted.divider_mm
    return tuple(found)
