"""A run from above: the wall as read, drawn out of true many times larger than lengths, the line of backs, what is
packed behind the batten, and what stands or hangs in front of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from oddleg.job import Carcass, CornerPost, Filler, Gap, OpenUnit, WallHeight
from oddleg.plan.figure import text_mm
from oddleg.plan.front_line import FrontLine
from oddleg.plan.packing import Fixing
from oddleg.plan.rod import Placed
from oddleg.plan.setting_out import RunSetOut
from oddleg.plan.wall import Wall
from oddleg.plan.wall_profile import STANDING

from .lettering import CAP_HEIGHT, SMALL_MM, text_width_mm
from .primitives import Circle, Drawing, Group, Line, Mark, Polygon, Polyline, Text, rectangle
from .run_elevation import rod_ends, stretch_words
from .run_items import TAG_ROW_MM, item_tags, look_of, most_tags, on_stretch, tag_list, tag_row, tag_size_mm
from .running import LEADER_MM, PITCH_MM, Stretch, kept_apart, most_ticks, scales_on, stretches
from .stacked import Stack

MARGIN_MM = 4.0
FACTORS = (1, 2, 5, 10, 20, 50, 100, 200)
VOID_DEEP_MM = 13.0
WALL_DEEP_MM = 2.5
BETWEEN_MM = 5.0
# Two figures at one spot of the wall within this share a label.
SAME_PLACE_MM = 1.0
WALL_LOOKS = {
    WallHeight.BATTEN: ("line", "thick: at the batten"),
    WallHeight.FLOOR: ("dashed", "dashed: at the floor"),
    WallHeight.WORKTOP: ("dotted", "dotted: at the worktop"),
    WallHeight.WALL_UNITS: ("thin", "thin: at the wall units"),
}
"""How the wall is drawn at each height, and how that is said."""


@dataclass(frozen=True)
class _Row:
    """What stands, or what hangs, with its line of backs and the wall behind it. `factor`: how many times larger than
    lengths the void is drawn."""

    name: str
    line: FrontLine
    wall: Wall | None
    heights: tuple[WallHeight, ...]
    placed: tuple[Placed, ...]
    fixings: tuple[Fixing, ...]
    factor: int = 1

    def points(self, height: WallHeight) -> tuple[tuple[float, float], ...]:
        """(x on the rod, void there) along the wall at one height."""
        if self.wall is None or not self.line.read:
            return ()
        return tuple(self.void_at(x, y) for x, y in self.wall.points(height))

    def void_at(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """Of a point of the wall in run axes: its place on the rod, and how far the backs lie off it."""
        return x_mm - self.line.zero_mm, self.line.back_at(x_mm) - y_mm

    @property
    def voids(self) -> list[tuple[float, float]]:
        """(x, least void over the heights read) at each place along the wall."""
        least: dict[float, float] = {}
        for height in self.heights:
            for x, void_mm in self.points(height):
                least[x] = min(void_mm, least.get(x, void_mm))
        return sorted(least.items())

    @property
    def depth_mm(self) -> float:
        """Backs to carcass fronts; panels may stand out further."""
        boxes = [one.depth_mm for one in self.placed if isinstance(one.item, Carcass | OpenUnit)]
        others = [one.depth_mm for one in self.placed]
        return max((depth for depth in boxes or others if depth is not None), default=0.0)

    @property
    def greatest_mm(self) -> float:
        return max([self.line.greatest_void.mm, *(void for one in self.heights for _, void in self.points(one)), 1.0])


def run_plans(
    set_out: RunSetOut,
    numbers: Mapping[str, int],
    width_mm: float,
    rounding_mm: float = 0.5,
    greatest_height_mm: float | None = None,
) -> tuple[Drawing, ...]:
    """The run from above with its wall at the top, in one or more stretches; the row on the wall, if any, after what
    stands. Void and packing stand over the wall where they are read or packed. Several drawings where one may be no
    higher than `greatest_height_mm`."""
    rows = _rows(set_out)
    paper = (MARGIN_MM, width_mm - MARGIN_MM)
    tags = item_tags(set_out.rod.placed, numbers)
    stack = Stack(width_mm, MARGIN_MM, greatest_height_mm)
    words: list[str] = []
    for row in rows:
        edges = [x for one in row.placed for x in (one.left_mm, one.right_mm)]
        figures = _figures(row, rounding_mm)
        crowds = (([x for x, *_ in figures], most_ticks(paper)), (edges, most_tags(paper, tags)))
        drawn = stretches(_ends(set_out, row), edges, crowds, paper, scales_on(width_mm))
        if not drawn:
            continue
        factor = next((one for one in reversed(FACTORS) if row.greatest_mm * drawn[0].scale * one <= VOID_DEEP_MM), 1)
        shown = replace(row, factor=factor)
        for number, stretch in enumerate(drawn, 1):
            head = row.name if len(rows) > 1 else ""
            if len(drawn) > 1:
                head = f"{row.name}, part {number} of {len(drawn)}, {stretch_words(set_out.rod, stretch)}"

            def piece(
                y_mm: float,
                shown: _Row = shown,
                stretch: Stretch = stretch,
                figures: Sequence[tuple[float, str, str]] = figures,
                head: str = head,
            ) -> tuple[list[Mark], float]:
                marks, y_mm = stack.line(y_mm, head, bold=True)
                more, y_mm = _stretch(shown, stretch, figures, tags, y_mm, width_mm)
                return [*marks, *more], y_mm

            stack.put(piece, BETWEEN_MM)
        words += _row_words(shown, len(rows) > 1)
    stack.words([*words, _key(rows), tag_list(set_out.rod.placed, tags) or "This run has no items yet."])
    return stack.drawings(f"Plan, {set_out.run.name}", _alt(set_out, rows, rounding_mm, tags))


def _rows(set_out: RunSetOut) -> list[_Row]:
    placed = set_out.rod.placed
    standing = tuple(one for one in placed if one.stands)
    fixings = set_out.batten.fixings if set_out.batten is not None else ()
    rows = []
    if standing or set_out.hanging_line is None:
        rows.append(_Row("What stands", set_out.line, set_out.wall, STANDING, standing, fixings))
    if set_out.hanging_line is not None:
        hanging = tuple(one for one in placed if not one.stands)
        rows.append(_Row("What hangs", set_out.hanging_line, set_out.wall, (WallHeight.WALL_UNITS,), hanging, ()))
    return rows


def _ends(set_out: RunSetOut, row: _Row) -> tuple[float, float]:
    """As far as the rod goes, and as the wall is read: in a corner what holds the line may lie behind the other run."""
    left_mm, right_mm = rod_ends(set_out.rod)
    read = [x for x, _ in row.voids]
    return min([left_mm, *read]), max([right_mm, *read])


def _figures(row: _Row, rounding_mm: float) -> list[tuple[float, str, str]]:
    """(x, packing, void) over the wall: what is packed at each fixing, the void where the wall is read."""
    found: list[tuple[float, str, str]] = []
    for one in row.fixings:
        packing = one.packing.text if one.packing is not None else "–"
        found.append((one.x_mm, packing, one.void.text if one.void is not None else "–"))
    for x, void_mm in row.voids:
        if all(abs(x - other) > SAME_PLACE_MM for other, *_ in found):
            found.append((x, "", text_mm(void_mm, rounding_mm)))
    return sorted(found)


def _stretch(
    row: _Row,
    stretch: Stretch,
    figures: Sequence[tuple[float, str, str]],
    tags: Mapping[str, str],
    y_mm: float,
    width_mm: float,
) -> tuple[list[Mark], float]:
    here = [one for one in figures if stretch.holds(one[0])]
    marks, wall_top_mm = _labels(here, stretch, y_mm, width_mm)
    back_mm = wall_top_mm + WALL_DEEP_MM + row.greatest_mm * stretch.scale * row.factor
    for x, *_ in here:
        marks.append(Line(stretch.at(x), wall_top_mm, stretch.at(x), wall_top_mm + 1.0, "hair"))
    marks += _wall(row, stretch, wall_top_mm, back_mm)
    marks += _packing(row, stretch, back_mm)
    front_mm = back_mm + max(row.depth_mm * stretch.scale, 4.0)
    shapes, bottom_mm = _items(row, stretch, tags, back_mm, front_mm, width_mm)
    marks += shapes
    marks.append(Line(stretch.paper_mm, back_mm, stretch.right_mm, back_mm, "accent-line"))
    for x, void_mm in (row.void_at(*point) for point in row.line.binding):
        if stretch.holds(x):
            marks.append(Circle(stretch.at(x), back_mm - void_mm * stretch.scale * row.factor, 1.2, "spot-read"))
    return marks, bottom_mm


def _labels(
    here: Sequence[tuple[float, str, str]], stretch: Stretch, y_mm: float, width_mm: float
) -> tuple[list[Mark], float]:
    """Packing in bold over the void at each place, side by side; on end where they would not fit. And y below them."""
    if not here:
        return [], y_mm + 1.0
    widest_mm = max(
        max(text_width_mm(packing, SMALL_MM, True), text_width_mm(void, SMALL_MM)) for _, packing, void in here
    )
    places = [stretch.at(x) for x, *_ in here]
    high_mm = width_mm - MARGIN_MM
    flat = (len(here) - 1) * (widest_mm + 1.0) + widest_mm <= high_mm - stretch.paper_mm
    marks: list[Mark] = []
    packed = any(packing for _, packing, _ in here)
    if flat:
        top_mm = y_mm + SMALL_MM * (0.8 if packed else -0.35)
        moved = kept_apart(places, widest_mm + 1.0, MARGIN_MM + widest_mm / 2 - 2.0, high_mm - widest_mm / 2 + 2.0)
        foot_mm = top_mm + SMALL_MM * 1.15 + 0.8
        for (_, packing, void), x_mm in zip(here, moved, strict=True):
            marks.append(Text(x_mm, top_mm, packing, SMALL_MM, "middle", bold=True))
            marks.append(Text(x_mm, top_mm + SMALL_MM * 1.15, void, SMALL_MM, "middle"))
    else:
        bold_mm = max(text_width_mm(packing, SMALL_MM, True) for _, packing, _ in here)
        plain_mm = max(text_width_mm(void, SMALL_MM) for *_, void in here)
        foot_mm = y_mm + bold_mm + plain_mm + 2.0
        moved = kept_apart(places, PITCH_MM, stretch.paper_mm, high_mm)
        half_mm = SMALL_MM * CAP_HEIGHT / 2
        for (_, packing, void), x_mm in zip(here, moved, strict=True):
            marks.append(Text(x_mm + half_mm, foot_mm - 0.6, void, SMALL_MM, turned=True))
            marks.append(Text(x_mm + half_mm, foot_mm - 1.6 - plain_mm, packing, SMALL_MM, bold=True, turned=True))
    for place_mm, x_mm in zip(places, moved, strict=True):
        marks.append(Line(x_mm, foot_mm, place_mm, foot_mm + LEADER_MM, "hair"))
    return [one for one in marks if not (isinstance(one, Text) and not one.text)], foot_mm + LEADER_MM


def _wall(row: _Row, stretch: Stretch, top_mm: float, back_mm: float) -> list[Mark]:
    """The wall at each height that is read, and what lies behind its foremost face tinted; straight and dashed where
    nothing is read."""
    times = stretch.scale * row.factor

    def at(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        return [(stretch.at(x), back_mm - void_mm * times) for x, void_mm in _clipped(points, stretch)]

    foremost = at(row.voids)
    if not foremost:
        y_mm = back_mm - row.line.least_void.mm * times
        return [Line(stretch.paper_mm, y_mm, stretch.right_mm, y_mm, "dashed")]
    tinted = ((foremost[0][0], top_mm), *foremost, (foremost[-1][0], top_mm))
    marks: list[Mark] = [Polygon(tinted, "tint")]
    for height in row.heights:
        points = at(row.points(height))
        if len(points) > 1:
            marks.append(Polyline(tuple(points), WALL_LOOKS[height][0]))
    return marks


def _clipped(points: Sequence[tuple[float, float]], stretch: Stretch) -> list[tuple[float, float]]:
    """The part of a line of points that lies on the stretch, cut off at its ends."""
    found: list[tuple[float, float]] = []
    for number, (x, value) in enumerate(points):
        for edge in (stretch.from_mm, stretch.to_mm):
            if number and points[number - 1][0] < edge < x:
                x0, value0 = points[number - 1]
                found.append((edge, value0 + (value - value0) * (edge - x0) / (x - x0)))
        if stretch.holds(x):
            found.append((x, value))
    return found


def _packing(row: _Row, stretch: Stretch, back_mm: float) -> list[Mark]:
    """A block from the wall out at each fixing, as thick as its packing."""
    marks: list[Mark] = []
    times = stretch.scale * row.factor
    for one in row.fixings:
        if one.packing is None or one.void is None or not stretch.holds(one.x_mm):
            continue
        x_mm, wall_mm = stretch.at(one.x_mm), back_mm - one.void.mm * times
        block = rectangle(x_mm - 0.6, wall_mm, x_mm + 0.6, wall_mm + max(one.packing.mm, 0.0) * times, "packing")
        marks.append(Group((block,), "fixing", (("fixing", str(one.number)),), f"fixing {one.number}"))
    return marks


def _items(
    row: _Row, stretch: Stretch, tags: Mapping[str, str], back_mm: float, front_mm: float, width_mm: float
) -> tuple[list[Mark], float]:
    """Footprints to scale, with the front line of the carcasses; what has no depth of its own stands at the front."""
    marks: list[Mark] = []
    beside: list[tuple[float, float, str]] = []
    bottom_mm = front_mm
    for one, from_mm, to_mm in on_stretch(row.placed, stretch):
        left_mm, right_mm = stretch.at(from_mm), stretch.at(to_mm)
        foot_mm = front_mm if one.depth_mm is None else back_mm + one.depth_mm * stretch.scale
        top_mm = front_mm - 1.6 if isinstance(one.item, Filler | CornerPost) else back_mm
        bottom_mm = max(bottom_mm, foot_mm)
        tag = tags[one.item.id]
        look = look_of(one)
        shape: list[Mark] = [] if isinstance(one.item, Gap) else [rectangle(left_mm, top_mm, right_mm, foot_mm, look)]
        x_mm, y_mm = (left_mm + right_mm) / 2, (back_mm + front_mm) / 2
        size_mm = tag_size_mm(tag, right_mm - left_mm)
        if size_mm is not None:
            shape.append(Text(x_mm, y_mm + size_mm / 3, tag, size_mm, "middle", bold=True, halo=True))
        else:
            beside.append((x_mm, foot_mm, tag))
        marks.append(Group(tuple(shape), "unit", (("item", one.item.id),), f"{tag}, {one.item.name}"))
    fronts = [x for one in row.placed for x in (one.left_mm, one.right_mm)]
    if fronts:
        from_mm, to_mm = max(min(fronts), stretch.from_mm), min(max(fronts), stretch.to_mm)
        if from_mm < to_mm:
            marks.append(Line(stretch.at(from_mm), front_mm, stretch.at(to_mm), front_mm, "heavy"))
    if beside:
        marks += tag_row(beside, bottom_mm + 2.2, (MARGIN_MM, width_mm - MARGIN_MM))
        bottom_mm += TAG_ROW_MM
    return marks, bottom_mm + 1.0


def _row_words(row: _Row, named: bool) -> list[str]:
    line = row.line
    before = f"{row.name}: " if named else ""
    if line.run.wall is None:
        return [f"{before}{line.words}"]
    if not line.read or not row.voids:
        return [f"{before}Wall not read here; backs are drawn {line.least_void.text} off it. {line.words}"]
    return [
        f"{before}Wall to backs is drawn {row.factor} times larger than lengths. "
        f"Void {line.least_void.text} to {line.greatest_void.text}. {line.words}"
    ]


def _key(rows: Sequence[_Row]) -> str:
    read = [height for height in WallHeight if any(height in row.heights and row.points(height) for row in rows)]
    words = [
        "Figures over the wall: packing in bold, void below it."
        if any(row.fixings for row in rows)
        else "Figures over the wall: the void."
    ]
    if all(row.line.run.wall is None for row in rows):
        words = []
    if len(read) > 0:
        words.append("The wall " + ", ".join(WALL_LOOKS[height][1] for height in read) + ".")
    if any(row.line.binding for row in rows):
        words.append("Full circles: what holds the line of backs.")
    words.append("Heavy line: carcass fronts.")
    return " ".join(words)


def _alt(set_out: RunSetOut, rows: Sequence[_Row], rounding_mm: float, tags: Mapping[str, str]) -> str:
    words = [f"{set_out.run.name} from above, wall at the top: {tag_list(set_out.rod.placed, tags) or 'no items yet'}."]
    for row in rows:
        line = row.line
        words.append(f"{row.name}: void {line.least_void.text} to {line.greatest_void.text}. {line.words}")
        if line.binding:
            held = ", ".join(text_mm(row.void_at(*point)[0], rounding_mm) for point in line.binding)
            words.append(f"The wall holds the line at {held}.")
        for x, void_mm in row.voids:
            words.append(f"At {text_mm(x, rounding_mm)} the void is {text_mm(void_mm, rounding_mm)}.")
        for one in row.fixings:
            packed = "not read" if one.packing is None else one.packing.text
            packed += f" ({one.packs})" if one.packs else ""
            words.append(f"Fixing {one.number} at {one.at.text}: packing {packed}.")
    return " ".join(words)
