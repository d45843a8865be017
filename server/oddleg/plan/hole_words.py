"""Words for holes, and the order in which the holes of a panel are numbered and worked through."""

from __future__ import annotations

from collections.abc import Iterable

from .fitted_out import Face, Hole, HoleFor, Panel

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
FOR_WORDS = {
    HoleFor.RUNNER: "runner",
    HoleFor.PULL_OUT: "pull-out frame",
    HoleFor.PLATE: "mounting plate",
    HoleFor.CUP: "hinge cup",
    HoleFor.CUP_SCREW: "hinge cup's screw",
    HoleFor.PIN: "shelf pin",
    HoleFor.LEG: "leg",
    HoleFor.BRACKET: "hanging bracket",
    HoleFor.CONNECTOR: "connecting screw",
    HoleFor.PASSAGE: "passage",
}
ORDER = tuple(FOR_WORDS)
SAME_DIGITS = 3


def ordinal(number: int) -> str:
    """ "first" to "tenth", then "number 11"."""
    return ORDINALS[number - 1] if number <= len(ORDINALS) else f"number {number}"


def in_order(holes: Iterable[Hole]) -> tuple[Hole, ...]:
    """By face, by what they are for, then line by line from the bottom, and along each line from the front (from the
    left on what has no front): as they are marked."""
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


def hole_numbers(panel: Panel) -> dict[str, int]:
    """Hole id to its number on the panel's drawing and table: 1, 2, 3 in the order in which they are worked through."""
    return {hole.id: number for number, hole in enumerate(in_order(panel.holes), 1)}
