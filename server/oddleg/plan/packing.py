"""Computation 7: the batten: its pieces and fixings, and what is packed behind it at each."""

from __future__ import annotations

from dataclasses import dataclass

from .figure import Figure
from .finding import Finding


@dataclass(frozen=True)
class Fixing:
    """`at`: from the run's zero. `packing`: in whole mm, None where the wall is not read there; `packs` the packers
    that make it, "5 + 2". `void`: wall to line of backs. `on`: stud or patress, or spacing. `zone`: words of a cable
    zone that it lies in, a caution; empty where none is known."""

    number: int
    x_mm: float
    at: Figure
    void: Figure | None
    packing: Figure | None
    packs: str
    on: str
    zone: str


@dataclass(frozen=True)
class BattenPiece:
    """One length of batten, from `left` to `right` on the rod."""

    number: int
    left: Figure
    right: Figure
    length: Figure


@dataclass(frozen=True)
class RunBatten:
    """`least` packing anywhere along the batten, between fixings too, and at which x it is. `cut_outs`: x spans (left,
    right) where it is cut out: at carcass sides where it lies in the recess, and over bays where an appliance needs the
    depth."""

    thickness: Figure
    height: Figure
    pieces: tuple[BattenPiece, ...]
    fixings: tuple[Fixing, ...]
    least: Figure | None
    least_at: Figure | None
    cut_outs: tuple[tuple[Figure, Figure], ...]
    stock_words: str
    caution: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class PanelScribe:
    """What comes off an end panel's rear edge where it meets the wall: depth as cut, and the scribe at each height."""

    item: str
    name: str
    cut_depth: Figure
    scribe: tuple[tuple[str, Figure], ...]
