"""The numbers of a job, by what they measure, and the record that says which of its fields are guesses."""

from __future__ import annotations

from typing import Any

from .fields import Listing, Number, Record, Text


def size(least: float = 1, **more: Any) -> Number:
    """A size of a thing that a person fits."""
    return Number(least, 20_000, **more)


def board(least: float = 1, **more: Any) -> Number:
    """A thickness."""
    return Number(least, 300, **more)


def play(**more: Any) -> Number:
    """A distance that may be nought."""
    return Number(0, 5_000, **more)


def width_within() -> Number:
    """How far a thing may be off its width, as `unit_size_mm` of the job; null: as the job has it."""
    return Number(0, 20, allow_none=True)


def place(**more: Any) -> Number:
    """A coordinate."""
    return Number(-1_000_000, 1_000_000, **more)


def along(**more: Any) -> Number:
    """A place along a run, from its zero: no run is longer than 50 m."""
    return Number(-50_000, 50_000, **more)


def level(**more: Any) -> Number:
    """A level over or under the bench mark."""
    return Number(-20_000, 20_000, **more)


class WithAssumed(Record):
    """A record that names its own fields that nobody has confirmed yet."""

    assumed = Listing(Text(greatest=64), greatest=50)

    def clashes(self, made: Any) -> dict[str, str]:
        own = [name for name in self.fields if name not in ("id", "assumed")]
        unknown = [name for name in made.assumed if name not in own]
        if unknown:
            return {"assumed": f"There is no field {unknown[0]} here to be assumed; allowed: {', '.join(own)}."}
        return {}
