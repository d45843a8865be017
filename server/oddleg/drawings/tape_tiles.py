"""Tiles at full size to lay along a steel tape or a stick: paper, the edge with its marks, labels, and the bar."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from oddleg.plan.figure import text_mm

from .lettering import CAP_HEIGHT, SMALL_MM, text_width_mm, wrapped
from .primitives import Circle, Group, Line, Mark, Text
from .running import kept_apart
from .staircase import staircase


@dataclass(frozen=True)
class TilePaper:
    """`width_mm` of a tile as drawn, `step_mm` from its start line to the next tile's: what is over lies beyond the two
    lines, for glue and for seeing that neighbours agree."""

    name: str
    width_mm: float
    step_mm: float

    @property
    def start_mm(self) -> float:
        return (self.width_mm - self.step_mm) / 2


# ISO 216 paper laid across, less 14 mm at each side and what the title block and the foot of a sheet take.
PAPERS = {"a4": TilePaper("A4", 269.0, 250.0), "a3": TilePaper("A3", 392.0, 370.0)}

FIGURE_MM, NAME_MM = 4.4, SMALL_MM
NAME_WIDTH_MM = 46.0
EDGE_MM = 9.0
GAP_MM = 1.6
TICK_MM, FIFTY_MM = 2.0, 3.6
# Labels that would reach further in than this stand on end instead, figure and order alone.
MOST_DEEP_MM = 46.0


@dataclass(frozen=True)
class Entry:
    """Something to mark: where, its words, and how it is drawn. `order` 0: none."""

    x_mm: float
    figure: str
    name: str
    css: str
    order: int
    title: str

    def lines(self) -> tuple[tuple[str, float, bool], ...]:
        """(text, size, bold) from the top down."""
        first = f"{self.order}: {self.figure}" if self.order else self.figure
        names = wrapped(self.name, NAME_WIDTH_MM, NAME_MM)
        return ((first, FIGURE_MM, True), *((name, NAME_MM, False) for name in names))

    @property
    def short(self) -> str:
        """On one line, for a label on end."""
        return f"{self.order}: {self.figure}" if self.order else f"{self.figure}, {self.name.split('.')[0]}"

    def wide_mm(self) -> float:
        return 0.9 + max(text_width_mm(text, size, bold) for text, size, bold in self.lines())


@dataclass(frozen=True)
class _Label:
    """Where a label stands: how far in from the tile's edge its near side lies, and on which side of its line; `turned`
    on end, with its middle at `turned_mm`."""

    in_mm: float
    to_left: bool
    turned_mm: float | None = None


def labelled(
    entries: Sequence[Entry], of: TilePaper, at: Callable[[float], float]
) -> tuple[list[tuple[Entry, _Label]], float]:
    """Each entry with the place of its label, and how deep the labels reach in."""
    if not entries:
        return [], 0.0
    places = [at(one.x_mm) for one in entries]
    steps = staircase(places, [one.wide_mm() for one in entries], GAP_MM, 0.0, of.width_mm)
    if steps is not None:
        rows = max(step.row for step in steps) + 1
        deep = [
            max(_deep_mm(one) for one, step in zip(entries, steps, strict=True) if step.row == row)
            for row in range(rows)
        ]
        if sum(deep) <= MOST_DEEP_MM:
            labels = [_Label(GAP_MM + sum(deep[: step.row]), step.to_left) for step in steps]
            return list(zip(entries, labels, strict=True)), GAP_MM + sum(deep)
    moved = kept_apart(places, FIGURE_MM * 1.1, FIGURE_MM, of.width_mm - FIGURE_MM)
    wide_mm = max(text_width_mm(one.short, FIGURE_MM, True) for one in entries)
    turned = [_Label(5.0, False, x_mm) for x_mm in moved]
    return list(zip(entries, turned, strict=True)), 5.0 + wide_mm + 1.5


def _deep_mm(entry: Entry) -> float:
    return sum(size * 1.15 for _, size, _ in entry.lines()) + 0.8


def marked(entry: Entry, label: _Label, x_mm: float, edge_mm: float, way: int) -> Mark:
    """The mark from the tile's edge in, and its label. `way` 1: the upper edge, so that in is down the page."""
    start_mm = edge_mm + way * EDGE_MM
    if label.turned_mm is not None:
        knee_mm, half_mm = start_mm + way * 4.0, FIGURE_MM * CAP_HEIGHT / 2
        text = Text(
            label.turned_mm + half_mm, knee_mm + way * 0.8, entry.short, FIGURE_MM, "end" if way > 0 else "start",
            bold=True, turned=True,
        )  # fmt: skip
        parts: list[Mark] = [
            Line(x_mm, edge_mm, x_mm, start_mm, entry.css), Line(x_mm, start_mm, label.turned_mm, knee_mm, "hair"), text
        ]  # fmt: skip
        return Group(tuple(parts), "mark", title=f"{entry.title}, {entry.figure}")
    deep_mm = _deep_mm(entry)
    near_mm = start_mm + way * label.in_mm
    top_mm = near_mm if way > 0 else near_mm - deep_mm
    parts = [Line(x_mm, edge_mm, x_mm, near_mm + way * deep_mm, entry.css)]
    if entry.css == "dotted":
        parts.append(Circle(x_mm, edge_mm + way * EDGE_MM, 1.2, "spot"))
    base_mm = top_mm
    for words, size_mm, bold in entry.lines():
        base_mm += size_mm * 0.9
        at_mm, side = (x_mm - 0.9, "end") if label.to_left else (x_mm + 0.9, "start")
        parts.append(Text(at_mm, base_mm, words, size_mm, side, bold, halo=True))
        base_mm += size_mm * 0.25
    return Group(tuple(parts), "mark", title=f"{entry.title}, {entry.figure}")


def check_bar(of: TilePaper, bar_mm: float) -> Group:
    """As long as the tile, from its start line to the next tile's."""
    right_mm = of.start_mm + of.step_mm
    return Group(
        (
            Line(of.start_mm, bar_mm, right_mm, bar_mm, "line"),
            Line(of.start_mm, bar_mm - 2.0, of.start_mm, bar_mm + 2.0, "line"),
            Line(right_mm, bar_mm - 2.0, right_mm, bar_mm + 2.0, "line"),
        ),
        "check-bar",
        title=f"check bar, {text_mm(of.step_mm)}",
    )


def edge(of: TilePaper, start_mm: float, edge_mm: float, way: int) -> list[Mark]:
    """An edge to lay the tape along: a line and a tick every 10, longer every 50."""
    marks: list[Mark] = [Line(0.0, edge_mm, of.width_mm, edge_mm, "line")]
    for along in range(0, int(of.step_mm) + 1, 10):
        x_mm = of.start_mm + along
        fifty = (start_mm + along) % 50 == 0
        marks.append(Line(x_mm, edge_mm, x_mm, edge_mm + way * (FIFTY_MM if fifty else TICK_MM), "thin"))
    return marks


def scale_figures(of: TilePaper, start_mm: float, edge_mm: float, way: int) -> list[Mark]:
    """The tape's figure every 50."""
    base_mm = edge_mm + way * (FIFTY_MM + 0.8) + (SMALL_MM * CAP_HEIGHT if way > 0 else 0.0)
    return [
        Text(of.start_mm + along, base_mm, text_mm(start_mm + along), SMALL_MM, "middle", halo=True)
        for along in range(0, int(of.step_mm) + 1, 10)
        if (start_mm + along) % 50 == 0
    ]
