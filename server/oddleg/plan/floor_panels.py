"""End panels and posts that run to the floor: how long they are at their edges, and the scribe between."""

from __future__ import annotations

from dataclasses import dataclass

from .figure import Figure


@dataclass(frozen=True)
class PanelHeight:
    """Lengths from the top down to what it stands on. A panel has a `front` and a `back` edge; a post, which stands in
    the front line, its `left` and `right` as `edges` say. `scribe`: the longer less the shorter. `longest`: to cut it
    to, the greatest along its foot. `top`: level of its top over the bench mark.
    """

    item: str
    name: str
    run: str
    what: str
    top: Figure
    edges: tuple[tuple[str, Figure], tuple[str, Figure]]
    longest: Figure
    scribe: Figure
    stands_on: str
