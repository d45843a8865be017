"""Shelves on their pins, and hanging brackets on what they hang behind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from oddleg.job import BackIs, Bracket, Job, Pin, Shelf

from .boards import shelf_foot_mm, shelf_id
from .carcass_box import CarcassBox
from .figure import figure, text_mm
from .finding import Finding, Severity
from .fitted_out import Panel
from .hardware import Hardware
from .hole_distances import SAME_MM
from .shelf_holes import pin_rows_mm


def shelf_findings(job: Job, box: CarcassBox, known: Hardware, panels: Sequence[Panel]) -> Iterator[Finding]:
    thick_mm = {one.id: one.thickness_mm for one in panels}
    for space in box.spaces:
        lying = sorted(
            (
                (shelf_foot_mm(box, known, shelf), shelf_foot_mm(box, known, shelf) + thick_mm[id], shelf)
                for shelf in space.compartment.shelves
                if (id := shelf_id(space, shelf.id)) in thick_mm
            ),
            key=lambda one: one[:2],
        )
        for foot_mm, top_mm, shelf in lying:
            yield from _on_pins(job, box, known, shelf)
            out_mm = max(box.floor_mm - foot_mm, top_mm - box.roof_mm)
            if out_mm > SAME_MM:
                yield _shelf_finding(
                    job,
                    box,
                    shelf,
                    "panel.shelf_outside",
                    f"{shelf.name} does not lie within the inside of the carcass.",
                    "Give it a height between bottom and top.",
                    out_mm,
                )
        for one, other in pairwise(lying):
            if one[1] - other[0] > SAME_MM:
                yield _shelf_finding(
                    job,
                    box,
                    other[2],
                    "panel.shelves_meet",
                    f"{other[2].name} lies in {one[2].name}{_moved(job, box, known, other[2])}.",
                    "Move one of them.",
                    one[1] - other[0],
                )


def _moved(job: Job, box: CarcassBox, known: Hardware, shelf: Shelf) -> str:
    by_mm = shelf_foot_mm(box, known, shelf) - box.floor_mm - shelf.up_mm
    if abs(by_mm) <= SAME_MM:
        return ""
    way = "up" if by_mm > 0 else "down"
    return f", once it is moved {way} by {text_mm(abs(by_mm), job.holes.shop_mm)} to the nearest hole of the grid"


def _on_pins(job: Job, box: CarcassBox, known: Hardware, shelf: Shelf) -> Iterator[Finding]:
    pin = None if shelf.fixed else known.row(Pin, shelf.pins)
    if pin is None:
        return
    rows_mm = pin_rows_mm(box, pin, job.holes)
    if len(rows_mm) == 1:
        yield _shelf_finding(
            job,
            box,
            shelf,
            "hole.no_rear_row",
            f"{shelf.name}: no second row of pins goes in behind the front one, at "
            f"{text_mm(pin.pitch_mm, job.holes.shop_mm)} or a multiple of it.",
            "Fix the shelf, or choose another pin.",
            None,
        )
    before_mm = shelf.set_back_mm - (pin.row_mm - pin.hole_mm / 2)
    if before_mm > SAME_MM:
        yield _shelf_finding(
            job,
            box,
            shelf,
            "hole.pin_before_shelf",
            f"{shelf.name} is set back by {text_mm(shelf.set_back_mm, job.holes.shop_mm)}, so the front row of pins at "
            f"{text_mm(pin.row_mm, job.holes.shop_mm)} is not under it.",
            "Set it back by less, or choose a pin whose front row lies further back.",
            before_mm,
        )


def _shelf_finding(
    job: Job, box: CarcassBox, shelf: Shelf, rule: str, wrong: str, cure: str, by_mm: float | None
) -> Finding:
    return Finding(
        rule,
        Severity.STOP,
        box.item.name,
        wrong,
        cure,
        "the shelf and its pin's chart",
        None if by_mm is None else figure(by_mm, job.holes.shop_mm),
        (box.item.id, shelf.id),
    )


def bracket_findings(job: Job, box: CarcassBox, known: Hardware) -> Iterator[Finding]:
    fitted, made = box.item.fitting_out, box.item.box
    bracket = known.row(Bracket, fitted.bracket if fitted is not None else None)
    if bracket is None:
        return
    recess_mm = 0.0 if made.back is BackIs.ON else made.back_recess_mm
    short_mm = bracket.least_recess_mm - recess_mm
    if short_mm > SAME_MM:
        step_mm = job.holes.shop_mm
        yield Finding(
            "hole.bracket_recess",
            Severity.STOP,
            box.item.name,
            f"Its back is set in by {text_mm(recess_mm, step_mm)}; {bracket.name} needs "
            f"{text_mm(bracket.least_recess_mm, step_mm)} for the rail behind it.",
            "Set the back in further, or choose another bracket.",
            "the bracket's chart",
            figure(short_mm, step_mm),
            (box.item.id,),
        )
