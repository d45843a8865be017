"""The grid of holes in a carcass's sides: lines at a pitch of 32 mm (common practice; no standards body has it)."""

from __future__ import annotations

import math

from oddleg.job import FittingOut

from .carcass_box import CarcassBox

PITCH_MM = 32.0


def grid_first_mm(box: CarcassBox, pitch_mm: float = PITCH_MM) -> float:
    """Height of the grid's lowest line over the sides' lower edge, mm, where the carcass does not state it: balanced,
    side height = pitch x n + 2 x first, with the least first of a pitch or more."""
    stated_mm = (box.item.fitting_out or FittingOut()).grid_first_mm
    if stated_mm is not None:
        return stated_mm
    side_mm = box.height_mm - box.side_foot_mm
    spaces = max(0, math.floor(side_mm / pitch_mm + 1e-9) - 2)
    return (side_mm - spaces * pitch_mm) / 2


def line_mm(box: CarcassBox, number: int, pitch_mm: float = PITCH_MM) -> float:
    """z of a line of the grid; the lowest is number 0."""
    return box.side_foot_mm + grid_first_mm(box, pitch_mm) + number * pitch_mm


def nearest_line(box: CarcassBox, z_mm: float, pitch_mm: float = PITCH_MM) -> int:
    """Number of the line nearest to z; of two equally near ones the lower."""
    return max(0, math.ceil((z_mm - line_mm(box, 0, pitch_mm)) / pitch_mm - 0.5 - 1e-9))
