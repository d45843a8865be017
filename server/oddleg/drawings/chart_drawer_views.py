"""Views of a drawer runner and of a pull-out frame."""

from __future__ import annotations

from oddleg.job import FixedTo, PullOut, Runner

from .chart_view import BOARD_MM, Tick, View, each, mm, tick
from .primitives import Circle, Line, Mark, Text, rectangle

# A drawer as wide as this between what runners and parts take; the rest of it shows nothing.
MIDDLE_MM = 160.0


def runner(row: Runner) -> View:
    end_mm = row.front_mm + row.length_mm
    low_mm, high_mm, floor_mm = row.up_mm - row.below_mm, row.up_mm + row.above_mm, row.up_mm - row.least_up_mm
    body_mm = min(abs(row.below_mm), 10.0)
    top_mm = max(high_mm, row.least_front_mm) + 20
    far_mm = end_mm + row.rear_void_mm + 20
    screws = [row.first_mm + one for one in row.screws_mm]
    marks: list[Mark] = [
        rectangle(0, floor_mm - BOARD_MM, far_mm, floor_mm, "part"),
        rectangle(-BOARD_MM, 0, 0, row.least_front_mm, "part"),
        rectangle(row.front_mm, low_mm, end_mm, high_mm, "bay"),
        rectangle(row.front_mm, row.up_mm - body_mm, end_mm, row.up_mm + body_mm, "tint"),
        rectangle(end_mm, row.up_mm - body_mm, end_mm + row.rear_void_mm, row.up_mm + body_mm, "bay"),
        Line(0, min(0.0, floor_mm - BOARD_MM), 0, top_mm, "heavy"),
        Line(0, row.up_mm, far_mm, row.up_mm, "dashed"),
        *(Circle(at_mm, row.up_mm, row.hole_mm / 2, "spot") for at_mm in screws),
    ]
    across = [
        Tick(0, "0 front edge", True),
        tick(row.front_mm, "runner begins"),
        *(tick(at_mm, "screw") for at_mm in screws),
        Tick(end_mm, f"{mm(end_mm)} end of {mm(row.length_mm)}"),
    ]
    if row.rear_void_mm:
        across.append(Tick(end_mm + row.rear_void_mm, f"{mm(row.rear_void_mm)} free behind"))
    up = (
        Tick(floor_mm, f"board {mm(row.least_up_mm)} below screws"),
        Tick(0, "0 front's edge", True),
        Tick(low_mm, f"drawer {mm(row.below_mm)} below"),
        tick(row.up_mm, "screws"),
        Tick(high_mm, f"drawer {mm(row.above_mm)} above"),
        tick(row.least_front_mm, "least front"),
    )
    return View("Side from inside, front edge on the left", tuple(marks), tuple(across), up)


def drawer(row: Runner) -> View:
    """From behind. No chart says how high base and back sit: here at the foot of what runner and drawer take."""
    wide_mm = max(row.base_less_mm, row.back_less_mm, 2 * row.side_mm, 0.0) + MIDDLE_MM
    low_mm, high_mm = row.up_mm - row.below_mm, row.up_mm + row.above_mm
    base_mm = low_mm + row.base_clear_mm
    back_mm = base_mm + row.board_mm
    marks: list[Mark] = []
    for left_mm, way in ((0.0, 1), (wide_mm, -1)):
        marks += [
            rectangle(left_mm - way * BOARD_MM, min(0.0, low_mm) - 10, left_mm, high_mm + 10, "part"),
            rectangle(left_mm, low_mm, left_mm + way * row.side_mm, high_mm, "bay"),
            Line(left_mm - way * BOARD_MM, row.up_mm, left_mm + way * row.side_mm, row.up_mm, "dashed"),
        ]
    base_at, back_at = row.base_less_mm / 2, row.back_less_mm / 2
    marks += [
        rectangle(base_at, base_mm, wide_mm - base_at, back_mm, "part"),
        rectangle(back_at, back_mm, wide_mm - back_at, back_mm + row.back_height_mm, "tint"),
        rectangle(back_at, back_mm, wide_mm - back_at, back_mm + row.back_height_mm, "line"),
        Text(wide_mm / 2, back_mm + row.back_height_mm / 2, "back", 0, "middle"),
        Text(wide_mm / 2, (base_mm + back_mm) / 2, "base", 0, "middle"),
    ]
    across = (
        Tick(0, "0 side", True),
        Tick(base_at, f"{mm(base_at)} base"),
        Tick(back_at, f"{mm(back_at)} back"),
        Tick(row.side_mm, f"{mm(row.side_mm)} runner and drawer"),
        Tick(wide_mm, "0 other side", True),
    )
    up = (
        Tick(low_mm, "drawer's foot"),
        Tick(base_mm, f"{mm(row.base_clear_mm)} free under the base"),
        Tick(back_mm, f"{mm(row.board_mm)} base"),
        Tick(back_mm + row.back_height_mm, f"{mm(row.back_height_mm)} back"),
    )
    return View("Drawer from behind, between its sides; its middle is left out", tuple(marks), across, up)


