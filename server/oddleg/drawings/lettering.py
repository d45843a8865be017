"""How much room words take, and where there is some left for them."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from .primitives import Line, Mark, Text, rectangle

FONTS = Path(__file__).parent / "fonts"
FAMILY = "Atkinson Hyperlegible"
# 11 px where a drawing is shown one to one (96 px to the inch, CSS Values 4): the least that a phone may show.
SMALL_MM = 3.0
LINE_MM = SMALL_MM * 1.25
CAP_HEIGHT = 0.668
UNKNOWN_WIDTH = 0.7


@cache
def _advances() -> dict[str, tuple[float, float]]:
    """Advance widths of the font's letters, regular and bold, in shares of the size; from the font's own tables."""
    with (FONTS / "widths.csv").open(encoding="ascii") as rows:
        return {
            chr(int(row["code"])): (int(row["regular"]) / 1000, int(row["bold"]) / 1000) for row in csv.DictReader(rows)
        }


def text_width_mm(text: str, size_mm: float, bold: bool = False) -> float:
    """Width of a line of text, kerning left out; a letter that the font lacks counts as a wide one."""
    table = _advances()
    return size_mm * sum(table.get(char, (UNKNOWN_WIDTH, UNKNOWN_WIDTH))[bold] for char in text)


def wrapped(text: str, width_mm: float, size_mm: float, bold: bool = False) -> tuple[str, ...]:
    """Lines no wider than `width_mm`, broken between words; a word longer than a line is broken where the line ends."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        if line and text_width_mm(f"{line} {word}", size_mm, bold) <= width_mm:
            line = f"{line} {word}"
            continue
        if line:
            lines.append(line)
        line = word
        while text_width_mm(line, size_mm, bold) > width_mm and len(line) > 1:
            fits = next(
                n for n in range(len(line) - 1, 0, -1) if n == 1 or text_width_mm(line[:n], size_mm, bold) <= width_mm
            )
            lines.append(line[:fits])
            line = line[fits:]
    return (*lines, line) if line else tuple(lines)


def shortened(text: str, width_mm: float, size_mm: float, bold: bool = False) -> str:
    """The text, or as much of it as fits before an ellipsis."""
    if text_width_mm(text, size_mm, bold) <= width_mm:
        return text
    for length in range(len(text) - 1, 0, -1):
        short = text[:length].rstrip() + "…"
        if text_width_mm(short, size_mm, bold) <= width_mm:
            return short
    return ""


def lines_at_most(text: str, most: int, width_mm: float, size_mm: float, bold: bool = False) -> tuple[str, ...]:
    """The text in so many lines or fewer; what goes beyond them ends in an ellipsis."""
    lines = wrapped(text, width_mm, size_mm, bold)
    if len(lines) <= most:
        return lines
    return (*lines[: most - 1], shortened(" ".join(lines[most - 1 :]), width_mm, size_mm, bold))


def paragraph(
    x_mm: float,
    y_mm: float,
    text: str,
    width_mm: float,
    size_mm: float = SMALL_MM,
    bold: bool = False,
    css: str = "ink",
) -> tuple[list[Mark], float]:
    """The text in lines from y downwards, and the y below them."""
    lines = wrapped(text, width_mm, size_mm, bold)
    step_mm = size_mm * 1.25
    marks: list[Mark] = [
        Text(x_mm, y_mm + size_mm * 0.8 + i * step_mm, line, size_mm, bold=bold, css=css)
        for i, line in enumerate(lines)
    ]
    return marks, y_mm + len(lines) * step_mm


def spread(wanted: Sequence[tuple[float, float]], top_mm: float, bottom_mm: float) -> list[float]:
    """Tops of labels (middle of the first line wanted, height), in order, none over another, all within bounds."""
    tops: list[float] = []
    at_mm = top_mm
    for y_mm, height_mm in wanted:
        at_mm = max(at_mm, y_mm - LINE_MM / 2)
        tops.append(at_mm)
        at_mm += height_mm + 1.2
    limit_mm = bottom_mm
    for i in range(len(tops) - 1, -1, -1):
        tops[i] = min(tops[i], limit_mm - wanted[i][1])
        limit_mm = tops[i] - 1.2
    return tops


@dataclass(frozen=True)
class Area:
    left_mm: float
    top_mm: float
    right_mm: float
    bottom_mm: float

    def shared_mm2(self, other: Area) -> float:
        # Most pairs lie apart, and a long room has millions of them.
        if (
            self.right_mm <= other.left_mm
            or other.right_mm <= self.left_mm
            or self.bottom_mm <= other.top_mm
            or other.bottom_mm <= self.top_mm
        ):
            return 0.0
        width_mm = min(self.right_mm, other.right_mm) - max(self.left_mm, other.left_mm)
        height_mm = min(self.bottom_mm, other.bottom_mm) - max(self.top_mm, other.top_mm)
        return width_mm * height_mm

    def outside_mm2(self, page: Area) -> float:
        own_mm2 = (self.right_mm - self.left_mm) * (self.bottom_mm - self.top_mm)
        return own_mm2 - self.shared_mm2(page)


# What it costs a label to cover a mm2 of something that is drawn, of a mere line, and of what lies beyond the page.
COVERS, CROSSES, BEYOND = 4.0, 2.0, 80.0
# What a label's leader costs for each mm, and for each mm that it runs over something drawn that COVERS;
# more over what costs more.
LED, LED_ACROSS = 0.4, 3.0
LEADER_STEP_MM = 0.7

