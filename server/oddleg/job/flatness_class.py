"""A flatness class: what a standard or a trade's rule allows under a straightedge, as a frozen value."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class FlatnessClass:
    """`limits_mm`: (measuring distance, greatest hollow), both mm, by rising distance. One row holds at its own
    distance only; between several rows the limit is linear, rounded half up to whole mm. `status`: how the figures were
    come by (read; secondary, on a page that reports the standard; memory). `applies_to`, `source`: plain words.
    """

    name: str
    applies_to: str
    limits_mm: tuple[tuple[float, float], ...]
    source: str
    status: str