def frame(row: PullOut) -> View:
    bottom = row.fixed_to is FixedTo.BOTTOM
    low_mm, high_mm = (-row.greatest_width_mm / 2, row.greatest_width_mm / 2) if bottom else (0.0, row.least_height_mm)
    holes = list(zip(row.holes_u_mm, row.holes_across_mm, strict=False))
    marks: list[Mark] = []
    if bottom:
        half_mm = row.least_width_mm / 2
        marks += [
            rectangle(low_mm, 0, high_mm, row.least_depth_mm, "bay"),
            rectangle(-half_mm, 0, half_mm, row.least_depth_mm, "tint"),
            Line(low_mm, 0, high_mm, 0, "heavy"),
            *(Circle(across, u, row.hole_mm / 2, "spot") for u, across in holes),
        ]
        widths = (
            Tick(-half_mm, f"{mm(row.least_width_mm)} least"),
            Tick(high_mm, f"{mm(row.greatest_width_mm)} greatest"),
        )
        across = (Tick(0, "0 middle", True), *each(row.holes_across_mm), *widths)
        up = (Tick(0, "0 front edge", True), *each(row.holes_u_mm), tick(row.least_depth_mm, "least depth"))
        caption = f"Bottom from above, front edge below; least height {mm(row.least_height_mm)}"
        return View(caption, tuple(marks), across, up)
    marks += [
        rectangle(0, 0, row.least_depth_mm, row.least_height_mm, "tint"),
        Line(0, 0, 0, row.least_height_mm, "heavy"),
        *(Circle(u, up, row.hole_mm / 2, "spot") for u, up in holes),
    ]
    across = (Tick(0, "0 front edge", True), *each(row.holes_u_mm), tick(row.least_depth_mm, "least depth"))
    up = (Tick(0, "0 bottom", True), *each(row.holes_across_mm), tick(row.least_height_mm, "least height"))
    widths = f"inside width {mm(row.least_width_mm)} to {mm(row.greatest_width_mm)}"
    return View(f"Side from inside, front edge on the left; {widths}", tuple(marks), across, up)


def frame_front(row: PullOut) -> View:
    half_mm = max([row.greatest_width_mm / 2, *map(abs, row.door_across_mm)]) + 20
    high_mm = max([*row.door_up_mm, row.least_height_mm]) + 20
    marks: tuple[Mark, ...] = (
        rectangle(-half_mm, 0, half_mm, high_mm, "tint"),
        Line(-half_mm, 0, half_mm, 0, "heavy"),
        Line(0, 0, 0, high_mm, "dashed"),
        *(Circle(x, y, row.door_hole_mm / 2, "spot") for x, y in zip(row.door_across_mm, row.door_up_mm, strict=False)),
    )
    across = (Tick(0, "0 middle", True), *each(row.door_across_mm))
    up = (Tick(0, "0 lower edge", True), *each(row.door_up_mm))
    return View("Its front from behind", marks, across, up)
