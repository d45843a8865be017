"""What is drawn of each kind of hardware: views in mm of the thing itself, x to the right and y up, with the figures of
the chart along both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import (
    Bracket,
    Connector,
    FixedTo,
    HardwareRow,
    Hinge,
    Leg,
    Pin,
    Plate,
    PullOut,
    Runner,
)
from oddleg.plan.figure import text_mm

from .primitives import Circle, Line, Mark, Text, rectangle

# What the chart leaves open and a picture needs: an example, and said so where it is read.
BOARD_MM, DEPTH_MM, HEIGHT_MM, MIDDLE_MM = 18.0, 560.0, 720.0, 160.0
STEP_MM, RINGS = 0.01, 6


@dataclass(frozen=True)
class Tick:
    """A figure of the chart at its place; `origin`: it counts from there."""

    at_mm: float
    text: str
    origin: bool = False


@dataclass(frozen=True)
class View:
    """`marks`: in mm, y up; Text has no size of its own. `across`, `up`: figures along x and y."""

    caption: str
    marks: tuple[Mark, ...]
    across: tuple[Tick, ...] = ()
    up: tuple[Tick, ...] = ()


def mm(value_mm: float) -> str:
    """As it was typed, to a hundredth."""
    return text_mm(value_mm, STEP_MM)


def tick(at_mm: float, words: str) -> Tick:
    return Tick(at_mm, f"{mm(at_mm)} {words}")


def views_of(row: HardwareRow) -> tuple[View, ...]:
    match row:
        case Runner():
            return _runner(row), _drawer(row)
        case Hinge():
            return _cup(row), _closed(row), _hinges(row)
        case Plate():
            return _plate(row), _section(row.hole_mm, row.hole_depth_mm)
        case Leg():
            return _leg_holes(row), _leg_height(row)
        case Bracket():
            return _bracket(row), _section(row.hole_mm, row.hole_depth_mm)
        case Connector():
            return _connector(row), _boards(row)
        case Pin():
            return _pin(row), _section(row.hole_mm, row.hole_depth_mm)
        case PullOut():
            return (_frame(row), _frame_front(row)) if row.door_up_mm else (_frame(row),)


def words_of(row: HardwareRow) -> list[str]:
    """What a picture cannot show."""
    match row:
        case Runner():
            edges = ", ".join(row.base_edges) or "no edge"
            back = ", ".join(row.back_edges) or "no edge"
            return [
                f"Holes {mm(row.hole_mm)} across, {mm(row.hole_depth_mm)} deep. A pair carries {mm(row.load_kg)} kg.",
                f"Base: inside width less {mm(row.base_less_mm)}, front to back length less {mm(row.base_shorter_mm)}, "
                f"which is {mm(row.length_mm - row.base_shorter_mm)}. Back: inside width less {mm(row.back_less_mm)}, "
                f"{mm(row.back_height_mm)} high.",
                f"A base thicker than {mm(row.board_mm)} is rebated {mm(row.base_lip_mm)} wide on {edges}, "
                f"{'from below' if row.base_face == 'below' else 'on top'}, with {mm(row.base_clear_mm)} free under its "
                f"lip; a back {mm(row.back_lip_mm)} wide on {back}.",
            ]
        case Hinge():
            return [
                f"Cup {mm(row.cup_mm)} across, {mm(row.cup_depth_mm)} deep; screws {mm(row.screw_mm)} across, "
                f"{mm(row.screw_depth_mm)} deep. Doors {mm(row.least_door_mm)} to {mm(row.greatest_door_mm)} thick.",
                f"Overlay = {mm(row.constant_mm)} + edge distance less height of the plate.",
            ]
        case Leg():
            return [
                f"Holes {mm(row.hole_mm)} across, {mm(row.hole_depth_mm)} deep. One leg carries {mm(row.load_kg)} kg."
            ]
        case Bracket():
            return [f"A pair carries {mm(row.load_kg)} kg into the rail; what the wall carries is another question."]
        case Connector():
            return [f"Rings show the {mm(row.clear_mm)} kept from the rim of any other hole."]
        case Pin():
            return [f"Four carry {mm(row.load_kg)} kg."]
        case PullOut():
            front = f"; in its front {mm(row.door_hole_mm)} and {mm(row.door_hole_depth_mm)}" if row.door_up_mm else ""
            return [
                f"Holes {mm(row.hole_mm)} across and {mm(row.hole_depth_mm)} deep{front}. It carries {mm(row.load_kg)} kg."
            ]
        case _:
            return []


def _runner(row: Runner) -> View:
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
        tick(end_mm, "runner ends"),
    ]
    if row.rear_void_mm:
        across.append(tick(end_mm + row.rear_void_mm, "free behind it"))
    up = (
        Tick(floor_mm, f"{mm(floor_mm)} board below"),
        Tick(0, "0 front's edge", True),
        tick(low_mm, "drawer's foot"),
        tick(row.up_mm, "screws"),
        tick(high_mm, "drawer's top"),
        tick(row.least_front_mm, "least front"),
    )
    return View("Side from inside, front edge on the left", tuple(marks), tuple(across), up)


def _drawer(row: Runner) -> View:
    """From behind. How high base and back sit on the runner no chart says: at the foot of what runner and drawer take."""
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
        Tick(base_mm, f"{mm(row.base_clear_mm)} free under the base"),
        Tick(back_mm, f"{mm(row.board_mm)} base"),
        Tick(back_mm + row.back_height_mm, f"{mm(row.back_height_mm)} back"),
    )
    return View("Drawer from behind, between its sides; its middle is left out", tuple(marks), across, up)


def _cup(row: Hinge) -> View:
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


def _closed(row: Hinge) -> View:
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
        Text(BOARD_MM / 2, 96, "side", 0, "middle"),
    )
    across = (
        Tick(door_mm, f"{mm(overlay_mm)} overlay: door's edge"),
        Tick(BOARD_MM, "0 inside of the side", True),
        Tick(BOARD_MM + row.intrusion_mm, f"{mm(row.intrusion_mm)} open door reaches in"),
    )
    up = (
        Tick(low_mm, f"{mm(row.least_door_mm)} least door"),
        Tick(high_mm - row.cup_depth_mm, f"{mm(row.cup_depth_mm)} cup"),
    )
    where = "inside" if inset else "before"
    caption = (
        f"From above, on an {mm(BOARD_MM)} side, door {where} it: edge distance {mm(edge_mm)}, plate 0 high: "
        f"overlay {mm(overlay_mm)}"
    )
    return View(caption, marks, across, up)


def _hinges(row: Hinge) -> View:
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


def _plate(row: Plate) -> View:
    half_mm = row.spread_mm / 2
    high_mm = abs(half_mm) + 20
    marks: tuple[Mark, ...] = (
        rectangle(0, -high_mm, row.row_mm + 60, high_mm, "tint"),
        Line(0, -high_mm, 0, high_mm, "heavy"),
        Line(0, 0, row.row_mm + 60, 0, "dashed"),
        rectangle(row.row_mm - 8, -half_mm - 6, row.row_mm + 8, half_mm + 6, "bay"),
        *(Circle(row.row_mm, sign * half_mm, row.hole_mm / 2, "spot") for sign in (-1, 1)),
        rectangle(row.row_mm + 75, -high_mm, row.row_mm + 75 + BOARD_MM, high_mm, "part"),
        rectangle(row.row_mm + 75 + BOARD_MM, -half_mm - 6, row.row_mm + 75 + BOARD_MM + row.height_mm, half_mm + 6, "packing"),
    )  # fmt: skip
    across = (
        Tick(0, "0 front edge", True),
        tick(row.row_mm, "screws"),
        Tick(row.row_mm + 75 + BOARD_MM + row.height_mm, f"{mm(row.height_mm)} plate's height"),
    )
    up = (Tick(-half_mm, "0 screw", True), Tick(half_mm, f"{mm(row.spread_mm)} screw"))
    return View("Side from inside, front edge on the left; beside it the plate in section", marks, across, up)


def _leg_holes(row: Leg) -> View:
    marks: list[Mark] = [Line(-10, 0, 10, 0, "thin"), Line(0, -10, 0, 10, "thin")]
    marks += [
        Circle(x, y, row.hole_mm / 2, "spot") for x, y in zip(row.right_mm, row.back_mm, strict=False)
    ]  # fmt: skip
    across = (Tick(0, "0 leg's middle", True), *_each(row.right_mm))
    up = (Tick(0, "0 middle", True), *_each(row.back_mm))
    return View("Holes as fitted, seen from above; the carcass's back is up", tuple(marks), across, up)


def _leg_height(row: Leg) -> View:
    marks: tuple[Mark, ...] = (
        rectangle(-20, 0, 20, row.least_mm, "part"),
        rectangle(-20, row.least_mm, 20, row.greatest_mm, "bay"),
        Line(-35, 0, 35, 0, "heavy"),
    )
    up = (Tick(0, "0 floor", True), tick(row.least_mm, "least"), tick(row.greatest_mm, "greatest"))
    return View("Height", marks, (), up)


def _bracket(row: Bracket) -> View:
    wide_mm, high_mm = max(row.in_mm, default=0.0) + 60, max([*row.down_mm, row.rail_down_mm + 30]) + 30
    marks: tuple[Mark, ...] = (
        rectangle(-wide_mm, -high_mm, 0, 0, "tint"),
        Line(-wide_mm, 0, 0, 0, "heavy"),
        Line(0, -high_mm, 0, 0, "heavy"),
        Line(-row.least_recess_mm, -high_mm, -row.least_recess_mm, 0, "dashed"),
        rectangle(-row.least_recess_mm, -row.rail_down_mm - 30, 0, -row.rail_down_mm, "part"),
        *(
            Circle(-x, -y, row.hole_mm / 2, "spot")
            for x, y in zip(row.in_mm, row.down_mm, strict=False)
        ),
    )  # fmt: skip
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


def _connector(row: Connector) -> View:
    wide_mm = max(DEPTH_MM, row.front_mm + row.back_mm + 100)
    high_mm = max(HEIGHT_MM, row.top_mm + row.bottom_mm + 100)
    places = [(x, y) for x in (row.front_mm, wide_mm - row.back_mm) for y in (row.bottom_mm, high_mm - row.top_mm)]
    ring_mm = row.hole_mm / 2 + row.clear_mm
    marks: tuple[Mark, ...] = (
        rectangle(0, 0, wide_mm, high_mm, "tint"),
        Line(0, 0, 0, high_mm, "heavy"),
        *(Circle(x, y, ring_mm, "bay") for x, y in places),
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


def _boards(row: Connector) -> View:
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


def _pin(row: Pin) -> View:
    pitch_mm = max(row.pitch_mm, 1.0)
    rows = max(0, int((DEPTH_MM - row.least_back_mm - row.row_mm) // pitch_mm))
    rear_mm = row.row_mm + rows * pitch_mm
    high_mm = (RINGS + 1) * row.pitch_mm
    lines = [number * row.pitch_mm for number in range(1, RINGS + 1)]
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


def _frame(row: PullOut) -> View:
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
        across = (Tick(0, "0 middle", True), *_each(row.holes_across_mm), *widths)
        up = (Tick(0, "0 front edge", True), *_each(row.holes_u_mm), tick(row.least_depth_mm, "least depth"))
        caption = f"Bottom from above, front edge below; least height {mm(row.least_height_mm)}"
        return View(caption, tuple(marks), across, up)
    marks += [
        rectangle(0, 0, row.least_depth_mm, row.least_height_mm, "tint"),
        Line(0, 0, 0, row.least_height_mm, "heavy"),
        *(Circle(u, up, row.hole_mm / 2, "spot") for u, up in holes),
    ]
    across = (Tick(0, "0 front edge", True), *_each(row.holes_u_mm), tick(row.least_depth_mm, "least depth"))
    up = (Tick(0, "0 bottom", True), *_each(row.holes_across_mm), tick(row.least_height_mm, "least height"))
    widths = f"inside width {mm(row.least_width_mm)} to {mm(row.greatest_width_mm)}"
    return View(f"Side from inside, front edge on the left; {widths}", tuple(marks), across, up)


def _frame_front(row: PullOut) -> View:
    half_mm = max([row.greatest_width_mm / 2, *map(abs, row.door_across_mm)]) + 20
    high_mm = max([*row.door_up_mm, row.least_height_mm]) + 20
    marks: tuple[Mark, ...] = (
        rectangle(-half_mm, 0, half_mm, high_mm, "tint"),
        Line(-half_mm, 0, half_mm, 0, "heavy"),
        Line(0, 0, 0, high_mm, "dashed"),
        *(
            Circle(x, y, row.door_hole_mm / 2, "spot")
            for x, y in zip(row.door_across_mm, row.door_up_mm, strict=False)
        ),
    )  # fmt: skip
    across = (Tick(0, "0 middle", True), *_each(row.door_across_mm))
    up = (Tick(0, "0 lower edge", True), *_each(row.door_up_mm))
    return View("Its front from behind", marks, across, up)


def _section(hole_mm: float, deep_mm: float) -> View:
    """A hole in a board of the usual thickness: one that comes through is seen."""
    half_mm, wide_mm = hole_mm / 2, max(30.0, 2 * hole_mm)
    marks: tuple[Mark, ...] = (
        rectangle(-wide_mm, 0, wide_mm, BOARD_MM, "part"),
        rectangle(-half_mm, BOARD_MM - deep_mm, half_mm, BOARD_MM, "paper"),
        rectangle(-half_mm, BOARD_MM - deep_mm, half_mm, BOARD_MM, "line"),
    )
    across = (Tick(half_mm, f"{mm(hole_mm)} across"),)
    up = (
        Tick(BOARD_MM, "0 face", True),
        Tick(BOARD_MM - deep_mm, f"{mm(deep_mm)} deep"),
        Tick(0, f"{mm(BOARD_MM)} board"),
    )
    return View(f"Its hole in a board of {mm(BOARD_MM)}", marks, across, up)


def _each(places: Sequence[float]) -> tuple[Tick, ...]:
    return tuple(Tick(one, mm(one)) for one in dict.fromkeys(places) if one)
