"""A run along the page: cut into stretches that fit its width, and running dimensions with figures that keep apart."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from .lettering import CAP_HEIGHT, SMALL_MM, text_width_mm
from .primitives import Circle, Line, Mark, Text

# Between the baselines of figures that stand on end beside each other.
PITCH_MM = SMALL_MM * 1.15
LEADER_MM = 2.6
CAPTION_MM = SMALL_MM * 1.3
# How much closer than the longest that fits stretches may be cut, so that none is left with a stub.
HALVINGS = 12
# Below the least scale a run is carried on in another stretch; on wider paper a short run is drawn larger, to a limit.
LEAST_SCALE, PHONE_SCALE, PAPER_SCALE, PHONE_MM = 0.012, 0.026, 0.042, 90.0


@dataclass(frozen=True)
class Stretch:
    """A part of a run on one line of the page: `from_mm` to `to_mm` along the run, beginning at `paper_mm`; `scale` is
    paper mm a mm of the run."""

    from_mm: float
    to_mm: float
    paper_mm: float
    scale: float

    def at(self, along_mm: float) -> float:
        return self.paper_mm + (along_mm - self.from_mm) * self.scale

    def holds(self, along_mm: float) -> bool:
        return self.from_mm - 1e-6 <= along_mm <= self.to_mm + 1e-6

    @property
    def right_mm(self) -> float:
        return self.at(self.to_mm)


def scales_on(width_mm: float) -> tuple[float, float]:
    """Least and greatest scale of a run on paper so wide."""
    return LEAST_SCALE, min(PHONE_SCALE * width_mm / PHONE_MM, PAPER_SCALE)


def stretches(
    ends_mm: tuple[float, float],
    edges_mm: Sequence[float],
    crowds: Sequence[tuple[Sequence[float], int]],
    paper_mm: tuple[float, float],
    scales: tuple[float, float],
) -> tuple[Stretch, ...]:
    """The run from one end to the other on as many lines of the page as it takes, all to one scale.

    Cut at `edges_mm` where one is near enough. `crowds`: places that are labelled, and how many of them (two or more)
    may be on one line. `scales`: the least, below which another line is begun, and the greatest.
    """
    left_mm, right_mm = ends_mm
    room_mm = paper_mm[1] - paper_mm[0]
    edges = sorted({*edges_mm})
    full = [(sorted({*places}), most) for places, most in crowds]
    longest_mm = room_mm / scales[0]
    cuts = _cuts(left_mm, right_mm, edges, full, longest_mm)
    least_mm = (right_mm - left_mm) / max(len(cuts) - 1, 1)
    for _ in range(HALVINGS):
        middle_mm = (least_mm + longest_mm) / 2
        tried = _cuts(left_mm, right_mm, edges, full, middle_mm)
        if len(tried) <= len(cuts):
            cuts, longest_mm = tried, middle_mm
        else:
            least_mm = middle_mm
    longest_mm = max((b - a for a, b in pairwise(cuts)), default=0.0)
    scale = min(scales[1], room_mm / longest_mm) if longest_mm > 0 else scales[1]
    return tuple(Stretch(a, b, paper_mm[0], scale) for a, b in pairwise(cuts))


def _cuts(
    left_mm: float,
    right_mm: float,
    edges: Sequence[float],
    full: Sequence[tuple[Sequence[float], int]],
    longest_mm: float,
) -> list[float]:
    cuts = [left_mm]
    while True:
        start_mm = cuts[-1]
        limit_mm = min(right_mm, start_mm + longest_mm)
        for places, most in full:
            beyond = bisect_left(places, start_mm - 1e-6) + most
            if beyond < len(places) and places[beyond] <= limit_mm + 1e-6:
                limit_mm = places[beyond - 1]
        if limit_mm >= right_mm - 1e-6:
            return [*cuts, right_mm]
        edge = bisect_right(edges, limit_mm + 1e-6) - 1
        near = edge >= 0 and edges[edge] > start_mm + (limit_mm - start_mm) / 3
        cuts.append(edges[edge] if near else limit_mm)


def kept_apart(places_mm: Sequence[float], pitch_mm: float, low_mm: float, high_mm: float) -> list[float]:
    """Places in the same order and `pitch_mm` apart or more, within the two bounds, moved as little as can be (least
    squares, by pooling neighbours that would meet). `places_mm` in order; they must fit between the bounds."""
    pools: list[tuple[float, int]] = []
    for number, place_mm in enumerate(places_mm):
        pool = (place_mm - number * pitch_mm, 1)
        while pools and pools[-1][0] > pool[0]:
            mean_mm, count = pools.pop()
            pool = ((mean_mm * count + pool[0] * pool[1]) / (count + pool[1]), count + pool[1])
        pools.append(pool)
    top_mm = max(high_mm - (len(places_mm) - 1) * pitch_mm, low_mm)
    means = [min(max(mean_mm, low_mm), top_mm) for mean_mm, count in pools for _ in range(count)]
    return [mean_mm + number * pitch_mm for number, mean_mm in enumerate(means)]


@dataclass(frozen=True)
class Tick:
    """A place on a dimension line, its figure, and whether the line counts from there."""

    along_mm: float
    text: str
    origin: bool = False


def most_ticks(paper_mm: tuple[float, float]) -> int:
    """How many figures can stand on end between two places on the paper."""
    return max(2, int((paper_mm[1] - paper_mm[0]) / PITCH_MM))


def dimension_height_mm(ticks: Sequence[Tick], bold: bool = False) -> float:
    """What a dimension line takes of the page, caption included."""
    return CAPTION_MM + LEADER_MM + max((text_width_mm(one.text, SMALL_MM, bold) for one in ticks), default=0.0) + 1.6


def dimension(
    stretch: Stretch,
    y_mm: float,
    ticks: Sequence[Tick],
    caption: str,
    high_mm: float,
    up: bool = False,
    bold: bool = False,
) -> list[Mark]:
    """A running dimension beyond `y_mm`: its caption, the line, ticks, and figures on end, up the page or down it. A
    small circle stands where it counts from. `high_mm`: how far right figures may be moved."""
    way = -1 if up else 1
    line_mm = y_mm + way * CAPTION_MM
    caption_mm = line_mm + (SMALL_MM if up else -1.0)
    marks: list[Mark] = [
        Line(stretch.paper_mm, line_mm, stretch.right_mm, line_mm, "thin"),
        Text(stretch.paper_mm, caption_mm, caption, SMALL_MM, bold=bold, halo=True),
    ]
    shown = sorted(ticks, key=lambda one: one.along_mm)
    half_mm = SMALL_MM * CAP_HEIGHT / 2
    places = [stretch.at(one.along_mm) for one in shown]
    moved = kept_apart(places, PITCH_MM, stretch.paper_mm, high_mm)
    for one, from_mm, to_mm in zip(shown, places, moved, strict=True):
        end_mm = line_mm + way * LEADER_MM
        marks += [
            Line(from_mm, line_mm - 0.8, from_mm, line_mm + 0.8, "line"),
            Line(from_mm, line_mm + way * 0.8, to_mm, end_mm, "hair"),
            Text(to_mm + half_mm, end_mm + way * 0.6, one.text, SMALL_MM, "start" if up else "end", bold, turned=True),
        ]
        if one.origin:
            marks.append(Circle(from_mm, line_mm, 0.9, "spot"))
    return marks
