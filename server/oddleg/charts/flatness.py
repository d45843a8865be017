"""Tables that floors are held to: classes of flatness and rules of level, each with its source and status."""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Iterable
from functools import cache
from importlib.resources import files

from oddleg.job import FlatnessClass, LevelRule


@cache
def flatness_classes() -> tuple[FlatnessClass, ...]:
    """The classes of `flatness.csv`, in its order. Raises ValueError, with the line, where it is at fault."""
    return classes_in(_lines_of("flatness.csv"))


@cache
def level_rules() -> tuple[LevelRule, ...]:
    """The rules of `floor_level.csv`, in its order. Raises ValueError, with the line, where it is at fault."""
    return rules_in(_lines_of("floor_level.csv"))


def _lines_of(name: str) -> list[str]:
    return files(__package__).joinpath(name).read_text(encoding="utf-8").splitlines()


def rules_in(table: Iterable[str]) -> tuple[LevelRule, ...]:
    """The rules of a table with the columns name, applies_to, mm_per_m, up_to_mm, beyond_mm, source, status; figures
    above 0, ValueError otherwise."""
    rules = []
    for number, row in enumerate(csv.DictReader(table), start=2):
        try:
            figures = [float(row[column]) for column in ("mm_per_m", "up_to_mm", "beyond_mm")]
            rules.append(LevelRule(row["name"], row["applies_to"], *figures, row["source"], row["status"]))
        except (KeyError, TypeError, ValueError) as fault:
            raise ValueError(f"floor level table, line {number}: a column is missing or no number") from fault
        if not all(0 < one < float("inf") for one in figures):
            raise ValueError(f"floor level table, line {number}: figures must be above 0")
    return tuple(rules)


def classes_in(table: Iterable[str]) -> tuple[FlatnessClass, ...]:
    """The classes of a table with the columns name, applies_to, distance_mm, limit_mm, source, status.

    Distances and limits are above 0, distances rise within a class, and what is said of a class is the same in each of
    its rows; ValueError otherwise.
    """
    limits: dict[str, list[tuple[float, float]]] = defaultdict(list)
    said: dict[str, tuple[str, str, str]] = {}
    for number, row in enumerate(csv.DictReader(table), start=2):
        try:
            name, words = row["name"], (row["applies_to"], row["source"], row["status"])
            distance_mm, limit_mm = float(row["distance_mm"]), float(row["limit_mm"])
        except (KeyError, TypeError, ValueError) as fault:
            raise ValueError(f"flatness table, line {number}: a column is missing or no number") from fault
        if not (0 < distance_mm < float("inf") and 0 < limit_mm < float("inf")):
            raise ValueError(f"flatness table, line {number}: {name} needs a distance and a limit above 0")
        if limits[name] and distance_mm <= limits[name][-1][0]:
            raise ValueError(f"flatness table, line {number}: distances of {name} must rise")
        if said.setdefault(name, words) != words:
            raise ValueError(f"flatness table, line {number}: {name} is described in two ways")
        limits[name].append((distance_mm, limit_mm))
    return tuple(
        FlatnessClass(name, applies_to, tuple(limits[name]), source, status)
        for name, (applies_to, source, status) in said.items()
    )
