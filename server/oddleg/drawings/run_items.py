"""What stands in a run, as its drawings show it: a tag for each item, the list of tags, and how high each item is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import ApplianceBay, Carcass, CornerPost, EndPanel, Filler, Gap, HeightOf, Job, OpenUnit, Room, Storey
from oddleg.plan.heights import heights, underside_below_datum_mm, worktop_over_datum_mm
from oddleg.plan.rod import Placed

from .lettering import SMALL_MM, text_width_mm
from .primitives import Line, Mark, Text
from .running import Stretch, kept_apart

TAG_SIZES_MM = (4.2, SMALL_MM)
TAG_GAP_MM = 0.8
TAG_ROW_MM = 2.2 + SMALL_MM
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without I and O, which are taken for figures."""


def item_tags(placed: Sequence[Placed], numbers: Mapping[str, int]) -> dict[str, str]:
    """Item id to what stands on it in the drawings: its unit's number, or a letter where it has none."""
    tags: dict[str, str] = {}
    count = 0
    for one in placed:
        if one.item.id in numbers:
            tags[one.item.id] = str(numbers[one.item.id])
            continue
        again, letter = divmod(count, len(LETTERS))
        tags[one.item.id] = LETTERS[letter] * (again + 1)
        count += 1
    return tags


def tag_list(placed: Sequence[Placed], tags: Mapping[str, str]) -> str:
    """What the tags stand for: 1 sink base · A left filler."""
    return " · ".join(f"{tags[one.item.id]} {one.item.name}" for one in placed)


def on_stretch(placed: Sequence[Placed], stretch: Stretch) -> list[tuple[Placed, float, float]]:
    """The items of which some lies on the stretch, with the part that does, in mm along the run."""
    return [
        (one, max(one.left_mm, stretch.from_mm), min(one.right_mm, stretch.to_mm))
        for one in placed
        if (one.left_mm < stretch.to_mm and one.right_mm > stretch.from_mm)
        or (one.left_mm == one.right_mm and stretch.holds(one.left_mm))
    ]


def tag_size_mm(tag: str, room_mm: float) -> float | None:
    """At which size a tag goes into an item so wide on paper; None: it must stand beside it."""
    return next((size for size in TAG_SIZES_MM if text_width_mm(tag, size, bold=True) + 0.8 <= room_mm), None)


def most_tags(paper_mm: tuple[float, float], tags: Mapping[str, str]) -> int:
    """How many tags can stand side by side between two places on the paper."""
    widest_mm = max((text_width_mm(tag, SMALL_MM, True) for tag in tags.values()), default=0.0)
    return max(2, int((paper_mm[1] - paper_mm[0]) / (widest_mm + TAG_GAP_MM)))


def tag_row(
    beside: Sequence[tuple[float, float, str]], row_mm: float, paper_mm: tuple[float, float], up: bool = False
) -> list[Mark]:
    """Tags of what is too narrow for them, (x, y of its edge, tag), side by side below `row_mm` (above it with `up`)
    with a line to each."""
    if not beside:
        return []
    shown = sorted(beside)
    wide_mm = max(text_width_mm(tag, SMALL_MM, True) for *_, tag in shown)
    moved = kept_apart([x for x, *_ in shown], wide_mm + TAG_GAP_MM, paper_mm[0], paper_mm[1])
    marks: list[Mark] = []
    for (x_mm, edge_mm, tag), at_mm in zip(shown, moved, strict=True):
        base_mm = row_mm - 0.6 if up else row_mm + SMALL_MM * 0.9
        marks.append(Line(x_mm, edge_mm, at_mm, row_mm, "hair"))
        marks.append(Text(at_mm, base_mm, tag, SMALL_MM, "middle", bold=True))
    return marks


def look_of(placed: Placed) -> str:
    """The class that its outline is drawn with."""
    match placed.item:
        case ApplianceBay():
            return "bay"
        case Filler() | CornerPost() | EndPanel():
            return "part"
        case Gap():
            return "dotted"
        case _:
            return "item"


