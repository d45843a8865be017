"""Services of a run from the front: as they land behind its units, and as they are wanted before plaster."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import EndsAt, ServiceKind
from oddleg.plan.figure import Figure
from oddleg.plan.room_services import RoomServices, from_datum
from oddleg.plan.setting_out import RunSetOut

from .lettering import SMALL_MM, Area, Page
from .primitives import Circle, Drawing, Group, Line, Mark, Text, rectangle
from .run_elevation import rod_ends
from .run_items import RunHeights, item_tags, look_of, on_stretch, tag_list, tag_size_mm
from .running import Stretch, Tick, dimension, dimension_height_mm, most_ticks, scales_on, stretches
from .stacked import Stack

MARGIN_MM = 4.0
OVER_MM = 5.0
BETWEEN_MM = 5.0
# On narrower paper names would lie over each other: services are numbered there, and named below.
NAMED_FROM_MM = 120.0
# A service drawn smaller than this could not be seen.
LEAST_MM = 2.6
# A leader over another service names that one: hot for cold. What its place costs, and how far round it.
ANOTHER, AROUND_MM = 40.0, 0.6
CAPTIONS = {
    True: "middle of each, from the left, as wanted",
    False: "left edge of each, from the run's zero",
}


@dataclass(frozen=True)
class Spot:
    """One service on the wall: left, right along the rod; low, high over the room's datum, None where not known; what
    stands on the running dimension below it (at `tick_mm`) and under its name."""

    id: str
    name: str
    left_mm: float
    right_mm: float
    span: tuple[float, float] | None
    tick_mm: float
    tick: str
    height: str
    round: bool
    live: bool


def service_elevations(
    set_out: RunSetOut,
    services: RoomServices,
    heights: RunHeights,
    datum: Figure | None,
    numbers: Mapping[str, int],
    width_mm: float,
    greatest_height_mm: float | None = None,
) -> tuple[Drawing, ...]:
    """Where each service of the run lands, seen through the units; empty for a run without services."""
    spots = [
        Spot(
            one.service.id,
            one.service.name,
            one.left_mm,
            one.right_mm,
            None
            if datum is None or one.low_mm is None or one.high_mm is None
            else (one.low_mm - datum.mm, one.high_mm - datum.mm),
            one.left_mm,
            one.left.text,
            "" if one.below_datum is None else f"{from_datum(one.below_datum)} datum",
            one.service.round,
            _may_be_live(one.service.kind, one.service.live),
        )
        for one in services.landings
        if one.run == set_out.run.id
    ]
    title = f"Services, {set_out.run.name}"
    return _elevations(title, set_out, spots, heights, numbers, width_mm, greatest_height_mm, wanted=False)


def first_fix_elevations(
    set_out: RunSetOut,
    services: RoomServices,
    heights: RunHeights,
    numbers: Mapping[str, int],
    width_mm: float,
    greatest_height_mm: float | None = None,
) -> tuple[Drawing, ...]:
    """The services of the run as asked for before plaster, units dashed; empty for a run that asks for none."""
    spots = []
    for one in services.wanted:
        if one.run != set_out.run.id:
            continue
        service = one.service
        span = None
        if one.over_floor is not None:
            middle_mm = heights.floor_mm + one.over_floor.mm
            half_mm = (service.width_mm if service.round else service.height_mm) / 2
            span = (middle_mm - half_mm, middle_mm + half_mm)
        spots.append(
            Spot(
                service.id,
                service.name,
                one.x_mm - service.width_mm / 2,
                one.x_mm + service.width_mm / 2,
                span,
                one.x_mm,
                one.from_left.text,
                "" if one.over_floor is None else f"{one.over_floor.text} over floor",
                service.round,
                False,
            )
        )
    title = f"First fix, {set_out.run.name}"
    return _elevations(title, set_out, spots, heights, numbers, width_mm, greatest_height_mm, wanted=True)


def _may_be_live(kind: ServiceKind, live: bool | None) -> bool:
    """Electric, and nobody has said that it is dead."""
    return kind in (ServiceKind.SOCKET, ServiceKind.SWITCH, ServiceKind.CABLE) and live is not False


def _elevations(
    title: str,
    set_out: RunSetOut,
    spots: Sequence[Spot],
    heights: RunHeights,
    numbers: Mapping[str, int],
    width_mm: float,
    greatest_height_mm: float | None,
    wanted: bool,
) -> tuple[Drawing, ...]:
    if not spots:
        return ()
    paper = (MARGIN_MM, width_mm - MARGIN_MM)
    ends = rod_ends(set_out.rod)
    ends = (min(ends[0], *(one.left_mm for one in spots)), max(ends[1], *(one.right_mm for one in spots)))
    edges = [x for one in set_out.rod.placed if one.stands for x in (one.left_mm, one.right_mm)]
    crowds = [([one.tick_mm for one in spots], most_ticks(paper))]
    drawn = stretches(ends, edges, crowds, paper, scales_on(width_mm))
    tags = item_tags(set_out.rod.placed, numbers)
    stack = Stack(width_mm, MARGIN_MM, greatest_height_mm)
    for number, stretch in enumerate(drawn, 1):
        here = [(number, one) for number, one in enumerate(spots, 1) if stretch.holds(one.tick_mm)]
        if not here:
            continue
        head = f"Part {number} of {len(drawn)}" if len(drawn) > 1 else ""

        def piece(
            y_mm: float, stretch: Stretch = stretch, here: list[tuple[int, Spot]] = here, head: str = head
        ) -> tuple[list[Mark], float]:
            marks, y_mm = stack.line(y_mm, head, bold=True)
            more, y_mm = _stretch(set_out, stretch, here, heights, tags, y_mm, width_mm, wanted)
            return [*marks, *more], y_mm

        stack.put(piece, BETWEEN_MM)
    words = [tag_list(set_out.rod.placed, tags)] if tags else []
    if width_mm < NAMED_FROM_MM:
        words = [*(f"({number}) {_said(one)}" for number, one in enumerate(spots, 1)), *words]
    if any(one.span is None for one in spots):
        words.append("Dotted: its height is not known yet.")
    if any(one.live for one in spots):
        words.append("Crossed: electric, and not known to be dead. Treat it as live.")
    stack.words(words)
    said = [f"{one.name}: {one.tick} {CAPTIONS[wanted]}, {one.height or 'height not known'}." for one in spots]
    return stack.drawings(title, " ".join((f"{title}.", *said)))


def _said(one: Spot) -> str:
    return f"{one.name}, {one.height}" if one.height else one.name


def _stretch(
    set_out: RunSetOut,
    stretch: Stretch,
    spots: Sequence[tuple[int, Spot]],
    heights: RunHeights,
    tags: Mapping[str, str],
    y_mm: float,
    width_mm: float,
    wanted: bool,
) -> tuple[list[Mark], float]:
    spans = [one.span for _, one in spots if one.span is not None]
    high_mm = max([heights.greatest_mm, *(high for _, high in spans)])
    low_mm = min([heights.least_mm, *(low for low, _ in spans)])
    top_mm = y_mm + OVER_MM

    def down(over_mm: float) -> float:
        return top_mm + (high_mm - over_mm) * stretch.scale

    bottom_mm = down(low_mm) + 1.0
    page = Page(width_mm, bottom_mm)
    page.keep_clear([Area(0.0, 0.0, width_mm, y_mm)])
    marks = _behind(set_out, stretch, heights, down, page, wanted)
    shapes = [(number, one, *_shape(one, stretch, heights, down, high_mm, page)) for number, one in spots]
    marks += _tags(set_out, stretch, heights, tags, down, page)
    for number, one, shape, (x_mm, at_mm), reach_mm in shapes:
        lines = [(one.name, True), *([(one.height, False)] if one.height else [])]
        if width_mm < NAMED_FROM_MM:
            lines = [(f"({number})", True)]
        words = page.label(x_mm, at_mm, reach_mm, lines, SMALL_MM, backed=True)
        marks.append(Group((*shape, *words), "service", (("service", one.id),), f"{one.name}, {one.height}"))
    ticks = [Tick(one.tick_mm, one.tick) for _, one in spots]
    marks += dimension(stretch, bottom_mm, ticks, CAPTIONS[wanted], width_mm - MARGIN_MM, bold=True)
    return marks, bottom_mm + dimension_height_mm(ticks, bold=True)


def _behind(
    set_out: RunSetOut,
    stretch: Stretch,
    heights: RunHeights,
    down: Callable[[float], float],
    page: Page,
    wanted: bool,
) -> list[Mark]:
    """Units, floor, datum and side walls; of units not fitted yet only where they will be."""
    marks: list[Mark] = []
    for one, from_mm, to_mm in on_stretch(set_out.rod.placed, stretch):
        low_mm, high_mm = heights.spans[one.item.id]
        left_mm, right_mm = stretch.at(from_mm), stretch.at(to_mm)
        look = "dashed" if wanted else look_of(one)
        marks.append(rectangle(left_mm, down(high_mm), right_mm, down(low_mm), look))
    floor_mm, datum_mm = down(heights.floor_mm), down(heights.top_mm)
    marks.append(
        Line(stretch.paper_mm, floor_mm, stretch.right_mm, floor_mm, "heavy" if heights.floor_known else "dashed")
    )
    marks.append(Line(stretch.paper_mm, datum_mm, stretch.right_mm, datum_mm, "accent-line"))
    page.keep_clear([Area(stretch.paper_mm, y - 0.8, stretch.right_mm, y + 0.8) for y in (floor_mm, datum_mm)])
    marks.append(Text(stretch.right_mm, datum_mm - 0.8, "datum", SMALL_MM, "end", True, "accent", halo=True))
    marks.append(Text(stretch.right_mm, floor_mm - 0.8, "finished floor", SMALL_MM, "end", halo=True))
    ends = ((set_out.rod.left_mm, set_out.run.left_end), (set_out.rod.right_mm, set_out.run.right_end))
    for mark_mm, end in ends:
        if end.at is EndsAt.WALL and stretch.holds(mark_mm):
            x_mm = stretch.at(mark_mm)
            marks.append(Line(x_mm, down(heights.greatest_mm), x_mm, floor_mm, "wall"))
    return marks


def _tags(
    set_out: RunSetOut,
    stretch: Stretch,
    heights: RunHeights,
    tags: Mapping[str, str],
    down: Callable[[float], float],
    page: Page,
) -> list[Mark]:
    """The tag of each unit at its top, or where a service is drawn there, at its foot or beside it."""
    marks: list[Mark] = []
    for one, from_mm, to_mm in on_stretch(set_out.rod.placed, stretch):
        low_mm, high_mm = heights.spans[one.item.id]
        tag, x_mm = tags[one.item.id], stretch.at((from_mm + to_mm) / 2)
        size_mm = tag_size_mm(tag, (to_mm - from_mm) * stretch.scale)
        if size_mm is None:
            continue
        aside_mm = stretch.at(from_mm + (to_mm - from_mm) / 4)
        places = [
            (x_mm, down(high_mm) + size_mm + 1.4),
            (x_mm, down(low_mm) - 1.4),
            (aside_mm, down(high_mm) + size_mm + 1.4),
        ]
        areas = [Area(x - size_mm / 2, y - size_mm, x + size_mm / 2, y + 0.5) for x, y in places]
        area = next((area for area in areas if page.is_free(area)), areas[0])
        page.keep_clear([area])
        middle_mm = (area.left_mm + area.right_mm) / 2
        marks.append(Text(middle_mm, area.bottom_mm - 0.5, tag, size_mm, "middle", bold=True, halo=True))
    return marks


def _shape(
    one: Spot,
    stretch: Stretch,
    heights: RunHeights,
    down: Callable[[float], float],
    high_mm: float,
    page: Page,
) -> tuple[list[Mark], tuple[float, float], float]:
    """What stands for it, its middle on paper, and how far from there its name stands off at the least. A small one is
    drawn larger than it is, so that it is seen."""
    middle_mm = stretch.at((one.left_mm + one.right_mm) / 2)
    half_mm = max((one.right_mm - one.left_mm) * stretch.scale, LEAST_MM) / 2
    if one.span is None:
        up_mm, low_mm = down(high_mm), down(heights.floor_mm)
        page.keep_clear([Area(middle_mm - 0.4, up_mm, middle_mm + 0.4, low_mm)])
        return [Line(middle_mm, up_mm, middle_mm, low_mm, "dotted")], (middle_mm, (up_mm + low_mm) / 2), 0.5
    at_mm = down((one.span[0] + one.span[1]) / 2)
    tall_mm = max((one.span[1] - one.span[0]) * stretch.scale, LEAST_MM) / 2
    reach_mm = half_mm + AROUND_MM
    area = Area(middle_mm - reach_mm, at_mm - tall_mm - AROUND_MM, middle_mm + reach_mm, at_mm + tall_mm + AROUND_MM)
    page.keep_clear([area], ANOTHER)
    if one.round:
        return [Circle(middle_mm, at_mm, half_mm, "spot")], (middle_mm, at_mm), reach_mm
    left_mm, right_mm = middle_mm - half_mm, middle_mm + half_mm
    marks: list[Mark] = [rectangle(left_mm, at_mm - tall_mm, right_mm, at_mm + tall_mm, "spot")]
    if one.live:
        marks.append(Line(left_mm, at_mm - tall_mm, right_mm, at_mm + tall_mm, "alarm-line"))
        marks.append(Line(left_mm, at_mm + tall_mm, right_mm, at_mm - tall_mm, "alarm-line"))
    return marks, (middle_mm, at_mm), reach_mm
