"""What the units of a room are fitted out with and what its services ask, in order: box, fronts, cut-outs, panels."""

from __future__ import annotations

from dataclasses import dataclass

from .finding import Finding
from .fitted_out import FittedOut
from .room_services import RoomServices


@dataclass(frozen=True)
class RoomFitting:
    """`units`: every carcass and open unit that is fitted out, in room order. `findings`: between units."""

    units: tuple[FittedOut, ...]
    services: RoomServices
    findings: tuple[Finding, ...]


NOTHING_FITTED = RoomFitting((), RoomServices(), ())
