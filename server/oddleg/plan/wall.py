"""The wall of a run as read: how far it stands out along x, the opening's widths, and what it carries."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import Feature, OpeningDepth, Run, WallHeight

from .figure import Figure
from .finding import Finding


@dataclass(frozen=True)
class WallStation:
    """A place along a run where the fitter reads the wall, at each of `heights`. `serves`: plain words, "batten fixing
    3". `added`: read on site at a place that the plan does not propose."""

    id: str
    name: str
    x_mm: float
    heights: tuple[WallHeight, ...]
    serves: str
    added: bool = False


@dataclass(frozen=True)
class WallSpot:
    """One place and height. `state`: unread, read, open (read, but not to be used until one reading is replaced).
    `wall_mm`: y of the wall's face in run axes, out into the room +; None unless read. `out`: the same as shown."""

    station: str
    name: str
    x_mm: float
    height: WallHeight
    state: str
    wall_mm: float | None
    out: Figure | None
    readings: tuple[str, ...]


@dataclass(frozen=True)
class Opening:
    """A measured width of the run's opening, side wall to side wall. `uid` of its entry."""

    height: WallHeight
    depth: OpeningDepth
    width: Figure
    uid: str


@dataclass(frozen=True)
class EndWall:
    """How far a side wall lies beyond the plumbed zero or end mark at one height and depth."""

    side: str
    height: WallHeight
    depth: OpeningDepth
    beyond: Figure
    uid: str


@dataclass(frozen=True)
class Wall:
    """The wall of one run. `lines`: (id, name, readings). `features`: the job's, and those measured on site in their
    place."""

    run: Run
    lines: tuple[tuple[str, str, int], ...]
    stations: tuple[WallStation, ...]
    spots: tuple[WallSpot, ...]
    openings: tuple[Opening, ...]
    end_walls: tuple[EndWall, ...]
    features: tuple[Feature, ...]
    findings: tuple[Finding, ...]

    def points(self, *heights: WallHeight) -> tuple[tuple[float, float], ...]:
        """(x, y of the wall) at every spot that is read at one of these heights (none named: any), by x."""
        wanted = heights or tuple(WallHeight)
        return tuple(
            sorted((one.x_mm, one.wall_mm) for one in self.spots if one.wall_mm is not None and one.height in wanted)
        )

    def narrowest(self, *depths: OpeningDepth) -> Opening | None:
        """The narrowest opening measured at one of these depths; at any where none is named."""
        wanted = depths or tuple(OpeningDepth)
        fitting = [one for one in self.openings if one.depth in wanted]
        return min(fitting, key=lambda one: one.width.mm, default=None)
