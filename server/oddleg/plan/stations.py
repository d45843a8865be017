"""Where to read: the stations that the fitter is sent to, in a first pass and then in between."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import Station

from .figure import Figure


@dataclass(frozen=True)
class PlannedStation:
    """`state`: unread, read, open (repeats differ), blocked. `pass_number` 1: first pass, 2: in between. `accepted`: the
    job holds it; else it is proposed, or added on site (`added`). `level` at its latest stage as read.
    """

    station: Station
    pass_number: int
    accepted: bool
    added: bool
    state: str
    level: Figure | None
    readings: int


@dataclass(frozen=True)
class StationList:
    """`stations` in walking order; `lines`: ids along each leg line, left to right; `order`: bench mark first and last."""

    stations: tuple[PlannedStation, ...]
    lines: tuple[tuple[str, ...], ...]
