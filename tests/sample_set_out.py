"""A run set out by hand, for tests of what shows it. Its figures follow from each other by arithmetic:

along the floor 51 filler, 19.5 panel (18 + 1.5), 600, 800, 600 bay, 500, 19.5 panel, 50 filler = 2640; on the wall 70.5
filler, 600, 800 gap, 600, so that its first edges line up with those below. The window's centre, 1070.5, is that of the
sink (70.5 + 600 + 400). The wall stands out 0, 8, -4, 2, 5, 1 at 0, 600, 1200, 1800, 2400, 2640; backs lie at 18, so that
the void is 18, 10, 22, 16, 13, 17; with a batten of 10 in the void 8, 0, 12, 6, 3 are packed.
"""

from dataclasses import replace

from oddleg.job import (
    Anchor,
    AnchorOn,
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    Batten,
    Carcass,
    EndPanel,
    EndsAt,
    Feature,
    FeatureKind,
    Filler,
    Gap,
    Handing,
    Legs,
    OpeningDepth,
    Run,
    RunEnd,
    Storey,
    WallHeight,
)
from oddleg.plan.figure import figure
from oddleg.plan.finding import Finding, Severity
from oddleg.plan.fit import Fit
from oddleg.plan.front_line import FrontLine
from oddleg.plan.packing import BattenPiece, Fixing, PanelScribe, RunBatten
from oddleg.plan.rod import Placed
from oddleg.plan.set_out import FillerWidth, Offset, Rod, RodMark
from oddleg.plan.setting_out import RunSetOut
from oddleg.plan.wall import Opening, Wall, WallSpot, WallStation

BACK_MM, BATTEN_MM, DEPTH_MM = 18.0, 10.0, 560.0
WALL = ((0.0, 0.0), (600.0, 8.0), (1200.0, -4.0), (1800.0, 2.0), (2400.0, 5.0), (2640.0, 1.0))
LEGS = Legs(120.0, 180.0)
PACKS = {0: "–", 3: "3", 6: "6", 8: "6 + 2", 12: "10 + 2"}


def carcass(id, name, width_mm, **more):
    values = {"height_mm": 720.0, "depth_mm": DEPTH_MM, "handing": Handing.LEFT, "legs": LEGS, **more}
    return Carcass(id, name, width_mm, **values)


def standing():
    return (
        Filler("filler-left", "left filler", 51.0, 30.0, 80.0),
        EndPanel("panel-left", "left end panel", 18.0, 590.0, 1.5),
        carcass("unit-1", "pans", 600.0),
        carcass("unit-2", "sink base", 800.0, handing=Handing.PAIR),
        ApplianceBay("bay", "dishwasher bay", 600.0, DEPTH_MM, Appliance("dish", "dishwasher", ApplianceSeat.UNDER_TOP, 820.0)),
        carcass("unit-3", "drawers", 500.0, handing=Handing.NONE),
        EndPanel("panel-right", "right end panel", 18.0, 590.0, 1.5),
        Filler("filler-right", "right filler", 50.0, 30.0, 80.0),
    )  # fmt: skip


def hanging():
    wall = {"height_mm": 720.0, "depth_mm": 330.0, "legs": None, "storey": Storey.WALL}
    return (
        Filler("filler-wall", "wall filler", 70.5, 30.0, 90.0, storey=Storey.WALL),
        carcass("wall-1", "plates", 600.0, **wall),
        Gap("gap", "window gap", 800.0, storey=Storey.WALL),
        carcass("wall-2", "glasses", 600.0, **wall),
    )


WINDOW = Feature("window", "window", FeatureKind.WINDOW, 470.5, 1670.5, 1050.0, 2100.0, -120.0)
SOCKET = Feature("socket", "socket", FeatureKind.ELECTRIC, 1850.0, 1930.0, 1100.0, 1180.0)


def run(items=None, opening_mm=2640.0, name="Sink run", id="sink-run", features=(WINDOW, SOCKET)):
    return Run(
        id, name, 0.0, 0.0, 0.0, "w0", 15.0, items=(*standing(), *hanging()) if items is None else items,
        left_end=RunEnd(EndsAt.WALL), right_end=RunEnd(EndsAt.WALL), opening_mm=opening_mm, batten=Batten(thickness_mm=BATTEN_MM),
        anchor=Anchor(AnchorOn.FEATURE, "window", item="unit-2", what="sink"), features=features,
    )  # fmt: skip


