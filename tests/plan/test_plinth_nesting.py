"""Pieces on stock boards: the fewest boards, nothing longer than its board, every piece once."""

import dataclasses
import itertools

import pytest
import sample_plinth
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.job import PlinthBoard
from oddleg.plan import cutting_stock
from oddleg.plan.cutting_stock import cut
from oddleg.plan.figure import figure
from oddleg.plan.plinth_nesting import nesting_findings, plinth_nesting

LENGTHS = st.lists(st.integers(50, 1000), min_size=1, max_size=24)
KERFS = st.integers(0, 10)


def pieces(*lengths_mm):
    one = sample_plinth.piece(1, 100.0, (148.0, 148.0))
    return [
        dataclasses.replace(one, id=f"plinth-{i}", number=i, length=figure(float(length)))
        for i, length in enumerate(lengths_mm, 1)
    ]


def fewest(lengths_mm, stock_mm):
    """By trying every way to part the pieces into boards: oracle for a few pieces."""
    best = len(lengths_mm)

    def place(number, left):
        nonlocal best
        if len(left) >= best:
            return
        if number == len(lengths_mm):
            best = len(left)
            return
        for board, free in enumerate(left):
            if lengths_mm[number] <= free:
                place(number + 1, [*left[:board], free - lengths_mm[number], *left[board + 1 :]])
        place(number + 1, [*left, stock_mm - lengths_mm[number]])

    place(0, [])
    return best


@settings(derandomize=True, deadline=None)
@given(LENGTHS, KERFS)
def test_no_board_is_overfull_and_every_piece_is_cut_once(lengths_mm, kerf_mm):
    layout = cut(lengths_mm, 1000, kerf_mm)
    assert sorted(itertools.chain(*layout.boards)) == list(range(len(lengths_mm)))
    for board in layout.boards:
        assert sum(lengths_mm[piece] for piece in board) + kerf_mm * (len(board) - 1) <= 1000
    assert layout.least <= len(layout.boards)


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.lists(st.integers(150, 700), min_size=1, max_size=7), KERFS)
def test_a_few_pieces_take_as_few_boards_as_trying_everything_finds(lengths_mm, kerf_mm):
    layout = cut(lengths_mm, 1000, kerf_mm)
    assert layout.proved
    assert len(layout.boards) == fewest([length + kerf_mm for length in lengths_mm], 1000 + kerf_mm)


@settings(derandomize=True, deadline=None)
@given(LENGTHS.flatmap(lambda one: st.tuples(st.just(one), st.permutations(one))), KERFS)
def test_the_order_of_the_pieces_changes_nothing(both, kerf_mm):
    def on_boards(lengths_mm):
        return [[lengths_mm[piece] for piece in board] for board in cut(lengths_mm, 1000, kerf_mm).boards]

    assert on_boards(both[0]) == on_boards(both[1])


def test_longest_first_is_not_taken_for_the_best():
    """FP: 5 + 4, 4 + 3 + 2 and 2 out of 10 are three boards, longest first; 4 + 4 + 2 and 5 + 3 + 2 are two."""
    assert len(cutting_stock._longest_first([5, 4, 3, 2], [1, 2, 1, 2], 10)) == 3
    layout = cut([5, 4, 4, 3, 2, 2], 10)
    assert len(layout.boards) == 2 and layout.proved


def test_a_kerf_costs_a_board_where_pieces_fill_it_to_the_millimetre():
    """FP: 1000 + 1000 + 1000 fill 3000; with a kerf of 3 between them they want 3006."""
    assert len(cut([1000, 1000, 1000], 3000, 0).boards) == 1
    assert len(cut([1000, 1000, 1000], 3000, 3).boards) == 2
    assert len(cut([998, 998, 998], 3000, 3).boards) == 1
    assert len(cut([998, 998, 998.1], 3000, 3).boards) == 2


def test_a_piece_as_long_as_the_board_needs_no_cut():
    nesting = plinth_nesting(pieces(3000), PlinthBoard(length_mm=3000, kerf_mm=3), 0.5)
    assert len(nesting.boards) == 1 and nesting.boards[0].offcut.mm == 0 and nesting.waste.mm == 0


@pytest.mark.parametrize("lengths", [[0], [-5], [1001]])
def test_a_piece_that_no_board_gives_is_refused(lengths):
    with pytest.raises(ValueError, match="pieces must be"):
        cut(lengths, 1000)


def test_a_layout_says_where_each_piece_lies_and_what_is_left():
    """FP: 1815 at 0, 1000 at 1815 + 3; 3000 - 1815 - 3 - 1000 - 3 = 179 left; 1500 and 850 leave 644; pieces are 5165 of
    6000, so 835 (14 %) is waste."""
    nesting = plinth_nesting(pieces(850, 1815, 1000, 1500), PlinthBoard(length_mm=3000, kerf_mm=3), 0.5)
    assert [[(cut.piece, cut.at_mm) for cut in board.cuts] for board in nesting.boards] == [
        [("plinth-2", 0), ("plinth-3", 1818)],
        [("plinth-4", 0), ("plinth-1", 1503)],
    ]
    assert [board.offcut.mm for board in nesting.boards] == [179, 3000 - 1500 - 3 - 850 - 3]
    assert nesting.waste.mm == 6000 - 850 - 1815 - 1000 - 1500
    assert nesting.waste_share == "14 % of 2 boards"
    assert nesting.proved and nesting.words == "2 boards; fewer cannot do."


def test_nothing_to_cut_has_no_layout():
    assert plinth_nesting([], PlinthBoard(), 0.5) is None


def test_what_was_not_proved_says_so(monkeypatch):
    monkeypatch.setattr(cutting_stock, "GREATEST_PATTERNS", 1)
    nesting = plinth_nesting(pieces(5, 4, 4, 3, 2, 2), PlinthBoard(length_mm=10, kerf_mm=0), 0.5)
    assert not nesting.proved and nesting.words.startswith("3 boards; at least 2")
    assert [one.rule for one in nesting_findings(nesting, "Kitchen", "kitchen")] == ["plinth.nesting_unproved"]
