"""What a check says. What cannot be built is a finding in the plan, never an exception."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .figure import Figure


class Severity(StrEnum):
    STOP = "stop"
    WARN = "warn"
    NOTE = "note"


@dataclass(frozen=True)
class Finding:
    """`rule` is a stable name such as "levels.misclosure"; `place` says where in plain words; `wrong` what is wrong;
    `amount` by how much; `cure` what to do; `source` where the limit comes from. `concerns`: ids of the room, run,
    unit, station or set-up that it is about. `caution`: a hazard, which defers to local code and the licensed trade.
    """

    rule: str
    severity: Severity
    place: str
    wrong: str
    cure: str
    source: str = ""
    amount: Figure | None = None
    concerns: tuple[str, ...] = ()
    caution: bool = False
