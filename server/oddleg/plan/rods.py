"""Computation 9: the rod of every run, on its front line, between the marks that the opening leaves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from oddleg.job import Anchor, Edge, EndsAt, Job, Marked, Room, Run, Storey, WallHeight

from .anchor_words import anchor_words, put_on, what_is_put
from .axes import to_room, to_run
from .figure import figure
from .filler_widths import filler_widths, limits_on_the_rod
from .finding import Finding, Severity
from .front_line import FrontLine
from .rod import Placed, row_items
from .rod_ends import RunEnds, end_words, run_ends
from .rod_findings import (
    anchor_finding,
    end_findings,
    offsets,
    side_findings,
    tick_findings,
    wide_findings,
    zero_finding,
)
from .rod_marks import BASE, WALL, Spot, centre_spots, edge_spots, ids_at, rod_marks
from .row import Row, edge_mm, row_set_out
from .set_out import Rod
from .site import Site, body
from .wall import Wall

Lines = Mapping[str, tuple[FrontLine, FrontLine | None]]


def rods(job: Job, room: Room, here: Site, walls: Sequence[Wall], lines: Lines) -> tuple[Rod, ...]:
    """One a run, in the room's order. What cannot be set out as asked is set out from the zero, with a finding."""
    runs = {run.id: run for run in room.runs}
    read = {wall.run.id: wall for wall in walls}
    return tuple(_rod(job, here, run, runs, read, lines) for run in room.runs)


def _rod(job: Job, here: Site, run: Run, runs: Mapping[str, Run], walls: Mapping[str, Wall], lines: Lines) -> Rod:
    step_mm, wall = job.rounding_mm, walls.get(run.id)
    line, hanging_line = lines[run.id]
    set_out = line.set_out
    ends = run_ends(run, runs, walls, lines, set_out, step_mm)
    features = wall.features if wall else run.features
    on_wall = {one.id: (_on_rod(run, set_out, one.left_mm), _on_rod(run, set_out, one.right_mm)) for one in features}
    feature_names = {one.id: one.name for one in features}
    rows = _rows(run, set_out, ends, on_wall)
    hung_on = hanging_line.set_out if hanging_line else set_out
    edges = {item.id: span for row in rows.values() for item, span in zip(row.items, row.edges, strict=True)}
    placed = tuple(
        Placed(hung_on if item.storey is Storey.WALL else set_out, item, *edges[item.id]) for item in run.items
    )
    first = rows.get(BASE) or rows.get(WALL)
    right_mm = ends.opening_mm
    if right_mm is None:
        right_mm = max((row.edges[-1][1] for row in rows.values()), default=0.0)
    words = {name: anchor_words(row, feature_names, (0.0, right_mm), step_mm) for name, row in rows.items()}
    spots = _spots(rows, ends, right_mm, words, feature_names, step_mm)
    # A centre beyond an end, of a door beside the run, is no place on the rod.
    along = [one for one in features if 0.0 <= edge_mm(on_wall[one.id], Edge.CENTRE) <= right_mm]
    spots += centre_spots(rows, along, on_wall, run.line_up)
    ticks = {body(entry, Marked).mark: entry for entry in here.marked if body(entry, Marked).run == run.id}
    at_mm = {id: body(entry, Marked).at_mm for id, entry in ticks.items()}
    anchors_mm = {name: rows[name].anchor_mm if name in rows else 0.0 for name in (BASE, WALL)}
    marks = rod_marks(spots, 0.0, right_mm, anchors_mm, at_mm, step_mm)
    lined_up, lined_up_findings = offsets(
        run, {**on_wall, **edges}, {**feature_names, **{item.id: item.name for item in run.items}}, step_mm
    )
    findings: list[Finding] = []
    if not run.items:
        findings.append(_empty(run))
    findings += end_findings(run, ends, wall, step_mm)
    for name, row in rows.items():
        findings += anchor_finding(run, row, name, ends, step_mm)
        findings += zero_finding(run, row, name, step_mm)
        findings += side_findings(job, run, row, name, ends)
        findings += wide_findings(run, row, ends, job)
    findings += lined_up_findings
    findings += tick_findings(run, marks, ticks, ids_at(spots), step_mm)
    left_over = None
    if first is not None and ends.opening_mm is not None and ends.closed and first.left.bounded and first.right.bounded:
        why = "Zero to end mark less everything in the row; below nought it is too long."
        left_over = figure(ends.opening_mm - first.length_mm, step_mm, why)
    return Rod(
        set_out,
        0.0,
        right_mm,
        None if ends.opening_mm is None else figure(ends.opening_mm, step_mm, ends.why),
        ends.words,
        first.anchor_mm if first else 0.0,
        _words_of_both(words),
        placed,
        tuple(one for row in rows.values() for one in filler_widths(row, ends, job.tolerances, step_mm)),
        marks,
        left_over,
        end_words(ends, step_mm),
        tuple(lined_up),
        tuple(findings),
        (ends.left.hung, ends.right.hung),
        (ends.left.most_beyond_mm(WallHeight.WALL_UNITS), ends.right.most_beyond_mm(WallHeight.WALL_UNITS)),
    )


