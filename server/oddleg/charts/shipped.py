"""The fitting charts that ship with the program: generic and invented, as each of their rows says."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from oddleg.job import HardwareKind, HardwareRow

from .reader import read_csv


@cache
def shipped_rows() -> tuple[HardwareRow, ...]:
    """Every row, kind by kind. Raises ValueError, with line and column, where a file is at fault."""
    rows: list[HardwareRow] = []
    for kind in HardwareKind:
        read = read_csv(files(__package__).joinpath("hardware", f"{kind}.csv").read_bytes(), kind)
        if read.problems:
            one = read.problems[0]
            raise ValueError(f"{kind} chart, line {one.line}, {one.column}: {one.wrong}")
        rows += read.rows
    return tuple(rows)
