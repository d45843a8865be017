"""What is put where, in words."""

from __future__ import annotations

from collections.abc import Mapping

from oddleg.job import Anchor, AnchorOn, Edge

from .figure import text_mm
from .row import Row, Trouble

EDGE_WORDS = {Edge.LEFT: "left edge", Edge.CENTRE: "centre", Edge.RIGHT: "right edge"}


def anchor_words(row: Row, features: Mapping[str, str], marks_mm: tuple[float, float], step_mm: float) -> str:
    """One sentence: what of the row lies on what, and where that is. `features`: their names; `marks_mm`: zero and end
    mark."""
    if row.trouble is not None:
        return "It is set out from the zero mark, since its anchor cannot be used."
    anchor, at = row.anchor, text_mm(row.anchor_mm - marks_mm[0], step_mm)
    if anchor.item is None and anchor.on in (AnchorOn.LEFT_END, AnchorOn.RIGHT_END):
        if anchor.on is AnchorOn.LEFT_END:
            return "It begins at the zero mark." if at == "0" else f"It begins {at} past the zero mark."
        short = text_mm(marks_mm[1] - row.anchor_mm, step_mm)
        return "It ends at the end mark." if short == "0" else f"It ends {short} before the end mark."
    return f"{what_is_put(row)} lies on {put_on(anchor, features)}, {at} from the zero."


def what_is_put(row: Row) -> str:
    anchor = row.anchor
    item = next((one for one in row.items if one.id == anchor.item), None)
    if item is None:
        return "The middle of the row"
    part = f" ({anchor.what})" if anchor.what else ""
    if anchor.item_offset_mm == 0:
        return f"The {EDGE_WORDS[anchor.item_edge]} of {item.name}{part}"
    way = "right" if anchor.item_offset_mm > 0 else "left"
    away = text_mm(abs(anchor.item_offset_mm))
    return f"The place {away} to the {way} of the {EDGE_WORDS[anchor.item_edge]} of {item.name}{part}"


def put_on(anchor: Anchor, features: Mapping[str, str]) -> str:
    if anchor.on is AnchorOn.FEATURE:
        return f"the {EDGE_WORDS[anchor.feature_edge]} of {features.get(anchor.feature or '', 'a feature')}"
    return {
        AnchorOn.LEFT_END: "the zero mark",
        AnchorOn.RIGHT_END: "the end mark",
        AnchorOn.MIDDLE: "the middle between zero and end mark",
        AnchorOn.MARK: "its own mark",
    }[anchor.on]


TROUBLES = {
    Trouble.NO_ITEM: (
        "The item that is to be put on the anchor is not in this row.",
        "Name an item of this row, or none.",
    ),
    Trouble.NO_FEATURE: (
        "The feature that it is anchored on is not known on this wall.",
        "Measure the feature, or name another anchor.",
    ),
    Trouble.NO_PLACE: ("The anchor has no place.", "Say how far from the zero it lies."),
    Trouble.NO_END: (
        "It is anchored on its right end or its middle, and nobody knows how long the opening is.",
        "Measure the opening, or give it as drawn.",
    ),
}
"""What is wrong with an anchor, and what to do; one outside the run says where it lies itself."""