def _rows(run: Run, set_out: Run, ends: RunEnds, on_wall: Mapping[str, tuple[float, float]]) -> dict[str, Row]:
    """What stands and what hangs, each set out, where there is any of it; both from one zero, up to one end mark."""
    bounded = ends.opening_mm is not None or ends.left.at is not EndsAt.OPEN
    ends_mm = (0.0 if bounded else None, ends.opening_mm)
    rows = {}
    for name, hangs, anchor in ((BASE, False, run.anchor), (WALL, True, run.wall_anchor)):
        items = row_items(run, hangs)
        if items:
            limits = limits_on_the_rod(items, ends)
            row_ends_mm = _hung_mm(ends, ends_mm) if hangs else ends_mm
            rows[name] = row_set_out(items, _on_rods(run, set_out, anchor), 0.0, row_ends_mm, on_wall, limits, hangs)
    return rows


def _hung_mm(ends: RunEnds, ends_mm: tuple[float | None, float | None]) -> tuple[float | None, float | None]:
    """Ends of what hangs: the marks, unless in a corner it ends before one."""
    left_mm, right_mm = ends_mm
    if left_mm is not None and ends.left.hung is not None:
        left_mm += ends.left.hung.short_mm
    if right_mm is not None and ends.right.hung is not None:
        right_mm -= ends.right.hung.short_mm
    return left_mm, right_mm


def _on_rod(run: Run, set_out: Run, x_mm: float) -> float:
    """A place on the wall, x from the run's own zero, in the axes of the run as set out."""
    if (run.x_mm, run.y_mm, run.bearing_deg) == (set_out.x_mm, set_out.y_mm, set_out.bearing_deg):
        return x_mm
    return to_run(set_out, to_room(run, x_mm, 0.0))[0]


def _on_rods(run: Run, set_out: Run, anchor: Anchor | None) -> Anchor | None:
    if anchor is None or anchor.x_mm is None:
        return anchor
    return replace(anchor, x_mm=_on_rod(run, set_out, anchor.x_mm))


def _spots(
    rows: Mapping[str, Row],
    ends: RunEnds,
    right_mm: float,
    words: Mapping[str, str],
    feature_names: Mapping[str, str],
    step_mm: float,
) -> list[Spot]:
    zero_why = (
        "The plumbed mark that everything is measured from. Where the batten does not come to it, mark it on an offcut "
        "of batten held there at the batten's height."
    )
    spots = [Spot("zero", "zero mark", BASE, "zero", (), 0.0, zero_why, plumbed=True)]
    known = ends.opening_mm is not None
    if known or rows:
        why = ends.why if known else "The last edge of the run, since its right end is open or nobody measured it."
        spots.append(Spot("end", "end mark", BASE, "end", (), right_mm, why, plumbed=known))
    for name, row in rows.items():
        at_an_end = row.trouble is not None or (row.first == row.last and row.anchor.item is None)
        if not at_an_end:
            item = (row.anchor.item,) if row.anchor.item else ()
            put = what_is_put(row)
            on = put_on(row.anchor, feature_names)
            called = f"anchor: {put[0].lower()}{put[1:]} on {on}"
            id = "anchor" if name == BASE else "wall-anchor"
            spots.append(Spot(id, called, name, "anchor", item, row.anchor_mm, words[name]))
        spots += edge_spots(row, name, words[name], step_mm)
    return spots


def _words_of_both(words: Mapping[str, str]) -> str:
    if len(words) < 2:
        return next(iter(words.values()), "Nothing is in it.")
    stands, hangs = (f"{said[0].lower()}{said[1:]}" for said in (words[BASE], words[WALL]))
    return f"What stands: {stands} Wall units: {hangs}"


def _empty(run: Run) -> Finding:
    return Finding(
        "rod.empty",
        Severity.NOTE,
        run.name,
        "Nothing is in this run, so nothing is to be marked but its ends.",
        "Put its items in at the desk, or take the run out.",
        "a rod carries the edges of what stands there",
        concerns=(run.id,),
    )
