"""Computation 1: levels of stations from all set-ups in one weighted least-squares adjustment."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from oddleg.job import Entry, Job, Point, Room, Stage

from .finding import Finding


@dataclass(frozen=True)
class StationLevel:
    """A level, mm over the bench mark, and its 95 % half-width; the readings that made it, by entry uid."""

    station: str
    stage: Stage
    level_mm: float
    half_width_mm: float
    readings: tuple[str, ...]
    set_ups: tuple[str, ...]
    spread_mm: float | None = None


@dataclass(frozen=True)
class Plane:
    """The level of a set-up's plane over the bench mark, mm, and its 95 % half-width."""

    set_up: str
    level_mm: float
    half_width_mm: float


@dataclass(frozen=True)
class Residual:
    """What one reading is off the adjusted one, mm (reading less adjusted), by entry uid."""

    reading: str
    set_up: str
    station: str
    residual_mm: float


@dataclass(frozen=True)
class Misclosure:
    """Largest misclosure of a closed way through the set-ups, mm, against its limit. None where nothing closes."""

    mm: float
    limit_mm: float
    set_ups: tuple[str, ...]
    stations: tuple[str, ...]


@dataclass(frozen=True)
class Levels:
    """`covariance` rows and columns stand in the order of `stations`. `noise_mm`: standard deviation of one reading as
    used; `noise_pooled` tells whether it came from repeats. `open_stations`: read, but no level until one is replaced.
    """

    stations: tuple[StationLevel, ...]
    planes: tuple[Plane, ...]
    residuals: tuple[Residual, ...]
    covariance: np.ndarray
    misclosure: Misclosure | None
    noise_mm: float
    noise_pooled: bool
    open_stations: tuple[str, ...]
    findings: tuple[Finding, ...]

    def at(self, station: str, stage: Stage) -> StationLevel | None:
        return next((one for one in self.stations if (one.station, one.stage) == (station, stage)), None)


def adjusted_levels(
    job: Job, room: Room, entries: Sequence[Entry], places: Mapping[str, Point | None], names: Mapping[str, str]
) -> Levels:
    """`entries`: live SetUp and Reading entries of this room. `places`, `names`: station or bench mark id to X, Y, name."""
    raise NotImplementedError
