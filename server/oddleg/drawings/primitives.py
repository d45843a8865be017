"""What a drawing is made of: lines, polygons, circles and texts in mm on paper, x to the right and y down the page.

A mark has a class (`css`) instead of colours: looks.py says how each class is drawn, and a screen may restyle it.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Line:
    x1_mm: float
    y1_mm: float
    x2_mm: float
    y2_mm: float
    css: str


@dataclass(frozen=True)
class Polyline:
    points_mm: tuple[tuple[float, float], ...]
    css: str


@dataclass(frozen=True)
class Polygon:
    points_mm: tuple[tuple[float, float], ...]
    css: str


@dataclass(frozen=True)
class Circle:
    x_mm: float
    y_mm: float
    radius_mm: float
    css: str


@dataclass(frozen=True)
class Text:
    """One line of text on its baseline. `anchor`: start, middle or end of the text stands at x. `halo` clears what lies
    under the letters. `turned`: reads up the page, so that x is its baseline and its anchor stands at y."""

    x_mm: float
    y_mm: float
    text: str
    size_mm: float
    anchor: str = "start"
    bold: bool = False
    css: str = "ink"
    halo: bool = False
    turned: bool = False


@dataclass(frozen=True)
class Group:
    """Marks that belong together. `data`: names and values of data attributes; `title` is what is read out for it.
    `can_focus`: a key or a finger can go to it; it is then a button called by its title."""

    marks: tuple[Mark, ...]
    css: str = ""
    data: tuple[tuple[str, str], ...] = ()
    title: str = ""
    can_focus: bool = False


Mark = Line | Polyline | Polygon | Circle | Text | Group


@dataclass(frozen=True)
class RoomAxes:
    """Where room axes lie on the paper: the room's zero at x, y; `scale` mm of paper for each mm of the room."""

    room: str
    x_mm: float
    y_mm: float
    scale: float


@dataclass(frozen=True)
class Drawing:
    """`alt` says in words what the drawing shows, with its figures. `room_axes` where it is a plan of a room."""

    title: str
    alt: str
    width_mm: float
    height_mm: float
    marks: tuple[Mark, ...]
    room_axes: RoomAxes | None = None


def rectangle(left_mm: float, top_mm: float, right_mm: float, bottom_mm: float, css: str) -> Polygon:
    return Polygon(((left_mm, top_mm), (right_mm, top_mm), (right_mm, bottom_mm), (left_mm, bottom_mm)), css)
