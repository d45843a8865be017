"""A drawing made of pieces one below another, parted into several where the paper ends."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from .lettering import paragraph
from .primitives import Drawing, Mark

TOP_MM = 1.0
LINE_GAP_MM = 0.8

Piece = Callable[[float], tuple[list[Mark], float]]
"""Draws itself from y down the page and says where it ends."""


@dataclass
class Stack:
    """`greatest_mm`: how high one drawing may be; None: as high as it takes. A piece that is higher has one alone."""

    width_mm: float
    margin_mm: float
    greatest_mm: float | None = None
    y_mm: float = TOP_MM
    marks: list[Mark] = field(default_factory=list)
    done: list[tuple[tuple[Mark, ...], float]] = field(default_factory=list)

    def put(self, piece: Piece, gap_mm: float) -> None:
        marks, end_mm = piece(self.y_mm)
        if self.greatest_mm is not None and end_mm > self.greatest_mm and self.marks:
            self._part()
            marks, end_mm = piece(self.y_mm)
        self.marks += marks
        self.y_mm = end_mm + gap_mm

    def words(self, lines: Sequence[str]) -> None:
        """Paragraphs across the whole width."""
        for line in lines:
            self.put(lambda y_mm, line=line: self.line(y_mm, line), LINE_GAP_MM)  # type: ignore[misc]

    def line(self, y_mm: float, words: str, bold: bool = False) -> tuple[list[Mark], float]:
        return paragraph(self.margin_mm, y_mm, words, self.width_mm - 2 * self.margin_mm, bold=bold)

    def drawings(self, title: str, alt: str) -> tuple[Drawing, ...]:
        """What was put, in order; every drawing but the first says that it carries on."""
        self._part()
        return tuple(
            Drawing(title if not number else f"{title}, carried on", alt, self.width_mm, height_mm, marks)
            for number, (marks, height_mm) in enumerate(self.done)
        )

    def _part(self) -> None:
        self.done.append((tuple(self.marks), self.y_mm + 1.0))
        self.marks, self.y_mm = [], TOP_MM
