"""Panels made by hand, for tests of what shows them. Everything in them is made up; figures that a test holds on to are
worked out beside it."""

from dataclasses import replace

from oddleg.job import Carcass, FrontIs, Handing
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.fitted_out import (
    CutOut,
    DrawerBox,
    Face,
    FittedOut,
    Hole,
    HoleFor,
    Panel,
    PanelKind,
    PlacedFront,
    StackFilled,
)  # fmt: skip

FACE_WORDS = "inside face up"


def side(kind=PanelKind.LEFT, width_mm=560.0, height_mm=720.0, holes=(), cut_outs=(), item="unit-1"):
    right = kind in (PanelKind.RIGHT, PanelKind.DIVIDER)
    name = {"left_side": "Left side", "right_side": "Right side", "divider": "Divider"}[kind.value]
    return Panel(
        f"{item}-{kind.value.replace('_side', '')}", item, kind, name, width_mm, height_mm, 18.0, 0.0, 0.0, 0.0,
        right, "right" if right else "left", FACE_WORDS, "outside face up", "bottom corner at the front edge",
        tuple(holes), tuple(cut_outs),
    )  # fmt: skip


def hole(id, u_mm, v_mm, diameter_mm=5.0, depth_mm=13.0, hole_for=HoleFor.RUNNER, of="drawer-1", words="runner of drawer 1", face=Face.SHOWN, row="runner-500"):  # fmt: skip
    return Hole(id, u_mm, v_mm, diameter_mm, depth_mm, hole_for, of, words, face, row)


def runner_holes(lines_mm=(37.3, 217.4, 397.4, 577.45), us_mm=(37.0, 69.0, 261.0, 389.0)):
    """Of drawers one above another, numbered from the foot."""
    return tuple(
        hole(f"d{n}-{k}", u_mm, v_mm, of=f"drawer-{n}", words=f"runner of drawer {n}")
        for n, v_mm in enumerate(lines_mm, 1)
        for k, u_mm in enumerate(us_mm, 1)
    )


def pin_holes(count=60, first_mm=64.0, us_mm=(37.0, 485.0), of="shelf-1"):
    """Two columns on a pitch of 32."""
    return tuple(
        hole(f"{of}-{k}-{i}", u_mm, first_mm + 32.0 * i, 5.0, 12.0, HoleFor.PIN, of, "pins of the shelf", row="pin-5")
        for k, u_mm in enumerate(us_mm, 1)
        for i in range(count)
    )


def drawer_side(kind=PanelKind.LEFT):
    return side(kind, holes=runner_holes())


def tall_side(kind=PanelKind.LEFT):
    """2 m high with 120 holes for pins and 8 for runners."""
    panel = side(kind, 560.0, 2000.0, (*pin_holes(), *runner_holes((40.0, 230.0))))
    return replace(panel, id=f"{panel.id}-tall")


def rail():
    """Of 150, with connecting screws right through its ends."""
    return Panel(
        "unit-1-front-rail", "unit-1", PanelKind.FRONT_RAIL, "Front rail", 564.0, 150.0, 18.0, 18.0, 0.0, 702.0,
        False, "bottom", "upper face up", "lower face up", "front left corner",
        tuple(hole(f"r{i}", u_mm, v_mm, 8.0, None, HoleFor.CONNECTOR, "joint", "joining screw", row=None)
              for i, (u_mm, v_mm) in enumerate(((9.0, 40.0), (9.0, 110.0), (555.0, 40.0), (555.0, 110.0)))),
    )  # fmt: skip


def wide_back():
    """1,200 wide with a square cut-out, one out to the lower edge and a round one."""
    cuts = (
        CutOut("c1", 100.0, 300.0, 160.0, 90.0, 10.0, False, (), ("socket",), "socket"),
        CutOut("c2", 500.0, 0.0, 220.0, 180.0, 20.0, False, ("bottom",), ("waste",), "waste and supply"),
        CutOut("c3", 950.0, 420.0, 125.0, 125.0, 0.0, True, (), ("duct",), "duct"),
    )
    return Panel(
        "unit-1-back", "unit-1", PanelKind.BACK, "Back", 1200.0, 684.0, 8.0, 10.0, 552.0, 10.0, False, None,
        "inside face up", "seen from behind", "lower left corner as seen from the front", (), cuts,
    )  # fmt: skip


