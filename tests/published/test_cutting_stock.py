"""The classic textbook instance of cutting stock: data read at miro.gams.com, its optimum from memory; and the kerf
from first principles."""

import numpy as np
from scipy.optimize import linprog

from oddleg.plan.cutting_stock import _patterns, cut

STOCK = 100
WANTED = {45: 97, 36: 610, 31: 395, 14: 211}


def test_the_textbook_instance_takes_453():
    layout = cut([width for width, count in WANTED.items() for _ in range(count)], STOCK)
    assert len(layout.boards) == 453 and layout.proved


def test_the_relaxed_textbook_instance_takes_452_25():
    patterns = np.array(_patterns(list(WANTED), list(WANTED.values()), STOCK), dtype=float)
    relaxed = linprog(np.ones(len(patterns)), A_ub=-patterns.T, b_ub=-np.array(list(WANTED.values())))
    assert abs(relaxed.fun - 452.25) < 1e-6


def test_a_kerf_is_the_same_as_longer_pieces_on_a_longer_board():
    """First principles: n pieces cost n - 1 kerfs between them, so w + k on L + k without a kerf is the same question."""
    rng = np.random.default_rng(35)
    for _ in range(20):
        widths = rng.integers(10, 60, size=12).tolist()
        kerf = int(rng.integers(1, 6))
        with_kerf = cut(widths, STOCK, kerf)
        assert with_kerf.boards == cut([width + kerf for width in widths], STOCK + kerf).boards
        assert all(sum(widths[i] for i in board) + kerf * (len(board) - 1) <= STOCK for board in with_kerf.boards)