# Where a label may stand beside its spot, best first: (across, down) from the spot's middle, in shares of the way.
SIDES = ((0, -1), (0, 1), (1, 0), (-1, 0), (1, -1), (-1, -1), (1, 1), (-1, 1))
LED_OUT_MM = (0.0, 3.5, 7.0, 10.5)


@dataclass
class Page:
    """Places labels one by one, each where it covers least of what is there already."""

    width_mm: float
    height_mm: float
    taken: list[tuple[Area, float]] = field(default_factory=list)

    def keep_clear(self, areas: Iterable[Area], cost: float = COVERS) -> None:
        self.taken.extend((area, cost) for area in areas)

    def is_free(self, area: Area) -> bool:
        """Whether nothing but lines is there."""
        return all(weight < COVERS or area.shared_mm2(other) == 0 for other, weight in self.taken)

    def _near(self, x_mm: float, y_mm: float, across_mm: float, down_mm: float) -> list[tuple[Area, float]]:
        """What a label of this spot could meet at all: a long room has thousands of areas elsewhere."""
        left, right, top, bottom = x_mm - across_mm, x_mm + across_mm, y_mm - down_mm, y_mm + down_mm
        return [
            (one, cost)
            for one, cost in self.taken
            if one.left_mm < right and one.right_mm > left and one.top_mm < bottom and one.bottom_mm > top
        ]

    def label(
        self,
        x_mm: float,
        y_mm: float,
        radius_mm: float,
        lines: Sequence[tuple[str, bool]],
        size_mm: float,
        css: str = "ink",
        backed: bool = False,
    ) -> list[Mark]:
        """The lines (text, bold) beside a spot of that radius; where they stand off, a thin line leads back to it.
        `backed`: on a patch of paper where they lie over something, since a halo leaves lines between words."""
        width_mm = max(text_width_mm(text, size_mm, bold) for text, bold in lines)
        height_mm = size_mm * (CAP_HEIGHT + 1.1 * (len(lines) - 1))
        page = Area(0.5, 0.5, self.width_mm - 0.5, self.height_mm - 0.5)
        near = self._near(
            x_mm, y_mm, radius_mm + LED_OUT_MM[-1] + 2 + width_mm, radius_mm + LED_OUT_MM[-1] + 2 + height_mm
        )
        best: tuple[float, Area, float, int] | None = None
        for led_mm in LED_OUT_MM:
            for across, down in SIDES:
                gap_mm = radius_mm + 0.9 + led_mm
                share = 0.75 if across and down else 1.0
                middle_x = x_mm + across * (gap_mm * share + width_mm / 2)
                middle_y = y_mm + down * (gap_mm * share + height_mm / 2)
                area = Area(
                    middle_x - width_mm / 2 - 0.3, middle_y - height_mm / 2 - 0.3,
                    middle_x + width_mm / 2 + 0.3, middle_y + height_mm / 2 + 0.3,
                )  # fmt: skip
                cost = BEYOND * area.outside_mm2(page) + led_mm * LED
                for other, weight in near:
                    if best is not None and cost >= best[0]:
                        break
                    cost += weight * area.shared_mm2(other)
                if led_mm > 0 and (best is None or cost < best[0]):
                    drawn = [(other, weight) for other, weight in near if weight >= COVERS]
                    for step in _leader(x_mm, y_mm, radius_mm, area):
                        met = max((weight for other, weight in drawn if step.shared_mm2(other)), default=0.0)
                        cost += LED_ACROSS * LEADER_STEP_MM * met / COVERS
                if best is None or cost < best[0] - 1e-9:
                    best = cost, area, led_mm, across
            if best is not None and best[0] <= led_mm * LED + 1e-9:
                break
        assert best is not None
        _, area, led_mm, across = best
        self.keep_clear([area])
        if led_mm > 0:
            self.keep_clear(_leader(x_mm, y_mm, radius_mm, area), CROSSES)
        anchor, at_x = {
            0: ("middle", (area.left_mm + area.right_mm) / 2),
            1: ("start", area.left_mm + 0.3),
            -1: ("end", area.right_mm - 0.3),
        }[across]
        marks: list[Mark] = []
        if backed and any(area.shared_mm2(other) > 0 for other, _ in near):
            marks.append(rectangle(area.left_mm, area.top_mm, area.right_mm, area.bottom_mm, "paper"))
        if led_mm > 0:
            near_x = min(max(x_mm, area.left_mm), area.right_mm)
            near_y = min(max(y_mm, area.top_mm), area.bottom_mm)
            marks.append(Line(x_mm, y_mm, near_x, near_y, "hair"))
        for i, (text, bold) in enumerate(lines):
            base_mm = area.top_mm + 0.3 + size_mm * (CAP_HEIGHT + 1.1 * i)
            marks.append(Text(at_x, base_mm, text, size_mm, anchor, bold, css, halo=True))
        return marks


def _leader(x_mm: float, y_mm: float, radius_mm: float, area: Area) -> Iterator[Area]:
    """The line from a spot's edge to its label, as small areas along it."""
    across_mm = min(max(x_mm, area.left_mm), area.right_mm) - x_mm
    down_mm = min(max(y_mm, area.top_mm), area.bottom_mm) - y_mm
    length_mm = max((across_mm**2 + down_mm**2) ** 0.5, 1e-9)
    at_mm = radius_mm + LEADER_STEP_MM / 2
    while at_mm < length_mm - LEADER_STEP_MM / 2:
        x, y = x_mm + across_mm * at_mm / length_mm, y_mm + down_mm * at_mm / length_mm
        half = LEADER_STEP_MM / 2
        yield Area(x - half, y - half, x + half, y + half)
        at_mm += LEADER_STEP_MM
