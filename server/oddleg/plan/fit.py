"""Computation 10: will it fit: worst case first, a chance only if sizes vary as stated."""

from __future__ import annotations

from dataclasses import dataclass

from .figure import Figure
from .finding import Finding


@dataclass(frozen=True)
class Fit:
    """A row of items between two ends. `space`: the narrowest opening; `taken`: by items and fillers at their least;
    `spare`: what is left then; `worst`: what the sizes and joints can add at worst; `likely`: their root-sum-square (95
    %); `shift`: what the mean of the units measured adds, None below three. `sure`: whether the worst case goes in;
    `filler_to_be_sure`: how much narrower the fillers' least (together) would have to be, 0 where sure. `words`: the
    answer in plain words; `chance_words` begin with "If sizes vary as stated"."""

    row: str
    space: Figure
    taken: Figure
    spare: Figure
    worst: Figure
    likely: Figure
    shift: Figure | None
    sure: bool
    filler_to_be_sure: Figure
    words: str
    chance_words: str
    findings: tuple[Finding, ...]
