"""Steps in the floor: what can be seen from a point without looking across one."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from oddleg.job import BreakLine

ON_STEP_MM = 1e-3
END_MM = 1.0


class Steps:
    """Break lines in plan. One that only just reaches a wall closes it: free ends count END_MM further than drawn."""

    def __init__(self, break_lines: Sequence[BreakLine]) -> None:
        drawn: list[tuple[list[float], list[float]]] = []
        closing: list[tuple[list[float], list[float]]] = []
        for line in break_lines:
            points = [np.array([point.x_mm, point.y_mm], dtype=float) for point in line.points]
            points = points[:1] + [b for a, b in pairwise(points) if (a != b).any()]
            pairs = list(pairwise(points))
            for number, (a, b) in enumerate(pairs):
                along = (b - a) / np.hypot(*(b - a)) * END_MM
                drawn.append((a.tolist(), b.tolist()))
                start = a - along if number == 0 else a
                end = b + along if number == len(pairs) - 1 else b
                closing.append((start.tolist(), end.tolist()))
        self._drawn = np.array(drawn, dtype=float).reshape(-1, 2, 2)
        self._closing = np.array(closing, dtype=float).reshape(-1, 2, 2)

    def __bool__(self) -> bool:
        return len(self._drawn) > 0

    def beside(self, point: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]] | None:
        """Where the point stands on a step: a point just on either side of it. None where it stands on none."""
        if not self:
            return None
        start, along = self._drawn[:, 0], self._drawn[:, 1] - self._drawn[:, 0]
        at = np.clip(((point - start) * along).sum(axis=1) / (along**2).sum(axis=1), 0.0, 1.0)
        off = np.hypot(*(point - start - at[:, None] * along).T)
        nearest = int(off.argmin())
        if off[nearest] > ON_STEP_MM:
            return None
        x, y = along[nearest] / np.hypot(*along[nearest])
        aside = 2.0 * ON_STEP_MM * np.array([-y, x])
        return point + aside, point - aside

    def hidden(self, point: NDArray[np.float64], places: NDArray[np.float64]) -> NDArray[np.bool_]:
        """For each place: whether the straight way to it from the point crosses a step, or touches one."""
        if not self or not len(places):
            return np.zeros(len(places), dtype=bool)
        way = (places - point)[:, None, :]
        start, along = self._closing[None, :, 0], (self._closing[:, 1] - self._closing[:, 0])[None]
        to_start = start - point
        turn = way[..., 0] * along[..., 1] - way[..., 1] * along[..., 0]
        level = turn == 0
        safe = np.where(level, 1.0, turn)
        on_way = (to_start[..., 0] * along[..., 1] - to_start[..., 1] * along[..., 0]) / safe
        on_step = (to_start[..., 0] * way[..., 1] - to_start[..., 1] * way[..., 0]) / safe
        meets = ~level & (on_way >= 0) & (on_way <= 1) & (on_step >= 0) & (on_step <= 1)
        return np.asarray(meets.any(axis=1))
