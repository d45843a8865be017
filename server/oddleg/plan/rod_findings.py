"""What is wrong with a run as set out, by how much, and what would cure it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from oddleg.job import ApplianceBay, EndsAt, Entry, Filler, Job, LineUp, Marked, Run

from .anchor_words import EDGE_WORDS, TROUBLES
from .figure import figure, text_mm
from .filler_widths import beyond_item, visible_mm
from .finding import Finding, Severity
from .rod_ends import DEPTH_WORDS, MARK_WORDS, RunEnds
from .row import SAME_SPOT_MM, Row, Side, edge_mm
from .set_out import Offset, RodMark
from .sightings import listed, named
from .site import body
from .wall import Wall
from .wall_profile import HEIGHT_WORDS

ROW_WORDS = {"base": "what stands", "wall": "what hangs"}


def end_findings(run: Run, ends: RunEnds, wall: Wall | None, step_mm: float) -> Iterator[Finding]:
    """Of the ends: a run that is not there, an opening that nobody measured, a mark that is not at the narrowest."""
    for side, said in (("left", run.left_end), ("right", run.right_end)):
        end = ends.left if side == "left" else ends.right
        if said.run is not None and end.other is None:
            yield Finding(
                "rod.other_run",
                Severity.WARN,
                run.name,
                f"Its {side} end is to meet a run that is not in this room; it is taken as a wall.",
                "Say at the desk what the run ends at.",
                "a corner takes two runs",
                concerns=(run.id,),
            )
    walled = EndsAt.OPEN is not ends.right.at
    if ends.opening_mm is None and walled:
        yield Finding(
            "rod.no_opening",
            Severity.WARN,
            run.name,
            "Nobody has measured its opening and it is not drawn, so its fillers stay as drawn and whether all goes in "
            "is not known.",
            "Measure the opening at several heights, at the back and at the fronts.",
            "fillers take up what is left",
            concerns=(run.id,),
        )
    elif ends.narrowest is None and walled:
        yield Finding(
            "rod.opening_drawn",
            Severity.NOTE,
            run.name,
            f"Its opening, {text_mm(ends.opening_mm or 0.0, step_mm)}, is as drawn: what fillers take rests on it.",
            "Measure it at several heights, at the back and at the fronts, before anything is cut.",
            "no room is as drawn",
            concerns=(run.id,),
        )
    if wall is not None and wall.openings:
        yield from _measured_in_one_way(run, wall)
    for side, end in (("left", ends.left), ("right", ends.right)):
        if end.other is None and wall is not None:
            yield from _in_front_of_mark(run, side, wall, step_mm)


def _measured_in_one_way(run: Run, wall: Wall) -> Iterator[Finding]:
    """What was skipped of an opening: it costs certainty and blocks nothing."""
    heights, depths = {one.height for one in wall.openings}, {one.depth for one in wall.openings}
    missing = []
    if len(heights) == 1:
        missing.append(f"at one height only, {HEIGHT_WORDS[next(iter(heights))]}")
    if len(depths) == 1:
        missing.append(f"at one depth only, {DEPTH_WORDS[next(iter(depths))]}")
    if missing:
        yield Finding(
            "rod.opening_in_one_way",
            Severity.NOTE,
            run.name,
            f"Its opening was measured {listed(missing)}: a side wall that leans or is not square would not show.",
            "Measure it at several heights, along the wall and along the fronts, before fillers are cut.",
            "fillers stand at the fronts, carcasses clear the wall all the way back",
            concerns=(run.id,),
        )


def _in_front_of_mark(run: Run, side: str, wall: Wall, step_mm: float) -> Iterator[Finding]:
    proud = [one for one in wall.end_walls if one.side == side and one.beyond.mm < -SAME_SPOT_MM]
    if not proud:
        return
    worst = min(proud, key=lambda one: one.beyond.mm)
    mark, away = MARK_WORDS[side], figure(-worst.beyond.mm, step_mm, worst.beyond.why)
    into = "right" if side == "left" else "left"
    yield Finding(
        "rod.mark_not_plumbed",
        Severity.STOP,
        f"{run.name}, {mark}",
        f"The {side} wall stands {away.text} in front of the {mark} {HEIGHT_WORDS[worst.height]}, so the mark is not "
        "plumbed at the narrowest place.",
        f"Plumb the {mark} again {away.text} further {into} and measure from it to the wall again; the distances on "
        "the rod stay as they are.",
        "zero and end are plumbed where the opening is narrowest",
        away,
        (run.id,),
    )


def anchor_finding(run: Run, row: Row, name: str, ends: RunEnds, step_mm: float) -> Iterator[Finding]:
    if row.trouble is None:
        return
    if row.wanted_mm is None:
        wrong, cure = TROUBLES[row.trouble]
        amount = None
    else:
        before = row.wanted_mm < 0
        out_mm = -row.wanted_mm if before else row.wanted_mm - (ends.opening_mm or 0.0)
        amount = figure(out_mm, step_mm)
        wrong = (
            f"The anchor lies outside the run, {amount.text} "
            f"{'to the left of the zero mark' if before else 'beyond the end mark'}."
        )
        cure = "Move the anchor into the run, or measure again what it lies on."
    yield Finding(
        "rod.anchor",
        Severity.STOP,
        run.name,
        f"{wrong} {ROW_WORDS[name].capitalize()} is set out from the zero mark until that is put right.",
        cure,
        "a row is set out from one anchor between its ends",
        amount,
        (run.id,),
    )


def zero_finding(run: Run, row: Row, name: str, step_mm: float) -> Iterator[Finding]:
    """Of a row with no wall to stop it at the left: it begins to the left of the zero that all is measured from."""
    begins_mm = row.edges[0][0]
    if row.left.bounded or begins_mm >= -SAME_SPOT_MM:
        return
    amount = figure(-begins_mm, step_mm, "The left edge of its first item, from the zero mark.")
    yield Finding(
        "rod.left_of_zero",
        Severity.WARN,
        run.name,
        f"{ROW_WORDS[name].capitalize()} begins {amount.text} left of the zero mark, where its tape does not reach.",
        f"Move the anchor to the right, or have the run's zero moved {amount.text} or more to the left at the desk.",
        "every mark is told from one zero",
        amount,
        (run.id,),
    )


def side_findings(job: Job, run: Run, row: Row, name: str, ends: RunEnds) -> Iterator[Finding]:
    """Of what lies on either side of the anchor: too much, too little, fillers at their limits. What a joint may open,
    or rounding hides, is not left over."""
    step_mm = job.rounding_mm
    joint_mm = max(step_mm, job.tolerances.greatest_joint_mm)
    for side, other, end in ((row.left, row.right, ends.left), (row.right, row.left, ends.right)):
        word = end.side
        if not side.bounded:
            continue
        whole = row.first == row.last and (row.first == 0 if word == "right" else row.first == len(row.items))
        here = ROW_WORDS[name].capitalize() if whole else f"What is {word} of the anchor"
        if side.excess_mm > SAME_SPOT_MM:
            yield _too_long(run, side, other, word, here, step_mm)
        elif side.short_mm > SAME_SPOT_MM:
            yield _too_narrow(run, row, side, other, word, step_mm)
        elif side.left_mm > joint_mm + SAME_SPOT_MM and end.at is not EndsAt.OPEN and (name == "base" or side.fillers):
            yield _left_over(run, side, word, here, step_mm)
        if side.held and len(side.fillers) > 1 and not side.left_mm:
            yield _held(run, row, side, step_mm)


def _cure(side: Side, other: Side, word: str, missing_mm: float, step_mm: float) -> str:
    missing = text_mm(missing_mm, step_mm)
    if other.bounded and other.spare_mm >= missing_mm - SAME_SPOT_MM:
        away = "left" if word == "right" else "right"
        return f"Move the anchor {missing} to the {away}: the fillers there can give it."
    return f"Take {missing} out: a narrower unit, or a filler that may be narrower; or measure the opening again."


def _too_long(run: Run, side: Side, other: Side, word: str, here: str, step_mm: float) -> Finding:
    missing_mm = side.excess_mm + side.short_mm
    amount = figure(side.excess_mm, step_mm, "Widths of the items less the room that there is, fillers left out.")
    fillers = ""
    if side.short_mm > 0:
        fillers = f" With its fillers at their least {text_mm(missing_mm, step_mm)} are missing."
    return Finding(
        "rod.too_long",
        Severity.STOP,
        run.name,
        f"{here} is {amount.text} longer than the room for it.{fillers}",
        _cure(side, other, word, missing_mm, step_mm),
        "the narrowest opening",
        amount,
        (run.id,),
    )


def _too_narrow(run: Run, row: Row, side: Side, other: Side, word: str, step_mm: float) -> Finding:
    amount = figure(side.short_mm, step_mm, "The fillers' least less what is left for them.")
    widths = _widths(row)
    said = [
        f"{item.name} would be {text_mm(widths[item.id], step_mm)}, its least is {text_mm(item.least_mm, step_mm)}"
        for item in row.items
        if isinstance(item, Filler) and item.id in side.fillers
    ]
    return Finding(
        "rod.filler_narrow",
        Severity.WARN,
        run.name,
        f"{named(said)}: {amount.text} missing.",
        _cure(side, other, word, side.short_mm, step_mm),
        "the fillers' least width",
        amount,
        (run.id, *side.fillers),
    )


def _left_over(run: Run, side: Side, word: str, here: str, step_mm: float) -> Finding:
    amount = figure(side.left_mm, step_mm, "The room less everything in it, fillers at their widest.")
    where = "the zero mark" if word == "left" else "the end mark"
    why = "with its fillers at their widest" if side.fillers else "and has no filler to take it"
    return Finding(
        "rod.left_over",
        Severity.WARN,
        run.name,
        f"{here} leaves {amount.text} open at {where}, {why}.",
        f"Let a filler take {amount.text} more, or put one in; an appliance bay keeps its width.",
        "what is left must have a filler",
        amount,
        (run.id, *side.fillers),
    )


def _held(run: Run, row: Row, side: Side, step_mm: float) -> Finding:
    widths = _widths(row)
    names = {item.id: item.name for item in row.items}
    held = [f"{names[id]} stays at {text_mm(widths[id], step_mm)}" for id in side.held]
    return Finding(
        "rod.filler_held",
        Severity.NOTE,
        run.name,
        f"{named(held)}, its limit; the other fillers on that side take the rest.",
        "Nothing to do, unless they were to look alike: then change a limit.",
        "least and greatest width of a filler",
        concerns=(run.id, *side.held),
    )


def _widths(row: Row) -> dict[str, float]:
    return {item.id: right - left for item, (left, right) in zip(row.items, row.edges, strict=True)}


def wide_findings(run: Run, row: Row, ends: RunEnds, job: Job) -> Iterator[Finding]:
    """Fillers and bays beside a side wall that come out wider somewhere than they may, and bays off their sheet."""
    step_mm, widths = job.rounding_mm, _widths(row)
    for i, item in enumerate(row.items):
        width_mm = widths[item.id]
        beyond = beyond_item(row.items, i, ends)
        if isinstance(item, ApplianceBay):
            yield from _bay_off_sheet(run, item, step_mm)
        if not isinstance(item, ApplianceBay | Filler) or not beyond:
            continue
        limit_mm = item.greatest_mm if isinstance(item, Filler) else _bay_greatest_mm(item, job)
        _, wide_mm = visible_mm(width_mm, beyond)
        certain_mm = width_mm + max(one.least_mm for one in beyond)
        if wide_mm <= max(limit_mm, width_mm) + SAME_SPOT_MM:
            continue
        sure = certain_mm > limit_mm + SAME_SPOT_MM
        said_mm = certain_mm if sure else wide_mm
        amount = figure(said_mm - limit_mm, step_mm)
        yield Finding(
            "rod.wide_at_wall",
            Severity.WARN if sure else Severity.NOTE,
            f"{run.name}, {item.name}",
            f"Beside the wall {item.name} {'is' if sure else 'may be'} up to {text_mm(said_mm, step_mm)} wide, "
            f"{amount.text} more than the {text_mm(limit_mm, step_mm)} that it may be.",
            _closed(item, text_mm(certain_mm, step_mm))
            if sure
            else "Measure how far each side wall lies from its mark: then it is known which of them it is.",
            "the filler's greatest width" if isinstance(item, Filler) else "the appliance's sheet, front and back",
            amount,
            (run.id, item.id),
        )


def _closed(item: ApplianceBay | Filler, shown: str) -> str:
    if isinstance(item, Filler):
        return f"Make {item.name} {shown} wide there if it may be, move the anchor, or even the wall out there."
    return "Close it with a filler, or even the wall out there."


def _bay_greatest_mm(bay: ApplianceBay, job: Job) -> float:
    greatest_mm = bay.appliance.greatest_width_mm
    return bay.width_mm + job.tolerances.bay_over_mm if greatest_mm is None else greatest_mm


def _bay_off_sheet(run: Run, bay: ApplianceBay, step_mm: float) -> Iterator[Finding]:
    least_mm, greatest_mm = bay.appliance.least_width_mm, bay.appliance.greatest_width_mm
    if least_mm is not None and bay.width_mm < least_mm - SAME_SPOT_MM:
        out_mm, words, limit_mm = least_mm - bay.width_mm, "too narrow", least_mm
    elif greatest_mm is not None and bay.width_mm > greatest_mm + SAME_SPOT_MM:
        out_mm, words, limit_mm = bay.width_mm - greatest_mm, "too wide", greatest_mm
    else:
        return
    amount = figure(out_mm, step_mm)
    yield Finding(
        "rod.bay_width",
        Severity.STOP,
        f"{run.name}, {bay.name}",
        f"{bay.name} is {text_mm(bay.width_mm, step_mm)} wide, {amount.text} {words}: the sheet of "
        f"{bay.appliance.name} says {text_mm(limit_mm, step_mm)}.",
        f"Draw the bay {text_mm(limit_mm, step_mm)} wide and let a filler take the difference.",
        "the appliance's own sheet",
        amount,
        (run.id, bay.id),
    )


def offsets(
    run: Run, spans: Mapping[str, tuple[float, float]], names: Mapping[str, str], step_mm: float
) -> tuple[list[Offset], list[Finding]]:
    """By how much each edge that is to line up does not, and what names nothing here."""
    found: list[Offset] = []
    findings: list[Finding] = []
    for line in run.line_up:
        missing = [id for id in (line.item, line.on) if id not in spans]
        if missing:
            findings.append(_lines_up_with_nothing(run, line, missing))
            continue
        off_mm = edge_mm(spans[line.item], line.item_edge) - edge_mm(spans[line.on], line.on_edge)
        words = f"{EDGE_WORDS[line.item_edge]} of {names[line.item]} to {EDGE_WORDS[line.on_edge]} of {names[line.on]}"
        offset = figure(off_mm, step_mm, "The one less the other, both from the zero; to the right is +.", signed=True)
        found.append(Offset(words, offset))
        if offset.text != "0":
            findings.append(
                Finding(
                    "rod.offset",
                    Severity.NOTE,
                    run.name,
                    f"They do not line up: {words}, {offset.text}.",
                    "Change a width or an anchor if it is to line up; else leave it so.",
                    "edges that are meant to line up",
                    offset,
                    (run.id, line.item, line.on),
                )
            )
    return found, findings


def _lines_up_with_nothing(run: Run, line: LineUp, missing: Sequence[str]) -> Finding:
    return Finding(
        "rod.line_up",
        Severity.WARN,
        run.name,
        f"Something is to line up with {listed(list(missing))}, which is not in this run.",
        "Put right at the desk what is to line up with what.",
        "edges that are meant to line up",
        concerns=(run.id, line.item, line.on),
    )


def tick_findings(
    run: Run, marks: Sequence[RodMark], ticks: Mapping[str, Entry], known: frozenset[str], step_mm: float
) -> Iterator[Finding]:
    """Of marks made on the batten: moved since, or not on the rod any more."""
    for mark in marks:
        if mark.moved is not None and mark.marked is not None:
            way = "right" if mark.moved.mm > 0 else "left"
            yield Finding(
                "rod.moved",
                Severity.WARN,
                f"{run.name}, {mark.name}",
                f"{mark.name}: {mark.marked.text} was, {mark.from_left.text} now, already marked: it has moved "
                f"{text_mm(abs(mark.moved.mm), step_mm)} to the {way}.",
                "Strike the old mark out, make the new one and tick it; leave alone what is fixed already and tell the "
                "office.",
                "a mark that was made is held against the plan",
                mark.moved,
                (run.id, *mark.items),
            )
    for id, entry in sorted(ticks.items()):
        if id not in known:
            yield Finding(
                "rod.marked_unknown",
                Severity.NOTE,
                run.name,
                f"A mark was made at {text_mm(body(entry, Marked).at_mm, step_mm)} that is not on the rod any more.",
                "Strike it out on the batten.",
                "the run was changed after it was marked",
                concerns=(run.id, entry.uid),
            )