def marks_of(placed, left_mm, right_mm, anchor_mm):
    """Zero, end, anchor and every edge, from three sides; in order of marking outward from the anchor."""
    spots = [("base", "zero", "zero", left_mm, ()), ("base", "end", "end mark", right_mm, ())]
    if anchor_mm not in (left_mm, right_mm):
        spots.append(("base", "anchor", "anchor: centre of the sink", anchor_mm, ()))
    for row in ("base", "wall"):
        edges = {}
        for one in placed:
            if one.stands == (row == "base"):
                edges.setdefault(one.left_mm, []).append(("left", one.item))
                edges.setdefault(one.right_mm, []).append(("right", one.item))
        for x_mm, at in edges.items():
            if row == "wall" or x_mm not in (left_mm, right_mm):
                words = ", ".join(f"{side} of {item.name}" for side, item in at)
                spots.append((row, "edge", words, x_mm, tuple(item.id for _, item in at)))
    order = sorted(range(len(spots)), key=lambda i: (spots[i][0] == "wall", abs(spots[i][3] - anchor_mm), spots[i][3]))
    marks = [
        RodMark(
            f"mark-{i}", name, row, kind, items, x_mm,
            figure(x_mm - left_mm, why="From the zero."), figure(x_mm - anchor_mm, why="From the anchor.", signed=True),
            figure(right_mm - x_mm, why="From the end mark."), order.index(i) + 1,
        )
        for i, (row, kind, name, x_mm, items) in enumerate(spots)
    ]  # fmt: skip
    return tuple(sorted(marks, key=lambda one: (one.row == "wall", one.x_mm)))


def stacked(of_run):
    """Its items one after another from the zero, each row on its own."""
    placed, at_mm = [], {True: 0.0, False: 0.0}
    for item in of_run.items:
        hangs = item.storey is Storey.WALL
        placed.append(Placed(of_run, item, at_mm[hangs], at_mm[hangs] + item.width_mm))
        at_mm[hangs] += item.width_mm
    return tuple(placed)


def rod(of_run=None, anchor_mm=1070.5):
    one = of_run or run()
    out = replace(one, void_mm=BACK_MM)
    placed = stacked(out)
    right_mm = max([x.right_mm for x in placed if x.stands], default=one.opening_mm or 0.0)
    fillers = tuple(
        FillerWidth(
            item.id, item.name, figure(item.width_mm, why="What is left."), figure(item.width_mm - 1.0), figure(item.width_mm + 3.0),
            "cut from", figure(item.width_mm + 8.0, why="Widest and 5 to scribe."), "scribed to the wall",
        )
        for item in one.items if isinstance(item, Filler)
    )  # fmt: skip
    return Rod(
        out, 0.0, right_mm, figure(right_mm, why="Narrowest of 2 readings."), "measured, narrowest at the floor, at the back",
        anchor_mm, "The centre of the sink stands on the centre of the window.", placed, fillers,
        marks_of(placed, 0.0, right_mm, anchor_mm), figure(0.0),
        ("The left wall lies 5 behind the zero at batten height: the tape from it reads the mark + 5.", "The right wall stands at the end mark."),
        (Offset("left of plates to left of pans", figure(0.0, signed=True)),), (),
    )  # fmt: skip


def wall(of_run=None, points=WALL):
    heights = (WallHeight.FLOOR, WallHeight.BATTEN)
    stations = tuple(WallStation(f"ws-{i}", f"wall {i}", x, heights, f"batten {i}") for i, (x, _) in enumerate(points))
    spots = [
        WallSpot(one.id, one.name, x, WallHeight.BATTEN, "read", y, figure(y, signed=True), ("r",))
        for one, (x, y) in zip(stations, points, strict=True)
    ]
    # At the floor the wall stands 3 further back, at the wall units 1 further out.
    for height, by_mm in ((WallHeight.FLOOR, -3.0), (WallHeight.WALL_UNITS, 1.0)):
        spots += [
            replace(one, height=height, wall_mm=one.wall_mm + by_mm, out=figure(one.wall_mm + by_mm, signed=True))
            for one in spots[: len(points)]
        ]
    openings = (Opening(WallHeight.FLOOR, OpeningDepth.BACK, figure(2640.0), "e1"),)
    kept = of_run or run()
    return Wall(kept, (("line", "laser line", 12),), stations, tuple(spots), openings, (), kept.features, ())


