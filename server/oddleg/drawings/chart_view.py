"""A view of a piece of hardware: marks in mm of the thing itself, x to the right and y up, its figures along both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.plan.figure import text_mm

from .primitives import Mark, rectangle

# The chart leaves the board open and a picture needs one: the usual one, and so said where it is read.
BOARD_MM = 18.0
STEP_MM = 0.01


@dataclass(frozen=True)
class Tick:
    """A figure of the chart at its place; `origin`: it counts from there."""

    at_mm: float
    text: str
    origin: bool = False


@dataclass(frozen=True)
class View:
    """`marks`: in mm, y up; a Text stands on its middle and has no size of its own."""

    caption: str
    marks: tuple[Mark, ...]
    across: tuple[Tick, ...] = ()
    up: tuple[Tick, ...] = ()


def mm(value_mm: float) -> str:
    """As it was typed, to a hundredth."""
    return text_mm(value_mm, STEP_MM)


def tick(at_mm: float, words: str) -> Tick:
    return Tick(at_mm, f"{mm(at_mm)} {words}")


def each(places: Sequence[float]) -> tuple[Tick, ...]:
    return tuple(Tick(one, mm(one)) for one in dict.fromkeys(places) if one)


def section(hole_mm: float, deep_mm: float) -> View:
    """A hole in a board of the usual thickness: one that comes through is seen."""
    half_mm, wide_mm = hole_mm / 2, max(30.0, 2 * hole_mm)
    marks: tuple[Mark, ...] = (
        rectangle(-wide_mm, 0, wide_mm, BOARD_MM, "part"),
        rectangle(-half_mm, BOARD_MM - deep_mm, half_mm, BOARD_MM, "paper"),
        rectangle(-half_mm, BOARD_MM - deep_mm, half_mm, BOARD_MM, "line"),
    )
    across = (Tick(0, f"{mm(hole_mm)} across"),)
    up = (
        Tick(BOARD_MM, "0 face", True),
        Tick(BOARD_MM - deep_mm, f"{mm(deep_mm)} deep"),
        Tick(0, f"{mm(BOARD_MM)} board"),
    )
    return View(f"Its hole in a board of {mm(BOARD_MM)}", marks, across, up)
