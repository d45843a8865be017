"""What is wrong between the parts of a room that its runs are set out from: ends, anchors, lines, what lines up."""

from __future__ import annotations

import math
from collections.abc import Iterator

from oddleg.job import Anchor, EndsAt, LineIs, Room, Run, RunEnd, Storey

IN_A_CORNER = (EndsAt.OTHER_BACKS, EndsAt.OTHER_FRONTS)
# Walls that turn by less have no corner in the room, and no room is as long as this.
LEAST_TURN_DEG, GREATEST_ALONG_MM = 20.0, 50_000.0
OPPOSITE = {"left_end": "right_end", "right_end": "left_end"}


def set_out_clashes(room: Room) -> Iterator[tuple[str, str]]:
    """Path from the room on, and what is wrong there."""
    runs = {run.id: run for run in room.runs}
    for place, run in enumerate(room.runs):
        path = f"runs.{place}"
        for end in OPPOSITE:
            yield from end_clashes(run, end, runs, f"{path}.{end}.run")
        yield from anchor_clashes(run, run.anchor, f"{path}.anchor", hangs=False)
        yield from anchor_clashes(run, run.wall_anchor, f"{path}.wall_anchor", hangs=True)
        yield from square_clashes(run, runs, f"{path}.front_line.run")
        items = {item.id for item in run.items}
        features = {feature.id for feature in run.features}
        things = items | features
        if run.front_line.feature is not None:
            yield from stranger(f"{path}.front_line.feature", run.front_line.feature, features, "feature")
        for at, line_up in enumerate(run.line_up):
            yield from stranger(f"{path}.line_up.{at}.item", line_up.item, items, "item")
            yield from stranger(f"{path}.line_up.{at}.on", line_up.on, things, "item or feature")


def end_clashes(run: Run, end: str, runs: dict[str, Run], path: str) -> Iterator[tuple[str, str]]:
    """Facing the wall, a right end always meets the left end of the next wall's run, at an outside corner too."""
    ours: RunEnd = getattr(run, end)
    if ours.run is None:
        return
    if ours.run == run.id:
        yield path, "A run cannot meet itself in a corner; name the other run."
    elif ours.run not in runs:
        yield path, f"There is no run {ours.run} in this room; {allowed(set(runs))}."
    else:
        other = runs[ours.run]
        facing: RunEnd = getattr(other, OPPOSITE[end])
        same_hand: RunEnd = getattr(other, end)
        words = end.replace("_", " ")
        if same_hand.run == run.id and facing.run != run.id:
            yield path, f"The {words}s of {run.name} and {other.name} cannot meet: a right end meets a left end."
        elif facing.run == run.id and ours.at is EndsAt.OTHER_BACKS and facing.at is EndsAt.OTHER_BACKS:
            yield (
                path,
                f"Both {run.name} and {other.name} go into the corner; one of them begins beside the other: "
                f"{EndsAt.OTHER_FRONTS}.",
            )
        elif words := drawn_apart(run, other):
            yield path, words


def drawn_apart(run: Run, other: Run) -> str:
    """Why two runs cannot meet as they are drawn; empty where they can. First principles: each lies on the line y = 0
    of its own axes, and where these two lines cross is the corner."""
    turn = math.radians(other.bearing_deg - run.bearing_deg)
    if abs(math.sin(turn)) < math.sin(math.radians(LEAST_TURN_DEG)):
        return (
            f"{run.name} and {other.name} run the same way or face each other as drawn, so they have no corner; put "
            "one's bearing_deg right, or say wall or open for this end."
        )
    dx, dy = other.x_mm - run.x_mm, other.y_mm - run.y_mm
    for one, bearing_deg in ((run, other.bearing_deg), (other, run.bearing_deg)):
        away_mm = abs(dx * math.sin(math.radians(bearing_deg)) - dy * math.cos(math.radians(bearing_deg)))
        if away_mm > GREATEST_ALONG_MM * abs(math.sin(turn)):
            return (
                f"As drawn, {run.name} and {other.name} would meet {away_mm / abs(math.sin(turn)) / 1000:.0f} m from "
                f"the zero of {one.name}; put x_mm, y_mm and bearing_deg of both right."
            )
    return ""


def anchor_clashes(run: Run, anchor: Anchor | None, path: str, hangs: bool) -> Iterator[tuple[str, str]]:
    if anchor is None:
        return
    if anchor.feature is not None:
        yield from stranger(f"{path}.feature", anchor.feature, {feature.id for feature in run.features}, "feature")
    if anchor.item is None:
        return
    items = {item.id: item for item in run.items}
    yield from stranger(f"{path}.item", anchor.item, set(items), "item")
    if anchor.item in items and (items[anchor.item].storey is Storey.WALL) is not hangs:
        other, does = ("wall_anchor", "hangs") if not hangs else ("anchor", "stands")
        yield f"{path}.item", f"{items[anchor.item].name} {does}, so it is set out from {other}."


def square_clashes(run: Run, runs: dict[str, Run], path: str) -> Iterator[tuple[str, str]]:
    """A line square to a line that in the end is square to the first has nothing to begin from."""
    if run.front_line.line is not LineIs.SQUARE or run.front_line.run is None:
        return
    if run.front_line.run not in runs:
        yield path, f"There is no run {run.front_line.run} in this room; {allowed(set(runs))}."
        return
    passed = [run.id]
    at: Run | None = runs[run.front_line.run]
    while at is not None and at.id not in passed:
        passed.append(at.id)
        at = runs.get(at.front_line.run) if at.front_line.run is not None else None
    if at is not None and at.id == run.id:
        names = ", ".join(runs[id].name for id in passed)
        yield path, f"Each of these is square to the next and the last to the first: {names}; let one of them be free."


def stranger(path: str, id: str, known: set[str], kind: str) -> Iterator[tuple[str, str]]:
    if id not in known:
        yield path, f"There is no {kind} {id} in this run; {allowed(known)}."


def allowed(known: set[str]) -> str:
    if not known:
        return "it has none"
    some = sorted(known)[:12]
    return f"it has {', '.join(some)}{' and others' if len(known) > len(some) else ''}"
