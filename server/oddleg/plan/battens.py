"""Computation 7: the batten of a run, packed out to the line of backs, and what is scribed off its end panels."""

from __future__ import annotations

from itertools import count

from oddleg.job import Job, Room

from .batten_findings import batten_findings
from .batten_laid import Laid, batten_laid
from .batten_packing import Packing
from .cutting_stock import cut
from .figure import Figure, figure, rounded_mm, text_mm
from .front_line import FrontLine
from .hidden_services import CAUTION
from .packing import BattenPiece, Fixing, RunBatten
from .packs import packed, packs_words
from .panel_scribe import panel_scribes
from .set_out import Rod
from .sightings import DIFFERENCE_STEP_MM, counted
from .wall import Wall

__all__ = ["batten", "panel_scribes"]

WHOLE_MM = 1.0
PACKING_WORDS = (
    "Packing is read off the wall's line between the places measured: that a fixing lies beside one does not matter."
)


def batten(
    job: Job, room: Room, wall: Wall | None, line: FrontLine, rod: Rod, datum_mm: float | None
) -> RunBatten | None:
    """The batten of a run; None where the run has no wall, names no batten, or nothing stands.

    Its face lies on the line of backs, or in the recess of the backs, so it is straight; packing = void + recess -
    batten, at each fixing in whole mm, and nowhere along it below nought. It is cut through over a bay whose appliance
    needs the depth, at doorways and windows that come down to it, and at carcass sides where it lies in the recess with
    all its thickness (with part of it, it is notched there). No fixing lies where cables or pipes are known to be
    likely; that is a caution, never a clearance.
    """
    of_run = line.run.batten
    if wall is None or of_run is None:
        return None
    laid = batten_laid(job, room, wall, line, rod, datum_mm, of_run)
    if laid is None:
        return None
    step_mm = job.rounding_mm
    fixings = _fixings(job, laid)
    along = [one for stretch in laid.stretches for one in laid.behind.along(stretch)]
    least = min(along, key=lambda one: (one.mm, one.x_mm), default=None)
    return RunBatten(
        figure(of_run.thickness_mm, step_mm, "The batten's section, as the job says."),
        figure(of_run.height_mm, step_mm, "The batten's section, as the job says."),
        _pieces(laid, step_mm),
        fixings,
        None if least is None else _packing(laid, least, DIFFERENCE_STEP_MM),
        None if least is None else figure(least.x_mm, step_mm, f"From the rod's zero: {least.on}."),
        tuple((figure(left, step_mm, why), figure(right, step_mm, why)) for (left, right), why in laid.cuts),
        f"{_stock_words(laid, step_mm)}{_zero_words(laid, step_mm)} {PACKING_WORDS}",
        CAUTION,
        tuple(batten_findings(job, laid, fixings)),
    )


def _fixings(job: Job, laid: Laid) -> tuple[Fixing, ...]:
    numbers = count(1)
    return tuple(_fixing(job, laid, next(numbers), x_mm) for places in laid.places for x_mm in places.at_mm)


def _fixing(job: Job, laid: Laid, number: int, x_mm: float) -> Fixing:
    step_mm = job.rounding_mm
    packing = laid.behind.at(x_mm)
    zone = "; ".join(one.words for one in laid.zones if one.holds(x_mm))
    if laid.batten.supports_mm:
        on, why = "stud or patress", "A stud or patress that the job names, from the rod's zero."
    else:
        on = "spacing"
        why = f"Spaced {text_mm(laid.batten.spacing_mm, step_mm)} or closer, clear of known zones, from the rod's zero."
    return Fixing(
        number,
        x_mm,
        figure(x_mm, step_mm, why),
        None if packing is None else _void(packing),
        None if packing is None else _packing(laid, packing, WHOLE_MM),
        "" if packing is None else _packs(job, packing),
        on,
        zone,
    )


def _packs(job: Job, packing: Packing) -> str:
    whole_mm = int(rounded_mm(packing.mm, WHOLE_MM))
    packers_mm = None if whole_mm < 0 else packed(whole_mm, job.packs_mm)
    return "" if packers_mm is None else packs_words(packers_mm)


def _void(one: Packing) -> Figure:
    """To 0.1, so that the packing in whole mm is seen to follow from it."""
    backs, face = (text_mm(mm, DIFFERENCE_STEP_MM) for mm in (one.back_mm, one.wall_mm))
    why = f"Line of backs at {backs} less the wall at {face} ({one.on}, batten height)."
    return figure(one.void_mm, DIFFERENCE_STEP_MM, why)


def _packing(laid: Laid, one: Packing, step_mm: float) -> Figure:
    recess = f" + back recess {text_mm(laid.forward_mm)}" if laid.forward_mm else ""
    void, thickness = text_mm(one.void_mm, DIFFERENCE_STEP_MM), text_mm(laid.batten.thickness_mm)
    nearest = ", to the nearest whole mm" if step_mm == WHOLE_MM else ""
    return figure(one.mm, step_mm, f"Void {void}{recess} - batten {thickness} ({one.on}){nearest}.")


def _pieces(laid: Laid, step_mm: float) -> tuple[BattenPiece, ...]:
    return tuple(
        BattenPiece(
            number,
            figure(left_mm, step_mm, _end_why(laid, left_mm)),
            figure(right_mm, step_mm, _end_why(laid, right_mm)),
            figure(right_mm - left_mm, step_mm, "From its left end to its right one."),
        )
        for number, (left_mm, right_mm) in enumerate(laid.pieces, 1)
    )


def _end_why(laid: Laid, x_mm: float) -> str:
    """What holds a piece where it ends: each end at a joint has a screw of its own."""
    ends = {left for left, _ in laid.pieces} & {right for _, right in laid.pieces}
    if x_mm not in ends:
        return "An end of the batten."
    if x_mm in laid.forced_mm:
        return "A joint that no fixing holds."
    if all(x_mm not in places.at_mm for places in laid.places):
        return "A joint between two fixings, one for each end."
    on = "a stud or patress" if laid.batten.supports_mm else "a fixing's place"
    return f"A joint on {on}: both ends are screwed there, each with a screw of its own."


def _zero_words(laid: Laid, step_mm: float) -> str:
    """Where the zero is marked when the batten begins to the right of it."""
    begins_mm = min((left for left, _ in laid.pieces), default=0.0)
    shown = text_mm(begins_mm, step_mm)
    if begins_mm <= 0 or shown == "0":
        return ""
    return f" It begins {shown} right of the zero: mark the zero on an offcut of batten held there at its height."


def _stock_words(laid: Laid, step_mm: float) -> str:
    """How many stock lengths give the pieces, saw cuts counted as for the room's boards."""
    if not laid.pieces:
        return "No stretch is long enough for a batten."
    stock_mm = laid.batten.stock_mm
    layout = cut([right - left for left, right in laid.pieces], stock_mm, laid.room.plinth.kerf_mm)
    lengths = counted(len(layout.boards), "length")
    proof = "fewer cannot do" if layout.proved else f"at least {layout.least} are needed"
    return f"{counted(len(laid.pieces), 'piece')} out of {lengths} of {text_mm(stock_mm, step_mm)}; {proof}."
