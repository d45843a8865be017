"""A row of a fitting chart as it is kept: one JSON object, the fields of its dataclass, its sha among them.

What is kept was checked when it came in. It is read as it stands, not by today's limits: a job that is pinned to it
keeps it whatever a later program allows.
"""

from __future__ import annotations

import dataclasses
import json
from enum import StrEnum
from typing import Any

from oddleg.charts.chart_rows import row_types
from oddleg.job import ROW_OF, HardwareKind, HardwareRow


def chart_row_text(row: HardwareRow) -> str:
    return json.dumps(dataclasses.asdict(row), ensure_ascii=False, allow_nan=False)


def chart_row(kind: HardwareKind, text: str) -> HardwareRow:
    """The row that was kept as this text."""
    made = ROW_OF[kind]
    types = row_types(made)
    fields: dict[str, Any] = {name: _as(types[name], value) for name, value in json.loads(text).items()}
    return made(**fields)


def _as(type_: Any, value: Any) -> Any:
    if isinstance(value, list):
        return tuple(value)
    if isinstance(type_, type) and issubclass(type_, StrEnum):
        return type_(value)
    return value
