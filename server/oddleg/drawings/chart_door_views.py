"""Views of a hinge and of its mounting plate."""

from __future__ import annotations

from oddleg.job import Hinge, Plate

from .chart_view import BOARD_MM, Tick, View, mm, tick
from .primitives import Circle, Line, Mark, Text, rectangle


def cup(row: Hinge) -> View:
    middle_mm, other_mm = (edge + row.cup_mm / 2 for edge in (row.least_edge_mm, row.greatest_edge_mm))
    screws_mm, half_mm = middle_mm + row.screws_back_mm, row.screws_apart_mm / 2
    wide_mm = max(screws_mm, other_mm + row.cup_mm / 2, 0.0) + 40
    high_mm = row.end_mm + max(half_mm, row.cup_mm / 2) + 20
    marks: tuple[Mark, ...] = (
        rectangle(0, 0, wide_mm, high_mm, "tint"),
        Line(0, 0, 0, high_mm, "heavy"),
        Line(0, 0, wide_mm, 0, "line"),
        Circle(other_mm, row.end_mm, row.cup_mm / 2, "bay"),
        Circle(middle_mm, row.end_mm, row.cup_mm / 2, "spot"),
        *(Circle(screws_mm, row.end_mm + sign * half_mm, row.screw_mm / 2, "spot") for sign in (-1, 1)),
    )
    across = (
        Tick(0, "0 hinge edge", True),
        tick(row.least_edge_mm, "least to the cup"),
        tick(row.greatest_edge_mm, "greatest"),
        tick(middle_mm, "cup"),
        tick(screws_mm, "screws"),
    )
    up = (
        Tick(0, "0 door's end", True),
        tick(row.end_mm - half_mm, "screw"),
        tick(row.end_mm, "cup"),
        tick(row.end_mm + half_mm, "screw"),
    )
    return View("Door from behind; dashed: cup at the greatest edge distance", marks, across, up)


def closed(row: Hinge) -> View:
    """From above. An overlay of nought or less: the door lies inside."""
    edge_mm = (row.least_edge_mm + row.greatest_edge_mm) / 2
    overlay_mm, thick_mm = row.constant_mm + edge_mm, row.least_door_mm
    door_mm = BOARD_MM - overlay_mm
    inset = overlay_mm <= 0
    low_mm, high_mm = (0.0, thick_mm) if inset else (-thick_mm, 0.0)
    cup_mm = door_mm + edge_mm
    end_mm = max(cup_mm + row.cup_mm, BOARD_MM + row.intrusion_mm) + 20
    marks: tuple[Mark, ...] = (
        rectangle(0, 0, BOARD_MM, 90, "part"),
        rectangle(door_mm, low_mm, end_mm, high_mm, "tint"),
        rectangle(door_mm, low_mm, end_mm, high_mm, "line"),
        rectangle(cup_mm, high_mm - row.cup_depth_mm, cup_mm + row.cup_mm, high_mm, "paper"),
        rectangle(cup_mm, high_mm - row.cup_depth_mm, cup_mm + row.cup_mm, high_mm, "line"),
        Line(BOARD_MM + row.intrusion_mm, 0, BOARD_MM + row.intrusion_mm, 90, "dashed"),
        Text(BOARD_MM / 2, 60, "side", 0, "middle"),
    )
    across = (
        Tick(door_mm, f"{mm(overlay_mm)} overlay: door's edge"),
        Tick(BOARD_MM, "0 inside of the side", True),
        Tick(BOARD_MM + row.intrusion_mm, f"{mm(row.intrusion_mm)} open door reaches in"),
    )
    up = (
        Tick(high_mm, "0 door's back", True),
        Tick(low_mm, f"{mm(row.least_door_mm)} least door"),
        Tick(high_mm - row.cup_depth_mm, f"{mm(row.cup_depth_mm)} cup"),
    )
    where = "inside" if inset else "before"
    caption = (
        f"From above, on an {mm(BOARD_MM)} side, door {where} it: edge distance {mm(edge_mm)}, plate 0 high: "
        f"overlay {mm(overlay_mm)}"
    )
    return View(caption, marks, across, up)


def hinges(row: Hinge) -> View:
    wide_mm = 400.0
    marks: list[Mark] = []
    across = []
    for number, (high_mm, kg) in enumerate(zip(row.up_to_mm, row.up_to_kg, strict=False)):
        left_mm = number * wide_mm * 1.2
        marks.append(rectangle(left_mm, 0, left_mm + wide_mm, high_mm, "tint"))
        marks.append(rectangle(left_mm, 0, left_mm + wide_mm, high_mm, "line"))
        across.append(Tick(left_mm + wide_mm / 2, f"{number + 2}: {mm(kg)} kg"))
    up = tuple(Tick(one, mm(one)) for one in row.up_to_mm)
    return View("Hinges a door: up to what height and weight", tuple(marks), tuple(across), up)


def plate(row: Plate) -> View:
    half_mm = row.spread_mm / 2
    high_mm = abs(half_mm) + 20
    beside_mm = row.row_mm + 75
    face_mm = beside_mm + BOARD_MM
    marks: tuple[Mark, ...] = (
        rectangle(0, -high_mm, row.row_mm + 60, high_mm, "tint"),
        Line(0, -high_mm, 0, high_mm, "heavy"),
        Line(0, 0, row.row_mm + 60, 0, "dashed"),
        rectangle(row.row_mm - 8, -half_mm - 6, row.row_mm + 8, half_mm + 6, "bay"),
        *(Circle(row.row_mm, sign * half_mm, row.hole_mm / 2, "spot") for sign in (-1, 1)),
        rectangle(beside_mm, -high_mm, face_mm, high_mm, "part"),
        rectangle(face_mm, -half_mm - 6, face_mm + row.height_mm, half_mm + 6, "packing"),
    )
    across = (
        Tick(0, "0 front edge", True),
        tick(row.row_mm, "screws"),
        Tick(face_mm, "0", True),
        Tick(face_mm + row.height_mm, f"{mm(row.height_mm)} plate's height"),
    )
    up = (Tick(-half_mm, "0 screw", True), Tick(half_mm, f"{mm(row.spread_mm)} screw"))
    return View("Side from inside, front edge on the left; beside it the plate in section", marks, across, up)
