"""A run from the front: its items, what the wall carries, the datum, and every mark from left, anchor and right."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import EndsAt, Feature, FeatureKind, Gap, Storey
from oddleg.plan.figure import Figure
from oddleg.plan.set_out import Rod, RodMark
from oddleg.plan.setting_out import RunSetOut

from .lettering import CROSSES, SMALL_MM, Area, Page, text_width_mm
from .primitives import Circle, Drawing, Group, Line, Mark, Polygon, Text, rectangle
from .run_items import TAG_ROW_MM, RunHeights, item_tags, look_of, most_tags, on_stretch, tag_list, tag_row, tag_size_mm
from .running import Stretch, Tick, dimension, dimension_height_mm, most_ticks, scales_on, stretches
from .stacked import Stack

MARGIN_MM = 4.0
OVER_MM = 4.0
BETWEEN_MM = 5.0
# A feature that would be drawn smaller than this is shown by a sign.
LEAST_FEATURE_MM = 2.4
# In a feature drawn smaller than this there is no room for its name.
LEAST_NAMED_MM = 12.0
# How far down an item its tag may stand, best first.
TAG_SHARES = (0.5, 0.3, 0.7, 0.2, 0.8)


@dataclass(frozen=True)
class _OnWall:
    """A feature where it lies over the rod; `span`: from and to over the datum, None where that is not known."""

    feature: Feature
    left_mm: float
    right_mm: float
    span: tuple[float, float] | None


@dataclass(frozen=True)
class _View:
    """What every stretch of the elevation shows, and how high it stands on the page."""

    set_out: RunSetOut
    heights: RunHeights
    datum: Figure | None
    tags: Mapping[str, str]
    scale: float
    on_wall: tuple[_OnWall, ...]

    @property
    def greatest_mm(self) -> float:
        return max([self.heights.greatest_mm, *(one.span[1] for one in self.on_wall if one.span)])

    @property
    def least_mm(self) -> float:
        return min([self.heights.least_mm, *(one.span[0] for one in self.on_wall if one.span)])

    def down(self, top_mm: float, over_mm: float) -> float:
        """y on the page of a level over the datum, in a stretch that begins at `top_mm`."""
        return top_mm + OVER_MM + (self.greatest_mm - over_mm) * self.scale

    @property
    def height_mm(self) -> float:
        return (self.greatest_mm - self.least_mm) * self.scale + OVER_MM + 1.0


def run_elevations(
    set_out: RunSetOut,
    heights: RunHeights,
    datum: Figure | None,
    numbers: Mapping[str, int],
    width_mm: float,
    greatest_height_mm: float | None = None,
) -> tuple[Drawing, ...]:
    """The run in one or more stretches, each with its marks on three running dimensions below (above for the row on the
    wall); on several drawings where one may be no higher than `greatest_height_mm`. `datum`: as decided, over the bench
    mark; None: not decided, then what hangs on it is drawn from the tops of the base units and the wall's features only
    across."""
    rod = set_out.rod
    paper = (MARGIN_MM, width_mm - MARGIN_MM)
    rows = {row: [one for one in rod.marks if one.row == row] for row in ("base", "wall")}
    edges = [x for one in rod.placed if one.stands for x in (one.left_mm, one.right_mm)]
    tags = item_tags(rod.placed, numbers)
    crowds = [([one.x_mm for one in marks], most_ticks(paper)) for marks in rows.values()]
    crowds += [(edges, most_tags(paper, tags))]
    drawn = stretches(rod_ends(rod), edges, crowds, paper, scales_on(width_mm))
    on_wall = _on_wall(set_out, datum)
    stack = Stack(width_mm, MARGIN_MM, greatest_height_mm)
    for number, stretch in enumerate(drawn, 1):
        view = _View(set_out, heights, datum, tags, stretch.scale, on_wall)
        head = f"Part {number} of {len(drawn)}, {stretch_words(rod, stretch)}" if len(drawn) > 1 else ""

        def piece(
            y_mm: float, view: _View = view, stretch: Stretch = stretch, head: str = head
        ) -> tuple[list[Mark], float]:
            marks, y_mm = stack.line(y_mm, head, bold=True)
            more, y_mm = _stretch(view, stretch, rows, y_mm, width_mm)
            return [*marks, *more], y_mm

        stack.put(piece, BETWEEN_MM)
    stack.words(_words(set_out, heights, datum, tags))
    return stack.drawings(f"Elevation, {set_out.run.name}", _alt(set_out, datum, tags))


def anchors_mm(rod: Rod) -> list[float]:
    """Where what stands is set out from, and, where that is another place, what hangs."""
    hung = [one.x_mm for one in rod.marks if one.row == "wall" and abs(one.from_anchor.mm) < 1e-6]
    return [rod.anchor_mm, *(x for x in hung if abs(x - rod.anchor_mm) > 1e-6)]


def rod_ends(rod: Rod) -> tuple[float, float]:
    """From the leftmost of zero, items and marks to the rightmost; a run that is over its opening is shown whole."""
    places = [rod.left_mm, rod.right_mm, *(one.x_mm for one in rod.marks)]
    places += [x for one in rod.placed for x in (one.left_mm, one.right_mm)]
    return min(places), max(places)


def stretch_words(rod: Rod, stretch: Stretch) -> str:
    """From which mark to which, in the marks' own figures."""
    near = [one for one in rod.marks if stretch.holds(one.x_mm)]
    if not near:
        return "no mark on it"
    first, last = (end(near, key=lambda one: one.x_mm).from_left.text for end in (min, max))
    return f"mark {first}" if first == last else f"marks {first} to {last}"