def line(of_run=None, points=WALL, storey=Storey.BASE):
    one = of_run or run()
    voids = [BACK_MM - y for _, y in points]
    return FrontLine(
        one, storey, True, BACK_MM, 0.0, tuple(point for point in points if BACK_MM - point[1] == min(voids)),
        figure(min(voids), why="At the high spot."), figure(max(voids), why="At the hollow."), figure(max(voids) - 10.0),
        figure(max(voids) + DEPTH_MM + 40.0, why="Hollow, carcass, front and overhang."), "From 12 readings of the laser line.",
        replace(one, void_mm=BACK_MM), (),
    )  # fmt: skip


def batten(points=WALL):
    fixings = tuple(
        Fixing(
            i, x, figure(x), figure(BACK_MM - y), figure(BACK_MM - y - BATTEN_MM, 1.0), PACKS.get(round(BACK_MM - y - BATTEN_MM), "5 + 1"),
            "stud" if i % 2 else "spacing", "Over the socket: a cable may run here." if i == 4 else "",
        )
        for i, (x, y) in enumerate([one for one in points if 0 < one[0] < points[-1][0]], 1)
    )  # fmt: skip
    length_mm = points[-1][0]
    pieces = (
        BattenPiece(1, figure(0.0), figure(1800.0), figure(1800.0)),
        BattenPiece(2, figure(1800.0), figure(length_mm), figure(length_mm - 1800.0)),
    )
    return RunBatten(
        figure(BATTEN_MM), figure(45.0), pieces, fixings, figure(0.0), figure(600.0), ((figure(1470.5), figure(2070.5)),),
        "2 lengths out of 2 of 2400, joint on fixing 3.", "Cables and pipes may run anywhere behind this wall: look for them by the local rules before drilling.", (),
    )  # fmt: skip


NOTE = Finding("rod.offset", Severity.NOTE, "Sink run", "Wall units and base units line up.", "Nothing to do.")


def set_out(of_run=None, anchor_mm=1070.5, points=WALL):
    one = of_run or run()
    hangs = any(item.storey is Storey.WALL for item in one.items)
    panels = tuple(
        PanelScribe(item.id, item.name, figure(item.depth_mm + 22.0), (("floor", figure(3.0)), ("batten", figure(0.0))))
        for item in one.items if isinstance(item, EndPanel)
    )  # fmt: skip
    fits = (
        Fit(
            "base", figure(2640.0), figure(2599.0), figure(41.0), figure(4.5), figure(1.7), None, True, figure(0.0),
            "It goes in: 41 to spare, and sizes and joints can take 4.5 at worst.", "If sizes vary as stated, 95 of 100 such rows take 1.7 or less.", (),
        ),
    )  # fmt: skip
    hanging_line = line(one, points, Storey.WALL) if hangs else None
    return RunSetOut(
        one, wall(one, points), line(one, points), hanging_line, rod(one, anchor_mm), batten(points), panels, fits
    )


def plain(of_run):
    """A run whose wall nobody read and that has no batten: set out from its zero, to its own void."""
    unread = replace(
        line(of_run), read=False, back_mm=of_run.void_mm, binding=(), set_out=of_run, words="The void as the job says."
    )
    out = rod(of_run, 0.0)
    return RunSetOut(
        of_run, None, unread, None, replace(out, run=of_run, anchor_words="From the left end."), None, (), ()
    )


def of_widths(*widths_mm, name="Long run", id="long-run"):
    """A run of so many carcasses and nothing else, its wall read every 600."""
    items = tuple(carcass(f"unit-{n}", f"base {n}", width) for n, width in enumerate(widths_mm, 1))
    length_mm = sum(widths_mm)
    steps = [600.0 * i for i in range(-(-int(length_mm) // 600))]
    points = (*((x, (0.0, 8.0, -4.0, 2.0, 5.0)[i % 5]) for i, x in enumerate(steps)), (float(length_mm), 1.0))
    return set_out(run(items, length_mm, name, id, ()), 0.0, points)
