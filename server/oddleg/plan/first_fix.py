"""Services as they are wanted, from wall and finished floor, for the trades before plaster."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from oddleg.job import ComesFrom, EndsAt, Job, Service, ServiceKind, UpFrom

from .figure import Figure, figure, text_mm
from .finished_floor import Floor
from .heights import SAME_MM
from .room_services import Wanted
from .service_places import Spot, spot_of
from .setting_out import RunSetOut

KIND_WORDS = {
    ServiceKind.SOCKET: "socket",
    ServiceKind.SWITCH: "switch",
    ServiceKind.CABLE: "cable",
    ServiceKind.WASTE: "waste",
    ServiceKind.COLD: "cold water",
    ServiceKind.HOT: "hot water",
    ServiceKind.GAS: "gas",
    ServiceKind.DUCT: "duct",
}


FOUND_WORDS = "; there already, see where it landed"


def first_fix(
    job: Job,
    run: RunSetOut,
    floor: Floor,
    datum_mm: float | None,
    names: Mapping[str, str],
    found: Collection[str] = (),
) -> Iterator[Wanted]:
    """Every service of the run that is wanted, from left to right. `names`: of items and appliances; `found`: ids of
    services that somebody found there since, which is said beside them.

    Its height is over the finished floor as it will be, not over what is there today.
    """
    asked = [one for one in run.run.services if not one.found]
    for one in sorted(asked, key=lambda each: (each.x_mm, each.id)):
        spot = spot_of(run, floor, datum_mm, one)
        x_mm = (spot.left_mm + spot.right_mm) / 2
        from_left, words = _from_left(job, run, x_mm)
        yield Wanted(
            run.run.id,
            one,
            x_mm,
            from_left,
            words,
            _over_floor(job, spot),
            _below_datum(job, run, spot),
            _words(job, one, names) + (FOUND_WORDS if one.id in found else ""),
        )


def _from_left(job: Job, run: RunSetOut, x_mm: float) -> tuple[Figure, str]:
    """Its middle from the wall at the left, where there is one; else from the run's zero."""
    step_mm, left_mm = job.rounding_mm, run.rod.left_mm
    end = run.run.left_end
    if end.at is EndsAt.WALL:
        beyond_mm = run.rod.beyond_mm[0]
        why = f"Its middle, {text_mm(x_mm - left_mm, step_mm)} right of the zero mark"
        if beyond_mm > SAME_MM:
            why += f", which lies {text_mm(beyond_mm, step_mm)} off the wall"
        return figure(x_mm - left_mm + beyond_mm, step_mm, f"{why}."), "from the finished wall at the left"
    words = {
        EndsAt.OTHER_BACKS: "from the zero mark of the run, on the line of backs of the run that it meets",
        EndsAt.OTHER_FRONTS: "from the zero mark of the run, at the carcass fronts of the run that it meets",
    }.get(end.at, "from the zero mark of the run, at its left end")
    return figure(x_mm - left_mm, step_mm, "Its middle, right of the run's zero mark."), words


def _over_floor(job: Job, spot: Spot) -> Figure | None:
    service, step_mm = spot.service, job.rounding_mm
    if service.comes_from is ComesFrom.FLOOR:
        return None
    if service.up_from is UpFrom.FLOOR:
        if service.up_mm is None:
            return None
        return figure(service.up_mm, step_mm, "Its middle over the finished floor, as the job asks for it.")
    if spot.level is None or spot.floor_mm is None:
        return None
    middle_mm = (spot.level[0] + spot.level[1]) / 2
    why = (
        f"Its middle at {text_mm(middle_mm, step_mm, signed=True)} over the bench mark less the finished floor there, "
        f"{text_mm(spot.floor_mm, step_mm, signed=True)}."
    )
    return figure(middle_mm - spot.floor_mm, step_mm, why)


def _below_datum(job: Job, run: RunSetOut, spot: Spot) -> Figure | None:
    if spot.over is None or spot.service.comes_from is ComesFrom.FLOOR:
        return None
    middle_mm = (spot.over[0] + spot.over[1]) / 2
    return figure(run.run.datum_offset_mm - middle_mm, job.rounding_mm, "Its middle, down from the run's datum line.")


def _words(job: Job, one: Service, names: Mapping[str, str]) -> str:
    step_mm = job.rounding_mm
    size = text_mm(one.width_mm, step_mm)
    size = f"{size} across" if one.round else f"{size} × {text_mm(one.height_mm, step_mm)}"
    said = [KIND_WORDS[one.kind], size]
    if one.comes_from is ComesFrom.FLOOR:
        out = "not known yet how far" if one.y_mm is None else text_mm(one.y_mm, step_mm)
        said.append(f"out of the floor, {out} out of the wall")
    if one.stands_out_mm:
        of = "floor" if one.comes_from is ComesFrom.FLOOR else "finished wall"
        said.append(f"may stand {text_mm(one.stands_out_mm, step_mm)} out of the {of}")
    if one.serves is not None:
        said.append(f"for {names.get(one.serves, one.serves)}")
    return ", ".join(said)