def _stretch(
    view: _View, stretch: Stretch, rows: Mapping[str, Sequence[RodMark]], y_mm: float, width_mm: float
) -> tuple[list[Mark], float]:
    here = {row: [one for one in marks if stretch.holds(one.x_mm)] for row, marks in rows.items()}
    marks: list[Mark] = []
    if here["wall"]:
        for caption, ticks, bold in reversed(_lines(here["wall"], "row on the wall, ")):
            y_mm += dimension_height_mm(ticks, bold)
            marks += dimension(stretch, y_mm, ticks, caption, width_mm - MARGIN_MM, up=True, bold=bold)
    narrow = [_narrow(view, stretch, stands) for stands in (False, True)]
    if narrow[0]:
        y_mm += TAG_ROW_MM
    top_mm, bottom_mm = y_mm, y_mm + view.height_mm
    page = Page(width_mm, bottom_mm)
    page.keep_clear([Area(0.0, 0.0, width_mm, top_mm)])
    marks += _ends(view, stretch, top_mm, bottom_mm, page)
    named = _features(view, stretch, top_mm, page)
    shapes, tags = _items(view, stretch, top_mm, page)
    paper = (MARGIN_MM, width_mm - MARGIN_MM)
    for found, row_mm, up in ((narrow[0], top_mm - 1.0, True), (narrow[1], bottom_mm + 1.4, False)):
        beside = [(x_mm, view.down(top_mm, edge_mm), tag) for x_mm, edge_mm, tag in found]
        tags += tag_row(beside, row_mm, paper, up)
    anchors = [stretch.at(x_mm) for x_mm in anchors_mm(view.set_out.rod) if stretch.holds(x_mm)]
    page.keep_clear(Area(at_mm - 0.3, top_mm, at_mm + 0.3, bottom_mm) for at_mm in anchors)
    levels = _levels(view, stretch, top_mm, page)
    marks += [*shapes, *levels]
    for at_mm in anchors:
        marks.append(Line(at_mm, top_mm + 1.0, at_mm, bottom_mm, "anchor-line"))
        marks.append(Polygon(((at_mm - 1.4, top_mm), (at_mm + 1.4, top_mm), (at_mm, top_mm + 2.4)), "accent"))
    for one, shape, (x_mm, at_mm), radius_mm in named:
        words = page.label(x_mm, at_mm, radius_mm, [(one.name, False)], SMALL_MM, backed=True)
        marks.append(Group((*shape, *words), "feature", (("feature", one.id),), one.name))
    marks += tags
    y_mm = bottom_mm + (TAG_ROW_MM if narrow[1] else 0.6)
    for caption, ticks, bold in _lines(here["base"], ""):
        marks += dimension(stretch, y_mm, ticks, caption, width_mm - MARGIN_MM, bold=bold)
        y_mm += dimension_height_mm(ticks, bold)
    return marks, y_mm


def _lines(marks: Sequence[RodMark], before: str) -> list[tuple[str, list[Tick], bool]]:
    """The three running dimensions: caption, ticks, whether its figures are bold."""
    return [
        (f"{before}from the left", [Tick(one.x_mm, one.from_left.text, one.kind == "zero") for one in marks], True),
        (
            f"{before}from the anchor",
            [Tick(one.x_mm, one.from_anchor.text, abs(one.from_anchor.mm) < 1e-6) for one in marks],
            False,
        ),
        (f"{before}from the right", [Tick(one.x_mm, one.from_right.text, one.kind == "end") for one in marks], False),
    ]


