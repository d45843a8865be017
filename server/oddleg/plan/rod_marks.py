"""The marks of a rod: zero, end, anchors, edges and centres, each from three sides, in order of marking."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from oddleg.job import Edge, Feature, LineUp

from .figure import figure, text_mm
from .row import SAME_SPOT_MM, Row, beside_mm
from .set_out import RodMark
from .sightings import named

BASE, WALL = "base", "wall"
KINDS = ("zero", "end", "anchor", "edge", "centre")
"""Of spots at one place the first of these gives id and name."""


@dataclass(frozen=True)
class Spot:
    """A place to be marked. `why`: where it comes from. `plumbed`: a mark that is there before the tape is laid.
    `made`: False for what is on the wall already."""

    id: str
    name: str
    row: str
    kind: str
    items: tuple[str, ...]
    x_mm: float
    why: str
    plumbed: bool = False
    made: bool = True


def rod_marks(
    spots: Sequence[Spot],
    left_mm: float,
    right_mm: float,
    anchors_mm: Mapping[str, float],
    ticks_mm: Mapping[str, float],
    step_mm: float,
) -> tuple[RodMark, ...]:
    """Marks by row, each row from left to right; spots at one place are one mark. `ticks_mm`: mark id to where the
    fitter made it.

    In order of marking zero and end mark come first, since nothing can be taken from them before they are plumbed and
    the length between them is checked; then the anchor; then all to its right with the tape left as it lies, then all
    to its left; what stands before what hangs.
    """
    places = [(row, here) for row in (BASE, WALL) for here in _at_one_place([one for one in spots if one.row == row])]
    in_order = sorted(
        (number for number, (_, here) in enumerate(places) if any(one.made for one in here)),
        key=lambda number: _when(*places[number], anchors_mm),
    )
    orders = {number: order for order, number in enumerate(in_order, 1)}
    return tuple(
        _mark(here, orders.get(number, 0), (left_mm, anchors_mm[row], right_mm), ticks_mm, step_mm)
        for number, (row, here) in enumerate(places)
    )


def ids_at(spots: Sequence[Spot]) -> frozenset[str]:
    """Every id that a mark could have been ticked under."""
    return frozenset(spot.id for spot in spots)


def edge_spots(row: Row, name: str, anchor_words: str, step_mm: float) -> Iterator[Spot]:
    """The edges of a row's items, an open unit's own sides behind its frame among them."""
    items = row.items
    labels = [
        f"{item.name} {text_mm(right - left, step_mm)}" for item, (left, right) in zip(items, row.edges, strict=True)
    ]
    for i in range(len(items) + 1 if items else 0):
        right_of = i > row.first or (i == row.first and row.first == row.last)
        between = labels[row.first : i] if right_of else labels[i : row.last][::-1]
        why = anchor_words
        if between:
            why += f" To the {'right' if right_of else 'left'} of it up to here: {named(between)}."
        x_mm = row.edges[i][0] if i < len(items) else row.edges[-1][1]
        ids: tuple[str, ...]
        if i == 0:
            id, words, ids = f"{items[0].id}-left", f"left edge of {items[0].name}", (items[0].id,)
        elif i == len(items):
            id, words, ids = f"{items[-1].id}-right", f"right edge of {items[-1].name}", (items[-1].id,)
        else:
            before, after = items[i - 1], items[i]
            id, words = f"{after.id}-left", f"between {before.name} and {after.name}"
            ids = (before.id, after.id)
        yield Spot(id, words, name, "edge", ids, x_mm, why)
    for item, (left_mm, right_mm) in zip(items, row.edges, strict=True):
        beside = beside_mm(item)
        if beside > 0:
            why = f"The edge of what {item.name} takes and {text_mm(beside, step_mm)} for its frame and gap."
            for side, x_mm in (("left", left_mm + beside), ("right", right_mm - beside)):
                words = f"{side} side of {item.name}, behind its frame"
                yield Spot(f"{item.id}-body-{side}", words, name, "edge", (item.id,), x_mm, why)


def centre_spots(
    rows: Mapping[str, Row],
    features: Sequence[Feature],
    spans: Mapping[str, tuple[float, float]],
    lines: Sequence[LineUp],
) -> Iterator[Spot]:
    """Centres: of these features, which are on the wall already, and of the items that are to line up by theirs."""
    for feature in features:
        left_mm, right_mm = spans[feature.id]
        words = f"centre of {feature.name}"
        why = f"Half way between the left and right edge of {feature.name}."
        yield Spot(f"{feature.id}-centre", words, BASE, "centre", (), (left_mm + right_mm) / 2, why, made=False)
    wanted = {one.item for one in lines if one.item_edge is Edge.CENTRE}
    wanted |= {one.on for one in lines if one.on_edge is Edge.CENTRE}
    for name, row in rows.items():
        for item, (left_mm, right_mm) in zip(row.items, row.edges, strict=True):
            if item.id in wanted:
                why = f"Half way between the edges of {item.name}."
                x_mm = (left_mm + right_mm) / 2
                yield Spot(f"{item.id}-centre", f"centre of {item.name}", name, "centre", (item.id,), x_mm, why)


def _at_one_place(spots: Sequence[Spot]) -> list[list[Spot]]:
    """The spots from left to right, those at one place together, the one that gives the name first."""
    places: list[list[Spot]] = []
    for spot in sorted(spots, key=lambda one: one.x_mm):
        if places and spot.x_mm - places[-1][0].x_mm <= SAME_SPOT_MM:
            places[-1].append(spot)
        else:
            places.append([spot])
    return [sorted(here, key=lambda one: KINDS.index(one.kind)) for here in places]


def _when(row: str, here: Sequence[Spot], anchors_mm: Mapping[str, float]) -> tuple[bool, int, float]:
    kinds = {one.kind for one in here if one.plumbed}
    away_mm = here[0].x_mm - anchors_mm[row]
    if kinds:
        turn = 0 if "zero" in kinds else 1
    elif abs(away_mm) <= SAME_SPOT_MM:
        turn = 2
    else:
        turn = 3 if away_mm > 0 else 4
    return row == WALL, turn, abs(away_mm)


def _mark(
    here: Sequence[Spot], order: int, from_mm: tuple[float, float, float], ticks_mm: Mapping[str, float], step_mm: float
) -> RodMark:
    first, (left_mm, anchor_mm, right_mm) = here[0], from_mm
    # A mark's place among its neighbours is exact; every text is rounded once, here.
    x_mm = first.x_mm
    edges = [one for one in here if one.kind == "edge"]
    names = [first.name, *(one.name for one in edges if one is not first)]
    why = next((one.why for one in here if one.kind in ("zero", "end", "anchor")), first.why)
    from_left = figure(x_mm - left_mm, step_mm, why)
    mark = RodMark(
        first.id,
        ", ".join(dict.fromkeys(names)),
        first.row,
        first.kind,
        tuple(dict.fromkeys(item for one in here for item in one.items)),
        x_mm,
        from_left,
        figure(
            x_mm - anchor_mm,
            step_mm,
            f"This mark less the anchor, both from the zero: {text_mm(x_mm - left_mm, step_mm)} less "
            f"{text_mm(anchor_mm - left_mm, step_mm)}.",
            signed=True,
        ),
        figure(
            right_mm - x_mm,
            step_mm,
            f"The end mark less this mark, both from the zero: {text_mm(right_mm - left_mm, step_mm)} less "
            f"{text_mm(x_mm - left_mm, step_mm)}.",
        ),
        order,
    )
    at_mm = next((ticks_mm[one.id] for one in here if one.id in ticks_mm), None)
    if at_mm is None:
        return mark
    marked = figure(at_mm, step_mm, "Where the fitter made this mark, from the zero.")
    moved_mm = x_mm - left_mm - at_mm
    if marked.text == from_left.text or abs(moved_mm) <= step_mm:
        return replace(mark, marked=marked)
    why = f"{from_left.text} now less {marked.text} as marked."
    return replace(mark, marked=marked, moved=figure(moved_mm, step_mm, why, signed=True))
