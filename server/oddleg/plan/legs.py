"""Computation 5: the height of every leg, and the bench preset of every carcass."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import Point

from .figure import Figure
from .finding import Finding
from .rod import Placed
from .surfaces import SurfaceLevel


@dataclass(frozen=True)
class LegPlace:
    """Where a leg stands. `id`: BL, BM, BR, FL, FM, FR as fitted, facing the wall."""

    id: str
    name: str
    x_mm: float
    y_mm: float
    spot: Point


@dataclass(frozen=True)
class LegHeight:
    """`height` is whole mm as shown. `differs` from the preset, signed. `set_at`: already set at this height; `wind`: what
    to wind out (+) or in (-) now. `exact`: preset exactly, nobody reaches it later (back legs). `bench_column` 0 is on
    your left with the carcass upside down and its front towards you; `bench_row` 0 is nearest to you (the front).
    """

    place: LegPlace
    floor: SurfaceLevel
    height: Figure
    differs: Figure
    exact: bool
    bench_column: int
    bench_row: int
    set_at: Figure | None = None
    wind: Figure | None = None


@dataclass(frozen=True)
class UnitLegs:
    """Legs of one carcass at the datum `datum_mm`; `underside` is the carcass's underside over the bench mark."""

    placed: Placed
    number: int
    datum_mm: float
    underside: Figure
    preset: Figure
    legs: tuple[LegHeight, ...]
    findings: tuple[Finding, ...]