def _ends(view: _View, stretch: Stretch, top_mm: float, bottom_mm: float, page: Page) -> list[Mark]:
    """Side walls where the run ends at walls; a dashed line where the drawing goes on in the next part."""
    rod, run = view.set_out.rod, view.set_out.run
    marks: list[Mark] = []
    for along_mm, mark_mm, end in (
        (stretch.from_mm, rod.left_mm, run.left_end),
        (stretch.to_mm, rod.right_mm, run.right_end),
    ):
        x_mm, reached = stretch.at(along_mm), rod_ends(rod)
        if along_mm not in reached:
            marks.append(Line(x_mm, top_mm, x_mm, bottom_mm, "dashed"))
        elif end.at is EndsAt.WALL:
            at_mm = stretch.at(mark_mm)
            marks.append(Line(at_mm, top_mm, at_mm, bottom_mm, "wall"))
            page.keep_clear([Area(at_mm - 0.8, top_mm, at_mm + 0.8, bottom_mm)])
    return marks


def _items(view: _View, stretch: Stretch, top_mm: float, page: Page) -> tuple[list[Mark], list[Mark]]:
    """Outlines, and their tags, which go on top; the tags of what is too narrow stand in a row beyond."""
    marks: list[Mark] = []
    areas: list[tuple[Area, str]] = []
    for one, from_mm, to_mm in on_stretch(view.set_out.rod.placed, stretch):
        low_mm, high_mm = view.heights.spans[one.item.id]
        area = Area(stretch.at(from_mm), view.down(top_mm, high_mm), stretch.at(to_mm), view.down(top_mm, low_mm))
        tag = view.tags[one.item.id]
        areas.append((area, tag))
        shape = rectangle(area.left_mm, area.top_mm, area.right_mm, area.bottom_mm, look_of(one))
        marks.append(Group((shape,), "unit", (("item", one.item.id),), f"{tag}, {one.item.name}"))
        edges = ((area.left_mm - 0.3, area.left_mm + 0.3), (area.right_mm - 0.3, area.right_mm + 0.3))
        page.keep_clear((Area(left, area.top_mm, right, area.bottom_mm) for left, right in edges), CROSSES)
    tags: list[Mark] = []
    for area, tag in areas:
        size_mm = tag_size_mm(tag, area.right_mm - area.left_mm)
        if size_mm is None:
            continue
        x_mm, half_mm = (area.left_mm + area.right_mm) / 2, text_width_mm(tag, size_mm, bold=True) / 2
        places = [area.top_mm + (area.bottom_mm - area.top_mm) * share for share in TAG_SHARES]
        boxes = [Area(x_mm - half_mm, y_mm - 2.0, x_mm + half_mm, y_mm + 2.0) for y_mm in places]
        box = next((one for one in boxes if page.is_free(one)), boxes[0])
        page.keep_clear([box])
        tags.append(Text(x_mm, box.top_mm + 2.0 + size_mm / 3, tag, size_mm, "middle", bold=True, halo=True))
    return marks, tags


def _narrow(view: _View, stretch: Stretch, stands: bool) -> list[tuple[float, float, str]]:
    """What is too narrow for its tag: its middle on paper, the level of its lower edge over the datum (of its upper
    one where it hangs), its tag."""
    found = []
    for one, from_mm, to_mm in on_stretch(view.set_out.rod.placed, stretch):
        tag = view.tags[one.item.id]
        if one.stands is stands and tag_size_mm(tag, (to_mm - from_mm) * stretch.scale) is None:
            found.append((stretch.at((from_mm + to_mm) / 2), view.heights.spans[one.item.id][0 if stands else 1], tag))
    return found


def _levels(view: _View, stretch: Stretch, top_mm: float, page: Page) -> list[Mark]:
    """Floor, worktop and datum, each across the stretch."""
    left_mm, right_mm, tall = stretch.paper_mm, stretch.right_mm, view.heights
    floor_mm = view.down(top_mm, tall.floor_mm)
    marks: list[Mark] = [Line(left_mm, floor_mm, right_mm, floor_mm, "heavy" if tall.floor_known else "dashed")]
    if tall.worktop_mm is not None:
        low_mm, high_mm = (view.down(top_mm, over_mm) for over_mm in tall.worktop_mm)
        for one, from_mm, to_mm in on_stretch(view.set_out.rod.placed, stretch):
            if one.item.storey is Storey.BASE and not isinstance(one.item, Gap):
                marks.append(rectangle(stretch.at(from_mm), high_mm, stretch.at(to_mm), low_mm, "tint"))
    datum_mm = view.down(top_mm, tall.top_mm)
    marks.append(Line(left_mm, datum_mm, right_mm, datum_mm, "accent-line"))
    page.keep_clear([Area(left_mm, datum_mm - 0.8, right_mm, datum_mm + 0.8)], CROSSES)
    page.keep_clear([Area(left_mm, floor_mm - 0.6, right_mm, floor_mm + 0.6)])
    words = "datum" if view.datum is None or view.set_out.run.datum_offset_mm else f"datum {view.datum.text}"
    if view.set_out.run.datum_offset_mm:
        words = "this run's top"
    marks += page.label((left_mm + right_mm) / 2, datum_mm, 0.8, [(words, True)], SMALL_MM, "accent")
    return marks


