"""What is found out about one corner, gathered while it is worked out."""

from __future__ import annotations

from dataclasses import dataclass, field

from .figure import Figure, text_mm
from .finding import Finding, Severity
from .meeting_runs import Meeting

DEGREE_STEP = 0.01


@dataclass
class CornerFindings:
    meeting: Meeting
    found: list[Finding] = field(default_factory=list)

    @property
    def place(self) -> str:
        return f"corner of {self.meeting.names}"

    def add(
        self, rule: str, severity: Severity, wrong: str, cure: str, source: str, amount: Figure | None = None
    ) -> None:
        runs = (self.meeting.left.id, self.meeting.right.id)
        self.found.append(Finding(f"corner.{rule}", severity, self.place, wrong, cure, source, amount, runs))


def deg_text(value: float) -> str:
    return text_mm(value, DEGREE_STEP)
