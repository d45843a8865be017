"""What is wrong with a batten: no room for it, nothing to fix it on, what it runs into, what its packing cannot be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import BattenIn, Carcass, Job, OpenUnit

from .batten_laid import HOLES, Laid
from .batten_packing import NOTHING_MM, Stretch, short_stretches
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .hidden_services import HIDDEN, crosses
from .packing import Fixing
from .packs import GREATEST_PACKING_MM
from .sightings import DIFFERENCE_STEP_MM, listed, named, shown_mm
from .wall_profile import Span

# What is told of cables is from memory of BS 7671, as in hidden_services.
LOCAL_CODE = "Find it first and have it made dead, by the local code and a licensed electrician (pipes: a plumber)"


def batten_findings(job: Job, laid: Laid, fixings: Sequence[Fixing]) -> Iterator[Finding]:
    """In the order in which they matter to whoever fixes it."""
    yield from _no_room(job, laid)
    yield from _unread(job, laid, fixings)
    yield from _packers(job, laid, fixings)
    yield from _far_apart(job, laid)
    yield from _in_zones(job, laid, fixings)
    yield from _openings(laid)
    yield from _levels_unknown(laid)
    yield from _joints(job, laid)
    if laid.batten.lies_in is BattenIn.RECESS and laid.forward_mm == 0:
        yield _told(
            laid,
            "batten.no_recess",
            Severity.WARN,
            "The batten is to lie in the recess behind the backs, but the back of at least one unit is not set in; it "
            "is reckoned in the void.",
            "Put it in the void, or give every unit of the run its back recess.",
            "a straight batten lies no deeper than the least recess",
        )


def _told(
    laid: Laid,
    rule: str,
    severity: Severity,
    wrong: str,
    cure: str,
    source: str,
    amount: Figure | None = None,
    concerns: Sequence[str] = (),
    caution: bool = False,
) -> Finding:
    return Finding(rule, severity, laid.run.name, wrong, cure, source, amount, (laid.run.id, *concerns), caution)


def _from_to(span: Span, step_mm: float) -> str:
    return f"from {text_mm(span[0], step_mm)} to {text_mm(span[1], step_mm)}"


def _no_room(job: Job, laid: Laid) -> Iterator[Finding]:
    along = [laid.behind.along(stretch) for stretch in laid.stretches]
    short = [one for places in along for one in short_stretches(places)]
    if not short:
        return
    step_mm, thickness_mm = job.rounding_mm, laid.batten.thickness_mm
    worst = min(short, key=lambda each: each.worst.mm).worst
    lacks_mm = -worst.mm
    whole = all(one.mm < -NOTHING_MM for places in along for one in places)
    eased = "the whole wall" if whole else f"the wall {listed([_ease(one, step_mm) for one in short])}"
    cures = [f"Ease {eased} at batten height", f"bring the line of backs out by {shown_mm(lacks_mm)}"]
    if thickness_mm > lacks_mm:
        cures.append(f"take a batten of {shown_mm(thickness_mm - lacks_mm)} or less")
    recesses = [one.item.box.back_recess_mm for one in laid.placed if isinstance(one.item, Carcass | OpenUnit)]
    if laid.batten.lies_in is BattenIn.VOID and min(recesses, default=0.0) >= lacks_mm:
        cures.append(f"set it in the back recess of {text_mm(min(recesses), step_mm)}, cut out at carcass sides")
    where = "all along" if whole else named([_from_to((one.left_mm, one.right_mm), step_mm) for one in short])
    yield _told(
        laid,
        "batten.no_room",
        Severity.STOP,
        f"The batten cannot seat {where}: at {text_mm(worst.x_mm, step_mm)} from the zero ({worst.on}) packing would "
        f"be {text_mm(worst.mm, DIFFERENCE_STEP_MM)}.",
        f"{'; or '.join(cures)}.",
        "packing is void and recess less the batten, and nowhere along it less than nought",
        figure(worst.mm, DIFFERENCE_STEP_MM, signed=True),
    )


def _ease(one: Stretch, step_mm: float) -> str:
    span = _from_to((one.left_mm, one.right_mm), step_mm)
    return f"{span} by up to {shown_mm(-one.worst.mm)}, most at {text_mm(one.worst.x_mm, step_mm)}"


def _unread(job: Job, laid: Laid, fixings: Sequence[Fixing]) -> Iterator[Finding]:
    unread = [str(one.number) for one in fixings if one.packing is None]
    if not unread:
        return
    everywhere = len(unread) == len(fixings)
    yield _told(
        laid,
        "batten.unread",
        Severity.NOTE if everywhere else Severity.WARN,
        "The wall is not read at batten height, so no packing is known."
        if everywhere
        else f"The wall is not read at batten height near fixing {named(unread)}, so no packing is known there.",
        "Read the wall at batten height at each fixing and at both ends.",
        "packing follows from the wall behind the fixing",
    )
    over_mm = laid.batten.thickness_mm - laid.forward_mm - laid.run.void_mm
    if everywhere and over_mm > 0:
        step_mm = job.rounding_mm
        thick, void = text_mm(laid.batten.thickness_mm, step_mm), text_mm(laid.run.void_mm, step_mm)
        recess = f" with the back recess {text_mm(laid.forward_mm, step_mm)}" if laid.forward_mm else ""
        yield _told(
            laid,
            "batten.thicker_than_void",
            Severity.WARN,
            f"The batten is {thick} thick and the void {void}{recess}: where the wall is nearest it has no room, "
            "whatever is read.",
            f"Take a thinner batten, or a void of {text_mm(laid.run.void_mm + over_mm, step_mm)} or more.",
            "the void is the least that is kept to the wall",
            figure(over_mm, DIFFERENCE_STEP_MM, "Batten less void and recess."),
        )


def _packers(job: Job, laid: Laid, fixings: Sequence[Fixing]) -> Iterator[Finding]:
    wanting = [one for one in fixings if one.packing is not None and one.packing.mm > -0.5 and not one.packs]
    if wanting:
        said = [f"{one.packing.text} at fixing {one.number}" for one in wanting if one.packing]
        at_hand = listed([f"{one:g}" for one in sorted(job.packs_mm)]) or "no packers"
        yield _told(
            laid,
            "batten.packers",
            Severity.WARN,
            f"Packers of {at_hand} do not make {named(said)}.",
            f"Cut a piece to it; beyond {GREATEST_PACKING_MM} fur the wall out with timber.",
            "the packers that the job says are at hand",
        )


def _far_apart(job: Job, laid: Laid) -> Iterator[Finding]:
    open_spans = [span for places in laid.places for span in places.open]
    if not open_spans:
        return
    what = "no stud or patress for a fixing" if laid.batten.supports_mm else "no place for a fixing"
    widest_mm = max(right - left for left, right in open_spans)
    yield _told(
        laid,
        "batten.far_apart",
        Severity.WARN,
        f"There is {what} {named([_from_to(one, job.rounding_mm) for one in open_spans])} that is free of known zones; "
        f"fixings should be {text_mm(laid.batten.spacing_mm, job.rounding_mm)} or closer, and half that to an end.",
        "Fix a patress there, or hold the batten another way.",
        "the job's spacing of fixings",
        figure(widest_mm, job.rounding_mm),
    )


def _in_zones(job: Job, laid: Laid, fixings: Sequence[Fixing]) -> Iterator[Finding]:
    for zone in (one for one in laid.zones if one.whole):
        yield _told(
            laid,
            "batten.in_a_zone",
            Severity.WARN,
            f"The batten lies {zone.words}, along the whole wall as far as is known.",
            f"{LOCAL_CODE}; or hold the batten at another height.",
            "BS 7671, group 522.6; other cables and pipes may run anywhere",
            concerns=zone.concerns,
            caution=True,
        )
    caught = [one for one in fixings if any(zone.holds(one.x_mm) for zone in laid.zones if not zone.whole)]
    for one in caught:
        yield _told(
            laid,
            "batten.in_a_zone",
            Severity.WARN,
            f"Fixing {one.number} has no place on its stretch of batten outside a zone: {one.zone}.",
            f"{LOCAL_CODE}; or leave this fixing out and hold the batten another way.",
            "BS 7671, group 522.6; other cables and pipes may run anywhere",
            caution=True,
        )
    if laid.passed_mm:
        said = [text_mm(x_mm, job.rounding_mm) for x_mm in laid.passed_mm]
        yield _told(
            laid,
            "batten.support_in_a_zone",
            Severity.NOTE,
            f"No fixing goes on the stud or patress at {named(said)}: cables or pipes may run there.",
            f"{LOCAL_CODE} before anything is fixed there.",
            "BS 7671, group 522.6; other cables and pipes may run anywhere",
            caution=True,
        )


def _openings(laid: Laid) -> Iterator[Finding]:
    for hole in laid.holes:
        yield _told(
            laid,
            "batten.opening",
            Severity.WARN,
            f"{hole.name} is in the way of the batten, which is cut out there.",
            "Look whether the run is meant to pass it; hold what stands there another way.",
            "a batten needs a wall behind it",
            concerns=(hole.id,),
        )


def _levels_unknown(laid: Laid) -> Iterator[Finding]:
    unknown = [
        one
        for one in laid.wall.features
        if laid.band[1] is not None
        and crosses(one, *laid.band) is None
        and (one.kind in HIDDEN or (one.stands_out_mm > 0 and one.kind not in HOLES))
    ]
    if unknown:
        hides = any(one.kind in HIDDEN for one in unknown)
        yield _told(
            laid,
            "batten.levels_unknown",
            Severity.NOTE,
            f"How high {listed([one.name for one in unknown])} lies is not known: whether the batten comes to it, and "
            "what may run sideways from it, cannot be told.",
            "Measure its bottom and top from the datum line.",
            "BS 7671, group 522.6: cables run sideways from an accessory too" if hides else "",
            concerns=[one.id for one in unknown],
            caution=hides,
        )


def _joints(job: Job, laid: Laid) -> Iterator[Finding]:
    if laid.forced_mm:
        said = [text_mm(x_mm, job.rounding_mm) for x_mm in laid.forced_mm]
        yield _told(
            laid,
            "batten.joint_unheld",
            Severity.WARN,
            f"The batten has a joint at {named(said)} that no fixing holds: fixings there lie further apart than a "
            f"length of {text_mm(laid.batten.stock_mm, job.rounding_mm)}.",
            "Fix a patress at the joint, or take longer lengths.",
            "joints of a batten lie on fixings",
        )
