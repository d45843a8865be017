"""What fitters call the fields of an entry: a refusal is read on the phone, where a path says nothing."""

from __future__ import annotations

from .entry_kinds import LEG_NAMES
from .strict_json import WHOLE

# What fitters call the fields, as on the phone's own screens. Whatever is not here is sent by no phone of ours.
CALLED = {
    "middle_a": "the reading at A with the laser midway",
    "middle_b": "the reading at B with the laser midway",
    "end_a": "the reading at A with the laser close to A",
    "end_b": "the reading at B with the laser close to A",
    "end_to_a": "the distance from the laser to peg A",
    "end_to_b": "the distance from the laser to peg B",
    "offset": "the second mark from the first",
    "walls_apart": "the distance from wall to wall",
    "resolution_mm": "the smallest step of the instrument",
    "axis": "which way the laser was checked",
    "line": "the line",
    "level": "the level of the line",
    "give_or_take": "the give or take of the line",
    "room": "the room",
    "stage": "what the floor is now",
    "laser": "the laser",
    "instrument": "what it was read with",
    "set_up": "the set-up",
    "way": "how it was read",
    "side": "which side",
    "name": "the name",
    "x_mm": "the place on the plan, X",
    "y_mm": "the place on the plan, Y",
    "serves": "what the station serves",
    "surface": "floor or overhead",
    "choice": "which datum was chosen",
    "heights": "the heights of the legs",
    "reason": "why it is blocked",
    "text": "the words of the note",
    "run": "the run",
    "other_run": "the other run",
    "square_to": "the line that it is square to",
    "stands_off": "how far the line stands off",
    "height": "at which height",
    "depth": "back or front",
    "along": "the side along this wall",
    "other_along": "the side along the other wall",
    "across": "the side across the corner",
    "what": "what kind of thing it is",
    "left": "the left edge",
    "right": "the right edge",
    "bottom": "the bottom edge",
    "top": "the top edge",
    "stands_out": "how far it stands out",
    "above": "what the heights are measured from",
    "mark": "the mark on the rod",
    "comes_from": "wall or floor",
    "x": "its middle from the run's zero",
    "width": "the width",
    "up": "its height",
    "y": "how far out of the wall it comes up",
    "up_from": "what its height is measured from",
    "round": "round or not",
    "live": "live or not",
    "reach": "whether it must stay within reach",
    "panel": "the panel",
    "hole": "the hole",
    "u": "the hole's first figure",
    "v": "the hole's second figure",
    "raw": "the figure as typed",
    "unit": "the unit",
    "value": "the figure",
    "target": "what the entry is about",
    "job": "the job",
    "kind": "the kind of entry",
    "at": "the time",
    "utc": "the phone's clock",
    "offset_minutes": "the phone's time zone",
    "server_offset_ms": "how far the phone's clock is off",
    "measured_at": "when it was measured",
    "shown": "what was on screen",
    "expected": "the figure expected on screen",
    "part_mark": "the mark of the plan on screen",
    "replaces": "the entry that this one replaces",
    "data": "what the entry says",
    "schema": "the form of the entry",
    WHOLE: "the entry",
}
TYPED_PARTS = ("raw", "unit", "value")


def called(path: str) -> str:
    """Where in an entry something is wrong, as fitters call it. `path`: dotted, as in data.end_to_b.raw."""
    *above, last = path.split(".")
    if last in TYPED_PARTS and above and above[-1] in CALLED:
        last = above[-1]
    if above and above[-1] == "heights" and last in LEG_NAMES:
        return f"the height of leg {last}"
    return CALLED.get(last, f"“{last[:64]}”, which this program does not know")
