"""Words for the holes of one piece of hardware, and the order in which a panel keeps its holes."""

from __future__ import annotations

from collections.abc import Iterable

from .fitted_out import Face, Hole, HoleFor

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
ORDER = (
    HoleFor.RUNNER,
    HoleFor.PULL_OUT,
    HoleFor.PLATE,
    HoleFor.CUP,
    HoleFor.CUP_SCREW,
    HoleFor.PIN,
    HoleFor.LEG,
    HoleFor.BRACKET,
    HoleFor.CONNECTOR,
    HoleFor.PASSAGE,
)
SAME_DIGITS = 3


def ordinal(number: int) -> str:
    """ "first" to "tenth", then "number 11"."""
    return ORDINALS[number - 1] if number <= len(ORDINALS) else f"number {number}"


def in_order(holes: Iterable[Hole]) -> tuple[Hole, ...]:
    """By face, by what they are for, then line by line from the bottom, and along each line from the front (from the
    left on what has no front)."""
    return tuple(
        sorted(
            holes,
            key=lambda hole: (
                hole.face is Face.OTHER,
                ORDER.index(hole.hole_for),
                round(hole.v_mm, SAME_DIGITS),
                round(hole.u_mm, SAME_DIGITS),
                hole.id,
            ),
        )
    )
