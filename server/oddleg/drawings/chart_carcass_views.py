"""Views of legs, hanging brackets, connecting screws and shelf pins."""

from __future__ import annotations

from oddleg.job import Bracket, Connector, Leg, Pin

from .chart_view import Tick, View, each, mm, tick
from .primitives import Circle, Line, Mark, rectangle

# A side to show places on, as deep and high as many are.
DEPTH_MM, HEIGHT_MM = 560.0, 720.0
PIN_LINES = 6


def leg_holes(row: Leg) -> View:
    marks: list[Mark] = [Line(-10, 0, 10, 0, "thin"), Line(0, -10, 0, 10, "thin")]
    marks += [Circle(x, y, row.hole_mm / 2, "spot") for x, y in zip(row.right_mm, row.back_mm, strict=False)]
    across = (Tick(0, "0 leg's middle", True), *each(row.right_mm))
    up = (Tick(0, "0 middle", True), *each(row.back_mm))
    return View("Holes as fitted, seen from above; the carcass's back is up", tuple(marks), across, up)


def leg_height(row: Leg) -> View:
    marks: tuple[Mark, ...] = (
        rectangle(-20, 0, 20, row.least_mm, "part"),
        rectangle(-20, row.least_mm, 20, row.greatest_mm, "bay"),
        Line(-35, 0, 35, 0, "heavy"),
    )
    up = (Tick(0, "0 floor", True), tick(row.least_mm, "least"), tick(row.greatest_mm, "greatest"))
    return View("Height", marks, (), up)


def bracket(row: Bracket) -> View:
    wide_mm, high_mm = max(row.in_mm, default=0.0) + 60, max([*row.down_mm, row.rail_down_mm + 30]) + 30
    marks: tuple[Mark, ...] = (
        rectangle(-wide_mm, -high_mm, 0, 0, "tint"),
        Line(-wide_mm, 0, 0, 0, "heavy"),
        Line(0, -high_mm, 0, 0, "heavy"),
        Line(-row.least_recess_mm, -high_mm, -row.least_recess_mm, 0, "dashed"),
        rectangle(-row.least_recess_mm, -row.rail_down_mm - 30, 0, -row.rail_down_mm, "part"),
        *(Circle(-x, -y, row.hole_mm / 2, "spot") for x, y in zip(row.in_mm, row.down_mm, strict=False)),
    )
    across = (
        Tick(0, "0 rear edge", True),
        *(Tick(-one, mm(one)) for one in dict.fromkeys(row.in_mm)),
        Tick(-row.least_recess_mm, f"{mm(row.least_recess_mm)} back set in"),
    )
    up = (
        Tick(0, "0 top edge", True),
        *(Tick(-one, mm(one)) for one in dict.fromkeys(row.down_mm)),
        Tick(-row.rail_down_mm, f"{mm(row.rail_down_mm)} rail"),
    )
    return View("Side from inside, rear edge on the right; the rail behind it", marks, across, up)


def connector(row: Connector) -> View:
    wide_mm = max(DEPTH_MM, row.front_mm + row.back_mm + 100)
    high_mm = max(HEIGHT_MM, row.top_mm + row.bottom_mm + 100)
    places = [(x, y) for x in (row.front_mm, wide_mm - row.back_mm) for y in (row.bottom_mm, high_mm - row.top_mm)]
    marks: tuple[Mark, ...] = (
        rectangle(0, 0, wide_mm, high_mm, "tint"),
        Line(0, 0, 0, high_mm, "heavy"),
        *(Circle(x, y, row.hole_mm / 2, "spot") for x, y in places),
    )
    across = (
        Tick(0, "0 front edge", True),
        tick(row.front_mm, "screws"),
        Tick(wide_mm - row.back_mm, f"{mm(row.back_mm)} screws"),
        Tick(wide_mm, "0 back edge", True),
    )
    up = (
        Tick(0, "0 bottom", True),
        tick(row.bottom_mm, "screw"),
        Tick(high_mm - row.top_mm, f"{mm(row.top_mm)} screw"),
        Tick(high_mm, "0 top", True),
    )
    size = f"{mm(wide_mm)} by {mm(high_mm)}"
    return View(f"Side from inside, here {size}, front edge on the left", marks, across, up)


def clearance(row: Connector) -> View:
    rim_mm = row.hole_mm / 2
    ring_mm = rim_mm + row.clear_mm
    marks: tuple[Mark, ...] = (Circle(0, 0, ring_mm, "bay"), Circle(0, 0, rim_mm, "spot"))
    across = (Tick(rim_mm, "0 rim", True), Tick(ring_mm, f"{mm(row.clear_mm)} kept clear"))
    return View("No rim of another hole inside the dashed ring", marks, across)


def boards(row: Connector) -> View:
    half_mm, most_mm = row.least_boards_mm / 2, row.greatest_boards_mm
    marks: tuple[Mark, ...] = (
        rectangle(0, 0, half_mm, 40, "part"),
        rectangle(half_mm, 0, row.least_boards_mm, 40, "part"),
        rectangle(row.least_boards_mm, 0, most_mm, 40, "bay"),
        rectangle(0, 20 - row.hole_mm / 2, most_mm, 20 + row.hole_mm / 2, "spot"),
    )
    across = (Tick(0, "0", True), tick(row.least_boards_mm, "least"), tick(most_mm, "greatest"))
    up = (Tick(20, f"{mm(row.hole_mm)} bore"),)
    return View("Both sides in section", marks, across, up)


def pin(row: Pin) -> View:
    pitch_mm = max(row.pitch_mm, 1.0)
    rows = max(0, int((DEPTH_MM - row.least_back_mm - row.row_mm) // pitch_mm))
    rear_mm = row.row_mm + rows * pitch_mm
    high_mm = (PIN_LINES + 1) * row.pitch_mm
    lines = [number * row.pitch_mm for number in range(1, PIN_LINES + 1)]
    marks: tuple[Mark, ...] = (
        rectangle(0, 0, DEPTH_MM, high_mm, "tint"),
        Line(0, 0, 0, high_mm, "heavy"),
        *(Circle(x, y, row.hole_mm / 2, "spot") for x in dict.fromkeys((row.row_mm, rear_mm)) for y in lines),
    )
    across = (
        Tick(0, "0 front edge", True),
        tick(row.row_mm, "front row"),
        tick(rear_mm, "rear row"),
        tick(DEPTH_MM, "rear edge"),
    )
    up = (Tick(lines[0], "0", True), *(Tick(one, mm(one - lines[0])) for one in lines[1:]))
    told = f"Side from inside, here {mm(DEPTH_MM)} deep; rear row {rows} times {mm(row.pitch_mm)} behind the front row"
    return View(told, marks, across, up)
