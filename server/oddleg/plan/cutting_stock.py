"""Cutting stock: pieces of given lengths out of boards of one length, with the fewest boards."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

GREATEST_PATTERNS = 20_000
GREATEST_NODES = 20_000
TOO_SMALL_MM = 1e-6


@dataclass(frozen=True)
class Layout:
    """`boards`: of each board, the numbers of its pieces in the order in which they were given to `cut`, longest piece
    first. `least`: so many boards are needed at any rate, as far as was found; where it equals their number, fewer
    cannot do."""

    boards: tuple[tuple[int, ...], ...]
    least: int

    @property
    def proved(self) -> bool:
        return len(self.boards) == self.least


def cut(lengths_mm: Sequence[float], stock_mm: float, kerf_mm: float = 0.0) -> Layout:
    """The fewest boards of `stock_mm` that give pieces of these lengths, each cut but a last full one costing a kerf.

    n pieces and n - 1 kerfs fit a board when the sum of (length + kerf) is at most stock + kerf, so kerfs vanish into
    the lengths (first principles). First fit of the longest first is taken where it meets a bound that nothing beats;
    else every way to fill a board is listed and scipy's `milp` chooses among them exactly, up to a limit of nodes,
    never of time, so that the same pieces always give the same boards. Pieces of one length are alike: the order in
    which lengths come changes nothing but which of them is which. Raises ValueError for a piece that no board holds, or
    a length that is not above nought.
    """
    if any(not 0 < one <= stock_mm + TOO_SMALL_MM for one in lengths_mm):
        raise ValueError(f"pieces must be above 0 and at most {stock_mm} long")
    room_mm = stock_mm + kerf_mm
    order = sorted(range(len(lengths_mm)), key=lambda piece: (-lengths_mm[piece], piece))
    kinds = sorted({lengths_mm[piece] + kerf_mm for piece in order}, reverse=True)
    counted = Counter(lengths_mm[piece] + kerf_mm for piece in order)
    wanted = [counted[kind] for kind in kinds]
    greedy = _longest_first(kinds, wanted, room_mm)
    least = _least(kinds, wanted, room_mm)
    chosen = greedy
    if len(greedy) > least:
        better, bound = _exact(kinds, wanted, room_mm)
        least = max(least, bound)
        if better is not None and len(better) < len(greedy):
            chosen = better
    waiting = {kind: [piece for piece in order if lengths_mm[piece] + kerf_mm == kind] for kind in kinds}
    boards = tuple(tuple(waiting[kinds[kind]].pop(0) for kind in board) for board in chosen)
    return Layout(boards, least)


def _longest_first(kinds: Sequence[float], wanted: Sequence[int], room_mm: float) -> list[list[int]]:
    """First fit, longest first: kinds of the pieces on each board."""
    boards: list[list[int]] = []
    left: list[float] = []
    for kind, size in enumerate(kinds):
        for _ in range(wanted[kind]):
            board = next((one for one, free in enumerate(left) if size <= free + TOO_SMALL_MM), len(boards))
            if board == len(boards):
                boards.append([])
                left.append(room_mm)
            boards[board].append(kind)
            left[board] -= size
    return boards


def _least(kinds: Sequence[float], wanted: Sequence[int], room_mm: float) -> int:
    """Boards needed for the sum of all, and for the pieces of which no two go on one board."""
    total = sum(size * count for size, count in zip(kinds, wanted, strict=True))
    halves = sum(count for size, count in zip(kinds, wanted, strict=True) if 2 * size > room_mm + TOO_SMALL_MM)
    return max(int(np.ceil((total - TOO_SMALL_MM) / (room_mm + TOO_SMALL_MM))), halves)


def _patterns(kinds: Sequence[float], wanted: Sequence[int], room_mm: float) -> list[tuple[int, ...]] | None:
    """Every filled board to which no further piece could be added; None where there are more than are looked at."""
    found: list[tuple[int, ...]] = []
    stack: list[tuple[tuple[int, ...], float]] = [((), room_mm)]
    while stack:
        counts, free = stack.pop()
        kind = len(counts)
        if kind == len(kinds):
            more = any(
                n < want and size <= free + TOO_SMALL_MM for n, want, size in zip(counts, wanted, kinds, strict=True)
            )
            if not more:
                found.append(counts)
            if len(found) > GREATEST_PATTERNS:
                return None
            continue
        most = min(wanted[kind], int((free + TOO_SMALL_MM) // kinds[kind]))
        stack.extend(((*counts, n), free - n * kinds[kind]) for n in range(most + 1))
        if len(stack) > GREATEST_PATTERNS:
            return None
    return sorted(found, reverse=True)


def _exact(kinds: Sequence[float], wanted: Sequence[int], room_mm: float) -> tuple[list[list[int]] | None, int]:
    """Boards of the fewest, and the bound that was proved; no boards where none were found within the limits."""
    patterns = _patterns(kinds, wanted, room_mm)
    if patterns is None:
        return None, 0
    from scipy.optimize import Bounds, LinearConstraint, milp  # here, since it would slow every start of the program
    from scipy.sparse import csc_array

    matrix = csc_array(np.array(patterns, dtype=float).T)
    answer = milp(
        np.ones(len(patterns)),
        constraints=LinearConstraint(matrix, lb=np.array(wanted, dtype=float)),
        bounds=Bounds(0, np.inf),
        integrality=np.ones(len(patterns)),
        options={"node_limit": GREATEST_NODES, "mip_rel_gap": 0.0},
    )
    bound = answer.mip_dual_bound
    least = int(np.ceil(bound - 1e-6)) if bound is not None and np.isfinite(bound) else 0
    if answer.x is None:
        return None, least
    open_counts = list(wanted)
    boards: list[list[int]] = []
    for pattern, times in zip(patterns, np.rint(answer.x).astype(int), strict=True):
        for _ in range(int(times)):
            board = []
            for kind, n in enumerate(pattern):
                take = min(n, open_counts[kind])
                open_counts[kind] -= take
                board += [kind] * take
            if board:
                boards.append(board)
    return boards, least
