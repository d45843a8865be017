"""Where on its wall a front line takes its direction from, where its rule is to lie parallel to the wall there."""

from __future__ import annotations

from collections.abc import Iterable

from oddleg.job import Feature, FrontLineRule

from .sightings import shown_mm


def parallel_points(rule: FrontLineRule, features: Iterable[Feature]) -> tuple[float, float] | None:
    """x of the two points, mm, the left one first: the edges of the rule's feature as it stands among these, else the
    rule's own. None where there is no such feature, or both are at one place."""
    found = (rule.from_x_mm, rule.to_x_mm)
    if rule.feature is not None:
        found = next(((one.left_mm, one.right_mm) for one in features if one.id == rule.feature), (None, None))
    left_mm, right_mm = found
    if left_mm is None or right_mm is None or left_mm >= right_mm:
        return None
    return left_mm, right_mm


def parallel_words(rule: FrontLineRule, features: Iterable[Feature]) -> str:
    """The wall that the rule names: "the wall from 300 to 900", "the wall between the edges of window"."""
    if rule.feature is not None:
        named = next((one.name for one in features if one.id == rule.feature), rule.feature)
        return f"the wall between the edges of {named}"
    return f"the wall from {shown_mm(rule.from_x_mm or 0.0)} to {shown_mm(rule.to_x_mm or 0.0)}"