def _on_wall(set_out: RunSetOut, datum: Figure | None) -> tuple[_OnWall, ...]:
    """The features that lie over the rod. One of whose edges the height is not known is shown across only."""
    zero_mm, (left_mm, right_mm) = set_out.line.zero_mm, rod_ends(set_out.rod)
    found = []
    for one in set_out.wall.features if set_out.wall is not None else set_out.run.features:
        span = None
        if datum is not None and one.bottom_mm is not None and one.top_mm is not None:
            span = (one.bottom_mm - datum.mm, one.top_mm - datum.mm)
        if one.right_mm - zero_mm >= left_mm and one.left_mm - zero_mm <= right_mm:
            found.append(_OnWall(one, one.left_mm - zero_mm, one.right_mm - zero_mm, span))
    return tuple(found)


def _features(
    view: _View, stretch: Stretch, top_mm: float, page: Page
) -> list[tuple[Feature, list[Mark], tuple[float, float], float]]:
    """Windows, sills, pipes and outlets, where each one's name belongs, and how far off that spot at least. They are
    seen through what stands before them."""
    found = []
    for one in view.on_wall:
        from_mm, to_mm = max(one.left_mm, stretch.from_mm), min(one.right_mm, stretch.to_mm)
        if from_mm > to_mm:
            continue
        left_mm, right_mm = stretch.at(from_mm), stretch.at(to_mm)
        low_mm, high_mm = one.span or (view.heights.floor_mm, view.greatest_mm)
        up_mm, down_mm = view.down(top_mm, high_mm), view.down(top_mm, low_mm)
        x_mm, y_mm = (left_mm + right_mm) / 2, (up_mm + down_mm) / 2
        small = right_mm - left_mm < LEAST_FEATURE_MM and down_mm - up_mm < LEAST_FEATURE_MM
        shape: list[Mark]
        if one.span is None:
            shape = [Line(x, up_mm, x, down_mm, "dotted") for x in (left_mm, right_mm)]
        elif small:
            shape = [Circle(x_mm, y_mm, 1.1, "spot")]
            page.keep_clear([Area(x_mm - 1.3, y_mm - 1.3, x_mm + 1.3, y_mm + 1.3)])
        else:
            shape = [rectangle(left_mm, up_mm, right_mm, down_mm, "dashed")]
            across, along = (up_mm, down_mm), (left_mm, right_mm)
            page.keep_clear(Area(left_mm, y - 0.3, right_mm, y + 0.3) for y in across)
            page.keep_clear(Area(x - 0.3, up_mm, x + 0.3, down_mm) for x in along)
            if one.feature.kind is FeatureKind.WINDOW:
                shape.append(Line(left_mm, up_mm, right_mm, down_mm, "hair"))
                shape.append(Line(left_mm, down_mm, right_mm, up_mm, "hair"))
        wide_mm = max(right_mm - left_mm, down_mm - up_mm)
        # A name does not go into a shape so small: it stands beside it.
        radius_mm = wide_mm / 2 if 2.8 < wide_mm < LEAST_NAMED_MM else 1.4
        found.append((one.feature, shape, (x_mm, y_mm), radius_mm))
    return found


def _words(set_out: RunSetOut, heights: RunHeights, datum: Figure | None, tags: Mapping[str, str]) -> list[str]:
    rod = set_out.rod
    lines = [f"Anchor (arrow from above): {rod.anchor_words}"]
    if not rod.placed:
        lines = ["This run has no items yet."]
    if datum is None:
        lines.append(
            "No datum is decided yet: heights are drawn from the tops of the base units, features only across."
        )
    if not heights.floor_known:
        lines.append("The finished floor here is not known yet; its line is drawn where a plinth board would end.")
    if tags:
        lines.append(tag_list(rod.placed, tags))
    return lines


def _alt(set_out: RunSetOut, datum: Figure | None, tags: Mapping[str, str]) -> str:
    rod = set_out.rod
    words = [f"{set_out.run.name} from the front: {tag_list(rod.placed, tags) or 'no items yet'}."]
    if datum is not None:
        words.append(f"Datum {datum.text}.")
    words.append(rod.anchor_words)
    words += [
        f"{one.name}: {one.from_left.text} from the left, {one.from_anchor.text} from the anchor, "
        f"{one.from_right.text} from the right."
        for one in rod.marks
    ]
    return " ".join(words)
