"""Computation 8: a measured corner: its angle, what it does at the far ends, and what the post must take up."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import Run

from .figure import Figure
from .finding import Finding


@dataclass(frozen=True)
class FarEnd:
    """At the far end of one leg: `deviation` of the wall there from square (out into the room +), and the give or take
    that the triangle leaves."""

    run: str
    name: str
    length: Figure
    deviation: Figure
    give_or_take: Figure


@dataclass(frozen=True)
class Corner:
    """The corner where `left_run` (its right end) and `right_run` (its left end) meet. `angle_deg` between the two
    walls, None where not measured (then 90 is taken); `angle`: as shown, in degrees (`mm` holds degrees).
    `line_angle_deg`: between the two reference lines, what the front lines are solved with. `sides`: the triangle, with
    its names. `post`: what a post must be at least, and why. `cut_joint`: whether the worktop's joint is to be cut to
    the measured angle; None where the triangle cannot tell."""

    left_run: Run
    right_run: Run
    angle_deg: float | None
    angle: Figure | None
    line_angle_deg: float
    sides: tuple[tuple[str, Figure], ...]
    far_ends: tuple[FarEnd, ...]
    post_least: Figure | None
    post_has: Figure | None
    cut_joint: bool | None
    joint_words: str
    words: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class BlindUnit:
    """A blind corner carcass: the least `offset` of its near side from the other wall's face, what it uses of the run
    with that, the reach (clear width of its opening) that is left as the rod sets it out, and how far off it `stands`
    there."""

    item: str
    name: str
    run: str
    offset: Figure
    uses: Figure
    reach: Figure
    words: str
    stands: Figure


@dataclass(frozen=True)
class OpeningFront:
    """A front beside a corner, a wall or a lining: the room that it needs to its side, what there is, and the filler
    that cures it (0: it opens)."""

    item: str
    name: str
    run: str
    side: str
    beside: str
    needs: Figure
    has: Figure
    short: Figure
    opens: bool
    words: str
