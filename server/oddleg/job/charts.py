"""The tables that a plan is made with, as frozen values: read further out, handed in."""

from __future__ import annotations

from dataclasses import dataclass

from .flatness_class import FlatnessClass
from .hardware import HardwareRow
from .level_rule import LevelRule


@dataclass(frozen=True)
class Charts:
    """`hardware`: every row of a fitting chart that a job may have named, in any of its versions."""

    flatness_classes: tuple[FlatnessClass, ...] = ()
    level_rules: tuple[LevelRule, ...] = ()
    hardware: tuple[HardwareRow, ...] = ()
