"""A room's plinth made by hand, for tests of what shows it. Its figures follow from each other by arithmetic:

P1 1950 and P2 900 share a board of 3000 with a saw cut of 4: 3000 - 1950 - 4 - 900 - 4 = 142 left; P3 1366 leaves
3000 - 1366 - 4 = 1630. Boards 150 high, play 2: over a gap of 148 the board is cut to 146 and 4 comes off.
"""

import dataclasses

from oddleg.job import PlinthCutKind
from oddleg.plan.figure import figure
from oddleg.plan.finding import Finding, Severity
from oddleg.plan.floor_panels import PanelHeight
from oddleg.plan.plinth_cuts import CutOut
from oddleg.plan.plinth_layout import EndKind, PlinthEnd
from oddleg.plan.plinth_line import PlinthPiece, ProfilePoint
from oddleg.plan.plinth_nesting import PlinthBoardCut, PlinthCut, PlinthNesting
from oddleg.plan.room_plinth import RoomPlinth

STOCK_MM, KERF_MM, HEIGHT_MM, FIT_MM = 3000.0, 4.0, 150.0, 2.0


def piece(number, length_mm, gaps_mm, at=((0.0, 0.0), (1.0, 0.0)), name=None, ends=("wall", "bay"), bowed=False):
    """`gaps_mm` at even steps along it; cut to gap less play, never above the stock board."""
    heights = [min(gap - FIT_MM, HEIGHT_MM) for gap in gaps_mm]
    over = [HEIGHT_MM + FIT_MM - gap for gap in gaps_mm]
    uncut = max(over) <= 0
    steps = [length_mm * i / (len(gaps_mm) - 1) for i in range(len(gaps_mm))]
    profile = tuple(
        ProfilePoint(figure(x, 1.0), figure(height, why="Gap less play."), figure(gap))
        for x, height, gap in zip(steps, heights, gaps_mm, strict=True)
    )
    (x0, y0), (x1, y1) = at
    words = {
        "wall": "dies against the window wall",
        "bay": "ends at the dishwasher bay",
        "return": "returns to the wall",
    }
    return PlinthPiece(
        f"piece-{number}", number, name or f"piece {number}", "Window run", False, x0, y0, x1, y1,
        figure(length_mm, why="From the units over it."), figure(50.0),
        PlinthEnd(EndKind(ends[0]), words[ends[0]]), PlinthEnd(EndKind(ends[1]), words[ends[1]]),
        figure(heights[0], why="Gap less play."), figure(heights[-1], why="Gap less play."),
        figure(min(gaps_mm)), figure(max(gaps_mm)), profile if bowed else (), uncut,
        None if uncut else figure(max(over), why="Board and play less the gap."),
        figure(max(gap - height for gap, height in zip(gaps_mm, heights, strict=True))), ("sink base",),
    )  # fmt: skip


def pieces():
    return (
        piece(1, 1950.0, (148.0, 151.0, 146.0, 145.0), ((50.0, 510.0), (2000.0, 510.0)), bowed=True),
        piece(2, 900.0, (148.0, 147.0), ((2450.0, 510.0), (3050.0, 510.0)), ends=("bay", "return")),
        piece(3, 1366.0, (155.0, 158.0), ((1500.0, 2410.0), (2800.0, 2410.0)), name="counter front"),
    )


def nesting():
    cut = {one.id: one.length for one in pieces()}
    boards = (
        PlinthBoardCut(
            1,
            (PlinthCut("piece-1", 0.0, cut["piece-1"]), PlinthCut("piece-2", 1954.0, cut["piece-2"])),
            figure(STOCK_MM - 1950.0 - 900.0 - 2 * KERF_MM),
        ),
        PlinthBoardCut(2, (PlinthCut("piece-3", 0.0, cut["piece-3"]),), figure(STOCK_MM - 1366.0 - KERF_MM)),
    )
    waste_mm = 2 * STOCK_MM - 1950.0 - 900.0 - 1366.0
    return PlinthNesting(
        figure(STOCK_MM), figure(KERF_MM), boards, figure(waste_mm), "30 % of 2 boards", True,
        "No fewer than 2 boards can do.",
    )  # fmt: skip


def panels():
    return (
        PanelHeight(
            "end-panel", "end panel", "Window run", "panel", figure(871.5),
            (("front", figure(878.0, why="Datum less floor.")), ("back", figure(874.5, why="Datum less floor."))),
            figure(878.0), figure(3.5), "finished floor",
        ),
    )  # fmt: skip


CAUTION = Finding(
    "plinth.sawing", Severity.NOTE, "sawing", "Sawing boards makes fine dust, and blades cut.",
    "Use extraction and guards as the local rules and the saw's maker say.", caution=True,
)  # fmt: skip


def plinth(of_pieces=None, nested=True):
    return RoomPlinth(
        figure(871.5), figure(HEIGHT_MM), figure(16.0), pieces() if of_pieces is None else of_pieces,
        nesting() if nested else None, panels(), (CAUTION,),
    )  # fmt: skip


def bare():
    return RoomPlinth(figure(871.5), figure(HEIGHT_MM), figure(16.0), (), None, (), ())


def cut_out():
    """P3, uncut, 1366 long, with a notch from 100 to 660, 40 high, and a grille from 800 to 1200, 60 high."""
    first, second, third = pieces()
    cuts = (
        CutOut(PlinthCutKind.NOTCH, "dish", figure(100.0), figure(560.0), figure(40.0), "notch at the top edge for dishwasher bay, from its sheet"),
        CutOut(PlinthCutKind.GRILLE, "fridge", figure(800.0), figure(400.0), figure(60.0), "grille in the board for tall fridge, from its sheet", figure(50.0)),
    )  # fmt: skip
    return plinth((first, second, dataclasses.replace(third, cuts=cuts)))
