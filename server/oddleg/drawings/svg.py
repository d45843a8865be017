"""Drawing to SVG: the one file that writes angle brackets, and therefore the one that escapes."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from .lettering import FAMILY
from .looks import LOOKS, PAPER
from .primitives import Circle, Drawing, Group, Line, Mark, Polygon, Polyline, RoomAxes, Text

ESCAPED = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"})
NOT_IN_XML = re.compile("[^\\t\\n\\r\\x20-\\ud7ff\\ue000-\\ufffd\\U00010000-\\U0010ffff]")
# Width of a halo in shares of the letters' size. A wider one eats letters where it is painted letter by letter.
HALO = 0.25


def svg(drawing: Drawing, id_prefix: str) -> str:
    """The drawing as an SVG element to be put inline or saved. `id_prefix` keeps ids apart where several share a page.

    Where parts of it can be tapped it is a group of buttons with a name; else one image with its words.
    """
    title_id, alt_id = f"{id_prefix}-title", f"{id_prefix}-alt"
    attributes = [
        ("xmlns", "http://www.w3.org/2000/svg"),
        ("viewBox", f"0 0 {_number(drawing.width_mm)} {_number(drawing.height_mm)}"),
        ("class", "drawing"),
        ("role", "group" if _has_buttons(drawing.marks) else "img"),
        ("aria-labelledby", title_id),
        ("aria-describedby", alt_id),
        ("font-family", f"{FAMILY}, sans-serif"),
        ("stroke-linecap", "round"),
        ("stroke-linejoin", "round"),
    ]
    pieces = [
        _open("svg", attributes),
        f"{_open('title', [('id', title_id)])}{_escaped(drawing.title)}</title>",
        f"{_open('desc', [('id', alt_id)])}{_escaped(drawing.alt)}</desc>",
        *_room_axes(drawing.room_axes),
        *_written(drawing.marks),
        "</svg>",
    ]
    return "\n".join(pieces) + "\n"


def _room_axes(axes: RoomAxes | None) -> Iterator[str]:
    """An empty group whose own units are mm of the room: a tap is brought into room axes by its matrix."""
    if axes is not None:
        turned = f"translate({_number(axes.x_mm)} {_number(axes.y_mm)}) scale({axes.scale:.8f})"
        yield _open("g", [("data-room", axes.room), ("transform", turned)]) + "</g>"


def _written(marks: Sequence[Mark]) -> Iterator[str]:
    for mark in marks:
        match mark:
            case Group():
                yield _open("g", _group_attributes(mark))
                if mark.title:
                    yield f"<title>{_escaped(mark.title)}</title>"
                yield from _written(mark.marks)
                yield "</g>"
            case Text():
                yield f"{_open('text', _text_attributes(mark))}{_escaped(mark.text)}</text>"
            case Line():
                ends = zip(("x1", "y1", "x2", "y2"), (mark.x1_mm, mark.y1_mm, mark.x2_mm, mark.y2_mm), strict=True)
                yield _open("line", [*((name, _number(value)) for name, value in ends), *_drawn(mark.css)], closed=True)
            case Circle():
                values = (("cx", mark.x_mm), ("cy", mark.y_mm), ("r", mark.radius_mm))
                yield _open("circle", [*((name, _number(at)) for name, at in values), *_drawn(mark.css)], closed=True)
            case Polyline() | Polygon():
                points = " ".join(f"{_number(x)},{_number(y)}" for x, y in mark.points_mm)
                name = "polygon" if isinstance(mark, Polygon) else "polyline"
                yield _open(name, [("points", points), *_drawn(mark.css)], closed=True)


def _group_attributes(group: Group) -> list[tuple[str, str]]:
    attributes = [("class", group.css)] if group.css else []
    attributes += [(f"data-{name}", value) for name, value in group.data]
    if group.can_focus:
        attributes += [("tabindex", "0"), ("role", "button"), ("aria-label", group.title)]
    return attributes


def _text_attributes(text: Text) -> list[tuple[str, str]]:
    attributes = [("x", _number(text.x_mm)), ("y", _number(text.y_mm)), ("font-size", _number(text.size_mm))]
    if text.turned:
        attributes.append(("transform", f"rotate(-90 {_number(text.x_mm)} {_number(text.y_mm)})"))
    if text.anchor != "start":
        attributes.append(("text-anchor", text.anchor))
    if text.bold:
        attributes.append(("font-weight", "700"))
    attributes += [("class", f"{text.css} halo" if text.halo else text.css), *_look(text.css)]
    if text.halo:
        attributes += [("stroke", PAPER), ("stroke-width", _number(text.size_mm * HALO)), ("paint-order", "stroke")]
    return attributes


def _drawn(css: str) -> list[tuple[str, str]]:
    return [("class", css), *_look(css)]


def _look(css: str) -> list[tuple[str, str]]:
    look = LOOKS[css]
    attributes = [("fill", look.fill)]
    if look.opacity != 1.0:
        attributes.append(("fill-opacity", _number(look.opacity)))
    if look.stroke != "none":
        attributes += [("stroke", look.stroke), ("stroke-width", _number(look.width_mm))]
    if look.dash:
        attributes.append(("stroke-dasharray", look.dash))
    return attributes


def _has_buttons(marks: Sequence[Mark]) -> bool:
    return any(isinstance(mark, Group) and (mark.can_focus or _has_buttons(mark.marks)) for mark in marks)


def _open(name: str, attributes: Sequence[tuple[str, str]], closed: bool = False) -> str:
    written = "".join(f' {key}="{_escaped(value)}"' for key, value in attributes)
    return f"<{name}{written}{'/' if closed else ''}>"


def _escaped(text: str) -> str:
    """Text for an element or an attribute; what XML 1.0 cannot hold at all becomes the replacement character."""
    return NOT_IN_XML.sub("\N{REPLACEMENT CHARACTER}", text).translate(ESCAPED)


def _number(value: float) -> str:
    """At most three decimals: a thousandth of a mm on paper."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
