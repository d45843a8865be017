"""Notches and grilles in plinths, from the appliances' sheets: where they come on a piece, and what is wrong with them."""

import dataclasses

import pytest
from datum_rooms import all_placed, bay, falling, floor_of, job_of, machine, room_of, rules, run_of, surface, unit

from oddleg.job import ApplianceSeat, PlinthBoard, PlinthCut, PlinthCutKind, Point, Wall
from oddleg.plan.plinth_line import plinth_pieces

LEVEL = floor_of(surface(lambda x, y: 0.0))
BOARD = PlinthBoard(150, 2, 16, 20, length_mm=3000)


def notch(left_mm=0.0, width_mm=600.0, height_mm=40.0):
    return PlinthCut(PlinthCutKind.NOTCH, left_mm, width_mm, height_mm, "the dishwasher's sheet")


def grille(left_mm=100.0, width_mm=400.0, height_mm=60.0, up_mm=40.0):
    return PlinthCut(PlinthCutKind.GRILLE, left_mm, width_mm, height_mm, up_mm=up_mm)


def between_walls(*items, board=BOARD):
    width_mm = sum(item.width_mm for item in items)
    room = room_of(run_of(*items), board=board)
    ends = [Wall(f"w{x}", f"wall {x}", (Point(x, 0), Point(x, 3000))) for x in (0, width_mm)]
    return dataclasses.replace(room, walls=(*room.walls, *ends))


def made(room, floor=LEVEL, datum_mm=875.0):
    return plinth_pieces(job_of(room), room, all_placed(room), floor, datum_mm, {})


def through(*cuts, **more):
    return bay(machine(820.0), plinth_runs_through=True, plinth_cuts=cuts, **more)


def places(pieces):
    return [[(cut.kind.value, cut.at.mm, cut.width.mm, cut.height.mm) for cut in piece.cuts] for piece in pieces]


def test_a_notch_lies_as_far_along_the_piece_as_its_bay():
    """FP: bay from 900: 900 + 20 from the piece's left end at the wall."""
    pieces, findings = made(between_walls(unit("a", 900.0), through(notch(20.0, 560.0)), unit("b")))
    assert places(pieces) == [[("notch", 920, 560, 40)]]
    assert findings == ()
    (cut,) = pieces[0].cuts
    assert "top edge" in cut.words and "the dishwasher's sheet" in cut.words and "+900" in cut.at.why


def test_a_piece_that_starts_at_a_recess_counts_from_there():
    """FP: visible end 50 short: grille 100 from the unit's edge is 50 from the piece's end."""
    pieces, _ = made(room_of(run_of(unit("a", plinth_cuts=(grille(),))), board=BOARD))
    assert places(pieces)[0] == [("grille", 50, 400, 60)] and places(pieces)[1:] == [[], []]


def test_a_grille_lies_as_high_over_the_foot_as_its_sheet_says():
    pieces, findings = made(room_of(run_of(unit("a", plinth_cuts=(grille(),))), board=BOARD))
    assert pieces[0].cuts[0].up.text == "40" and not [one for one in findings if one.rule == "plinth.grille_height"]
    pieces, findings = made(room_of(run_of(unit("a", plinth_cuts=(grille(up_mm=None),))), board=BOARD))
    assert pieces[0].cuts[0].up is None and "how high up is not given" in pieces[0].cuts[0].words
    (told,) = [one for one in findings if one.rule == "plinth.grille_height"]
    assert told.severity == "note"
    # FP: 100 up and 60 high goes to 160, and no board is higher than 150.
    _, findings = made(room_of(run_of(unit("a", plinth_cuts=(grille(up_mm=100.0),))), board=BOARD))
    (told,) = [one for one in findings if one.rule == "plinth.cut_too_high"]
    assert "goes to 160 (100 up and 60 high)" in told.wrong


def test_a_grille_for_a_built_in_appliance_is_asked_of_its_sheet():
    """Trap 48: ventilation is a constraint from the appliance's own sheet."""
    fridge = dataclasses.replace(machine(1780.0, ApplianceSeat.IN_CARCASS), built_in=True, name="fridge")
    asked = made(between_walls(unit("a", appliances=(fridge,))))[1]
    assert rules(asked) == ["plinth.ask_sheet"] and asked[0].severity == "note" and "fridge" in asked[0].wrong
    assert made(between_walls(unit("a", appliances=(fridge,), plinth_cuts=(grille(),))))[1] == ()


def test_a_plinth_before_an_appliance_without_a_sheets_word_is_asked_about_once():
    findings = made(between_walls(unit("a"), through(), unit("b")))[1]
    assert rules(findings) == ["plinth.ask_sheet"]


def test_a_bay_that_stops_the_plinth_asks_nothing_and_a_cut_in_it_is_of_nothing():
    assert made(between_walls(unit("a"), bay(machine(820.0)), unit("b")))[1] == ()
    findings = made(between_walls(unit("a"), bay(machine(820.0), plinth_cuts=(notch(),)), unit("b")))[1]
    assert rules(findings) == ["plinth.cut_of_nothing"]


def test_a_cut_as_high_as_the_board_there_would_part_it():
    """FP: gap 155 - 20 * x / 3000 falling the wrong way round: the floor rises to the right. D 860, floor 0 to +12 over
    3000: cut 138 at the left, 126 at the right; over the last unit, 2400 to 3000, 128.4 to 126."""
    items = [unit(name) for name in "abcd"]
    rising = floor_of(surface(falling(-12, 3000)))
    fits, parts = (unit("e", plinth_cuts=(grille(0.0, 600.0, height_mm, 0.0),)) for height_mm in (125.0, 126.0))
    assert rules(made(between_walls(*items, fits), rising, 860.0)[1]) == []
    (wrong,) = made(between_walls(*items, parts), rising, 860.0)[1]
    assert (wrong.rule, wrong.severity) == ("plinth.cut_too_high", "stop") and wrong.amount.mm == pytest.approx(0)


def test_a_cut_over_a_joint_is_told_with_its_part_on_either_piece():
    """FP: 3500 on a board of 3000 is joined at 3000; a grille from 2900 to 3100 lies 100 on either piece."""
    pieces, findings = made(between_walls(unit("a", 3500.0, plinth_cuts=(grille(2900.0, 200.0),))))
    assert places(pieces) == [[("grille", 2900, 100, 60)], [("grille", 0, 100, 60)]]
    assert rules(findings) == ["plinth.joint_shows", "plinth.cut_over_end", "plinth.cut_over_end"]


def test_a_cut_that_runs_off_a_visible_end_is_told():
    """FP: the piece starts 50 in from the unit's edge: of 0 to 200 it has 150."""
    pieces, findings = made(room_of(run_of(unit("a", plinth_cuts=(grille(0.0, 200.0),))), board=BOARD))
    assert places(pieces)[0] == [("grille", 0, 150, 60)] and rules(findings) == ["plinth.cut_over_end"]


def test_two_cuts_that_overlap_are_named():
    findings = made(between_walls(unit("a", plinth_cuts=(notch(0.0, 300.0), grille(200.0, 300.0)))))[1]
    assert rules(findings) == ["plinth.cuts_meet"]
    beside = made(between_walls(unit("a", plinth_cuts=(notch(0.0, 200.0), grille(200.0, 300.0)))))[1]
    assert rules(beside) == []


def test_a_cut_beyond_its_item_is_named():
    findings = made(between_walls(unit("a", plinth_cuts=(notch(100.0, 600.0),)), unit("b")))[1]
    assert rules(findings) == ["plinth.cut_beyond_item"]