def door():
    """Cups at 100 from both ends, hung on the left as seen from the front: at the right as seen from behind."""
    holes = []
    for n, v_mm in enumerate((100.0, 615.0), 1):
        holes.append(
            hole(f"cup-{n}", 574.5, v_mm, 35.0, 12.5, HoleFor.CUP, f"hinge-{n}", f"cup of hinge {n}", row="hinge-110")
        )
        holes += [
            hole(f"cup-{n}-{k}", 565.0, v_mm + off_mm, 8.0, 11.0, HoleFor.CUP_SCREW, f"hinge-{n}", f"screws of hinge {n}", row="hinge-110")
            for k, off_mm in enumerate((-22.5, 22.5))
        ]  # fmt: skip
    return Panel(
        "unit-1-door", "unit-1", PanelKind.FRONT, "Door", 597.0, 715.0, 19.0, 598.5, -19.0, 2.0, False, None,
        "back of the front up", "face of the front up", "lower left corner as seen from behind", tuple(holes),
    )  # fmt: skip


def bottom():
    """Legs under its other face."""
    holes = tuple(
        hole(
            f"leg-{n}-{k}", u_mm + du, v_mm + dv, 5.0, 12.0, HoleFor.LEG, f"leg-{n}", f"leg {n}", Face.OTHER, "leg-150"
        )
        for n, (u_mm, v_mm) in enumerate(((60.0, 50.0), (504.0, 50.0), (60.0, 500.0), (504.0, 500.0)), 1)
        for k, (du, dv) in enumerate(((-16.0, -16.0), (16.0, -16.0), (-16.0, 16.0), (16.0, 16.0)))
    )
    return Panel(
        "unit-1-bottom", "unit-1", PanelKind.BOTTOM, "Bottom", 564.0, 560.0, 18.0, 18.0, 0.0, 0.0, False, "bottom",
        "upper face up", "underside up, front towards you", "front left corner", holes,
    )  # fmt: skip


def divider():
    """Holes from both faces, and one right through."""
    holes = (
        *runner_holes((100.0,)),
        *(replace(one, id=f"{one.id}-o", face=Face.OTHER, of="drawer-9", words="runner of drawer 9") for one in runner_holes((164.0,))),
        hole("pass", 500.0, 600.0, 45.0, None, HoleFor.PASSAGE, "waste", "waste", row=None),
    )  # fmt: skip
    return side(PanelKind.DIVIDER, 542.0, 684.0, holes)


ALL = (drawer_side(), drawer_side(PanelKind.RIGHT), tall_side(), rail(), wide_back(), door(), bottom(), divider())


def fitted(panels=ALL, sticks=(), findings=()):
    """Unit 1: a base of 600 with four drawers on 720 (720 less 3 gaps of 3, over 4: 177.75), the lowest with an inner one
    behind it."""
    box = carcass_box(Carcass("unit-1", "drawers", 600.0, 720.0, 560.0, handing=Handing.NONE))
    high_mm = (720.0 - 3 * 3.0) / 4
    fronts = tuple(
        PlacedFront(
            f"front-{n}", f"member-{n}", f"drawer {n}", "inside", FrontIs.DRAWER, 1.5, (n - 1) * (high_mm + 3.0), 597.0,
            high_mm, 19.0, 0.0, runner="runner-500", weight_kg=1.4,
        )
        for n in (1, 2, 3, 4)
    )  # fmt: skip
    drawers = tuple(
        DrawerBox(
            f"drawer-{n}", f"drawer {n}", "inside", "runner-500", front.id, 18.0, 582.0, front.foot_mm + 37.3, 37.0, 2.0,
            505.0, front.foot_mm + 12.0, front.foot_mm + 150.0,
        )
        for n, front in enumerate(fronts, 1)
    )  # fmt: skip
    stack = StackFilled("inside", 720.0, 720.0, "4 fronts and 3 gaps of 3")
    return FittedOut("unit-1", 1, "drawers", box, (stack,), fronts, drawers, tuple(panels), (), tuple(sticks), findings)
