"""Tables of figures from outside the project (CSV), and their readers."""

from __future__ import annotations

from oddleg.job import Charts

from .chart_rows import row_sha, row_texts, write_csv
from .columns import Column, columns
from .flatness import classes_in, flatness_classes, level_rules, rules_in
from .pins import pinned
from .reader import ChartRead, Problem, read_csv, read_rows
from .shipped import shipped_rows

__all__ = [
    "ChartRead",
    "Column",
    "Problem",
    "charts",
    "classes_in",
    "columns",
    "flatness_classes",
    "level_rules",
    "pinned",
    "read_csv",
    "read_rows",
    "row_sha",
    "row_texts",
    "rules_in",
    "shipped_rows",
    "write_csv",
]


def charts() -> Charts:
    """All tables that ship with the program."""
    return Charts(flatness_classes(), level_rules(), shipped_rows())