@dataclass(frozen=True)
class RunHeights:
    """Over the room's datum, mm: where each item begins and ends, the worktop's two faces (None: no base unit), the
    floor. `floor_known`: else it is drawn a plinth board below the base carcasses."""

    spans: Mapping[str, tuple[float, float]]
    top_mm: float
    worktop_mm: tuple[float, float] | None
    floor_mm: float
    floor_known: bool

    @property
    def least_mm(self) -> float:
        return min([self.floor_mm, *(low for low, _ in self.spans.values())])

    @property
    def greatest_mm(self) -> float:
        tops = (high for _, high in self.spans.values())
        return max((self.top_mm, *tops, *(self.worktop_mm or ())), default=0.0)


def run_heights(
    job: Job, room: Room, room_placed: Sequence[Placed], placed: Sequence[Placed], floor_mm: float | None
) -> RunHeights:
    """`placed` of one run; `room_placed` of the whole room, whose tall units set the wall units' tops. `floor_mm`: the
    finished floor over the datum, None where not known."""
    offset_mm = placed[0].run.datum_offset_mm if placed else 0.0
    known = floor_mm is not None
    foot_mm = offset_mm - job.base_carcass_height_mm
    ground_mm = floor_mm if floor_mm is not None else foot_mm - room.plinth.height_mm - room.plinth.fit_mm
    rising = {(one.of, one.concerns[0]): one.over_datum_mm for one in heights(job, room, room_placed)}
    spans: dict[str, tuple[float, float]] = {}
    for one in placed:
        span = _own_span(job, one, rising)
        if span is not None:
            spans[one.item.id] = span
    over_mm = worktop_over_datum_mm(room, offset_mm)
    base = (foot_mm, offset_mm)
    hung = (over_mm + room.wall_units.clear_over_top_mm, over_mm + room.wall_units.clear_over_top_mm - foot_mm)
    for one in placed:
        if one.item.id not in spans:
            spans[one.item.id] = _neighbours_span(one, placed, spans, base if one.stands else hung, ground_mm)
    based = any(one.item.storey is Storey.BASE and not isinstance(one.item, Gap) for one in placed)
    return RunHeights(
        spans, offset_mm, (over_mm - room.worktop.thickness_mm, over_mm) if based else None, ground_mm, known
    )


def _own_span(job: Job, placed: Placed, rising: Mapping[tuple[HeightOf, str], float]) -> tuple[float, float] | None:
    item = placed.item
    if not isinstance(item, Carcass | OpenUnit):
        return None
    below_mm = underside_below_datum_mm(job, placed)
    if below_mm is not None:
        return -below_mm, item.height_mm - below_mm
    under_mm = rising.get((HeightOf.WALL_UNIT_UNDERSIDE, item.id))
    return None if under_mm is None else (under_mm, under_mm + item.height_mm)


def _neighbours_span(
    placed: Placed,
    others: Sequence[Placed],
    spans: Mapping[str, tuple[float, float]],
    alone: tuple[float, float],
    ground_mm: float,
) -> tuple[float, float]:
    """A panel, filler, post, bay or gap is as high as the nearest unit of its storey (`alone` where there is none);
    some go down to the floor."""
    item = placed.item
    middle_mm = (placed.left_mm + placed.right_mm) / 2
    near = [
        (abs((one.left_mm + one.right_mm) / 2 - middle_mm), one.item.id)
        for one in others
        if one.item.storey is item.storey and isinstance(one.item, Carcass | OpenUnit) and one.item.id in spans
    ]
    low_mm, high_mm = spans[min(near)[1]] if near else alone
    to_floor = isinstance(item, ApplianceBay) or getattr(item, "to_floor", False)
    return (ground_mm if to_floor and placed.stands else low_mm), high_mm
