"""Computation 2: the floor as a surface through its stations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from oddleg.job import BreakLine, Tolerances


@dataclass(frozen=True)
class Spot:
    """A station on one surface: its level there and what that level rests on."""

    id: str
    name: str
    x_mm: float
    y_mm: float
    level_mm: float


@dataclass(frozen=True)
class SurfaceLevel:
    """The level of a surface at one place. `rests_on`: (station id, share) with shares that sum to 1. `rule`: plain words
    for how it came about ("read there", "between its neighbours on the line", "in the triangle of", "beyond the last
    station", "off the profile"). `to_station_mm`: distance to the nearest station.
    """

    level_mm: float
    half_width_mm: float
    rests_on: tuple[tuple[str, float], ...]
    rule: str
    to_station_mm: float


class Surface:
    """Linear along lines of stations, linear over the Delaunay triangulation elsewhere.

    `covariance`: of the spots' levels, mm2, in their order. `lines`: station ids in order along each line.
    """

    def __init__(
        self,
        spots: Sequence[Spot],
        covariance: np.ndarray,
        lines: Sequence[Sequence[str]],
        break_lines: Sequence[BreakLine],
        tolerances: Tolerances,
    ) -> None:
        raise NotImplementedError

    spots: tuple[Spot, ...]

    @property
    def highest(self) -> Spot:
        raise NotImplementedError

    @property
    def lowest(self) -> Spot:
        raise NotImplementedError

    @property
    def range_mm(self) -> float:
        raise NotImplementedError

    def at(self, x_mm: float, y_mm: float) -> SurfaceLevel | None:
        """None where nothing can be said: no spots, or too far beside a profile."""
        raise NotImplementedError

    def worst_slope(self) -> tuple[float, Spot, Spot] | None:
        """mm per m, between two neighbouring spots at least 300 mm apart."""
        raise NotImplementedError
