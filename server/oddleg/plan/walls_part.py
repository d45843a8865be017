"""The part of a plan that the screen of wall readings shows: where to read, what is read, and what to do next."""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.job import EndsAt, Job, OpeningDepth, Run, WallHeight

from . import RoomPlan
from .corner import Corner
from .figure import figure, text_mm
from .meeting_runs import AT_THE_OTHER
from .part_values import Part, figure_part, finding_part
from .sightings import listed, named
from .wall import Wall
from .wall_measures import DEPTH_WORDS
from .wall_profile import HEIGHT_WORDS, STANDING


def walls_part(job: Job, room: RoomPlan) -> Part:
    """`limits`: what the phone compares raw figures with, mm, and asks about before it saves one; it never refuses."""
    tolerances = job.tolerances
    walls = [one.wall for one in room.setting_out.runs if one.wall is not None]
    return {
        "room": room.room.id,
        "name": room.room.name,
        "heights": {height.value: words for height, words in HEIGHT_WORDS.items()},
        "depths": {depth.value: words for depth, words in DEPTH_WORDS.items()},
        "limits": {
            "greatest_mm": tolerances.greatest_reading_mm,
            "repeat_mm": tolerances.wall_repeat_mm,
            "jump_mm": tolerances.wall_off_line_mm,
        },
        "runs": [wall_part(wall, job.rounding_mm) for wall in walls],
        "corners": [_corner_part(one) for one in room.setting_out.corners],
        "findings": [finding_part(finding) for wall in walls for finding in wall.findings],
    }


def wall_part(wall: Wall, step_mm: float) -> Part:
    return {
        "run": wall.run.id,
        "name": wall.run.name,
        "lines": [{"id": id, "name": name, "readings": count} for id, name, count in wall.lines],
        "stations": [
            {
                "id": one.id,
                "name": one.name,
                "x": figure_part(figure(one.x_mm, step_mm, _place_why(one.x_mm, step_mm, wall.run))),
                "heights": [height.value for height in one.heights],
                "serves": one.serves,
                "added": one.added,
            }
            for one in wall.stations
        ],
        "spots": [
            {
                "station": one.station,
                "height": one.height.value,
                "state": one.state,
                "out": figure_part(one.out),
                "readings": len(one.readings),
            }
            for one in wall.spots
        ],
        "openings": [
            {
                "height": one.height.value,
                "depth": one.depth.value,
                "width": figure_part(one.width),
                "entry": one.uid,
            }
            for one in wall.openings
        ],
        "end_walls": [
            {
                "side": one.side,
                "height": one.height.value,
                "depth": one.depth.value,
                "beyond": figure_part(one.beyond),
                "entry": one.uid,
            }
            for one in wall.end_walls
        ],
        "features": [
            {
                "id": one.id,
                "name": one.name,
                "what": one.kind.value,
                "left": figure_part(figure(one.left_mm, step_mm, "From the run's zero, to the right.")),
                "right": figure_part(figure(one.right_mm, step_mm, "From the run's zero, to the right.")),
                "bottom": _level(one.bottom_mm, step_mm),
                "top": _level(one.top_mm, step_mm),
                "stands_out": figure_part(figure(one.stands_out_mm, step_mm, "Out of the wall's face.", signed=True)),
            }
            for one in wall.features
        ],
        "next_words": next_words(wall),
    }


def _level(level_mm: float | None, step_mm: float) -> Part | None:
    return None if level_mm is None else figure_part(figure(level_mm, step_mm, "Over the bench mark.", signed=True))


def _corner_part(corner: Corner) -> Part:
    return {
        "run": corner.left_run.id,
        "other_run": corner.right_run.id,
        "name": f"{corner.left_run.name} and {corner.right_run.name}",
        "sides": [{"label": label, "figure": figure_part(one)} for label, one in corner.sides],
    }


def next_words(wall: Wall) -> str:
    """What to do next at this wall, in one or two sentences."""
    if not wall.stations:
        return f"Nothing is drawn along {wall.run.name} yet: give its opening or its units at the desk."
    if not wall.lines:
        return (
            f"Put up a laser line or a string along {wall.run.name}, from end to end, and read the distance to the "
            "wall at each place."
        )
    open_ones = [f"{one.name} {HEIGHT_WORDS[one.height]}" for one in wall.spots if one.state == "open"]
    if open_ones:
        return f"Put right what is open: {named(open_ones)}."
    if unread := [one for one in wall.spots if one.state == "unread"]:
        return f"Still to read: {_by_height(wall, [(one.name, one.height) for one in unread])}."
    if missing := openings_to_measure(wall):
        return f"Measure the opening from wall to wall: {missing}."
    return f"All of {wall.run.name} is read."


def _by_height(wall: Wall, spots: Sequence[tuple[str, WallHeight]]) -> str:
    """Names by height: "A one and A two at batten height", all of a height as such."""
    words = []
    for height in WallHeight:
        names = [name for name, at in spots if at is height]
        if names:
            all_of_it = len(names) == sum(height in one.heights for one in wall.stations) and len(names) > 2
            words.append(f"{'all places' if all_of_it else named(names)} {HEIGHT_WORDS[height]}")
    return "; ".join(words)


def openings_to_measure(wall: Wall) -> str:
    """Where the width between two walls is still to be measured; empty where nothing is, or no two walls are."""
    if not _between_walls(wall.run):
        return ""
    there = {(one.height, one.depth) for one in wall.openings}
    heights = [height for height in STANDING if (height, OpeningDepth.BACK) not in there]
    fronts = not any(depth is OpeningDepth.FRONT for _, depth in there)
    words = [f"{DEPTH_WORDS[OpeningDepth.BACK]}, {listed([HEIGHT_WORDS[one] for one in heights])}"] if heights else []
    if fronts:
        words.append(f"{DEPTH_WORDS[OpeningDepth.FRONT]}, at one height or more")
    return "; ".join(words)


def _place_why(x_mm: float, step_mm: float, run: Run) -> str:
    """A place that lies left of the zero: where the other run's units stand, if the run begins at their fronts."""
    if x_mm >= 0:
        return "From the run's zero, to the right."
    corner = ", in the corner" if run.left_end.at in AT_THE_OTHER else ""
    return f"{text_mm(-x_mm, step_mm)} to the left of the zero{corner}."


def _between_walls(run: Run) -> bool:
    return all(end.at is not EndsAt.OPEN for end in (run.left_end, run.right_end))
