"""Where cables and pipes may run in a wall, as far as the job knows: a caution, never a clearance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import EndsAt, Feature, FeatureKind, Run

from .wall_profile import Span

# From memory of BS 7671, regulation group 522.6: cables run straight up, down or across from an accessory, within its
# width or height, and within 150 mm of an angle of two walls and of the top of a wall.
CORNER_MM = 150.0
# Kept clear beside a zone for the screw and what it may wander (ours).
BESIDE_MM = 25.0
HIDDEN = {FeatureKind.ELECTRIC: "cables", FeatureKind.PIPE: "pipes"}
CAUTION = (
    "Before you drill: cables may run straight up, down and sideways from every socket, switch and outlet, within 150 "
    "of a corner and of the top of the wall (BS 7671, group 522.6), pipes likewise from theirs. Others "
    "run where nobody expects them: only what was entered is known here, and a spot that is not marked is not clear. "
    "Find them first, and leave what is live to a licensed electrician, gas to its own licensed trade, as the local "
    "code says."
)


@dataclass(frozen=True)
class Zone:
    """From `left_mm` to `right_mm` on the rod; `words` say what may run there and why. `whole`: it goes along the whole
    batten, sideways from the feature, so that no fixing can be moved out of it."""

    left_mm: float
    right_mm: float
    words: str
    concerns: tuple[str, ...]
    whole: bool = False

    def holds(self, x_mm: float) -> bool:
        return self.whole or self.left_mm - BESIDE_MM < x_mm < self.right_mm + BESIDE_MM


def crosses(feature: Feature, bottom_mm: float | None, top_mm: float | None) -> bool | None:
    """Whether a feature comes to the band of levels; None where its levels or those of the band are not known."""
    if bottom_mm is None or top_mm is None or (feature.bottom_mm is None and feature.top_mm is None):
        return None
    above = feature.bottom_mm is not None and feature.bottom_mm >= top_mm
    below = feature.top_mm is not None and feature.top_mm <= bottom_mm
    return not above and not below


def zones(
    run: Run, features: Sequence[Feature], zero_mm: float, ends: Span, band: tuple[float | None, float | None]
) -> tuple[Zone, ...]:
    """Known zones along a batten. `zero_mm`: x of the rod's zero in the axes of the features; `ends`: zero and end mark
    on the rod; `band`: levels of the batten's bottom and top, None where no datum is decided."""
    found = []
    for feature in sorted(features, key=lambda one: (one.left_mm, one.id)):
        what = HIDDEN.get(feature.kind)
        if what is None:
            continue
        left_mm, right_mm = feature.left_mm - zero_mm, feature.right_mm - zero_mm
        words = f"straight above or below {feature.name}: {what} may run here"
        found.append(Zone(left_mm, right_mm, words, (feature.id,)))
        if crosses(feature, *band):
            words = f"level with {feature.name}: {what} may run sideways here"
            found.append(Zone(ends[0], ends[1], words, (feature.id,), whole=True))
    for end, side, x_mm, inward in ((run.left_end, "left", ends[0], 1.0), (run.right_end, "right", ends[1], -1.0)):
        if end.at in (EndsAt.WALL, EndsAt.OTHER_BACKS):
            edges = sorted((x_mm, x_mm + inward * CORNER_MM))
            found.append(Zone(edges[0], edges[1], f"within 150 of the corner at the {side}: cables may run here", ()))
    return tuple(found)
