"""Computation 11: where each service of a room lands, what is cut out for it, how it is asked for before plaster."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from oddleg.job import ApplianceBay, Carcass, ComesFrom, Job, OpenUnit, Room, ServiceKind

from .back_cuts import Need, back_cut, cut_findings, cut_outs
from .behind_bays import bay_words, behind_bay_findings
from .below_top import hanging, hanging_inside, unread_findings
from .carcass_box import carcass_box
from .figure import Figure, figure, text_mm
from .finding import Finding
from .finished_floor import Floor
from .first_fix import first_fix
from .heights import SAME_MM, underside_below_datum_mm
from .passages import passage_findings, passage_hole, passages_inside
from .room_services import BackCut, Inside, Landing, RoomServices
from .service_cautions import caution_findings, caution_texts
from .service_features import live_services
from .service_findings import landing_findings
from .service_legs import leg_space_findings
from .service_places import (
    Behind,
    Spot,
    Stood,
    behind_of,
    feature_spots,
    spot_of,
    stood_items,
    void_mm,
)
from .setting_out import RunSetOut, SettingOut
from .sightings import listed
from .site import Site
from .vents import vents

LEVEL = "over the bench mark."


def room_services(
    job: Job, room: Room, here: Site, out: SettingOut, floor: Floor, datum_mm: float | None
) -> RoomServices:
    """The services of a room, each as it is found, else as it is wanted. `datum_mm`: as decided; without it only what
    is given from the datum line has its place behind a unit. What is not known, or does not go, is a finding."""
    parts = [_run_services(job, room, here, out, run, floor, datum_mm) for run in out.runs]
    live = [landing.service for part in parts for landing in part.landings]
    return RoomServices(
        landings=tuple(one for part in parts for one in part.landings),
        cuts=tuple(one for part in parts for one in part.cuts),
        passages=tuple(one for part in parts for one in part.passages),
        hanging=tuple(one for part in parts for one in part.hanging),
        wanted=tuple(one for part in parts for one in part.wanted),
        vents=tuple(one for part in parts for one in part.vents),
        cautions=caution_texts(live),
        findings=(*(one for part in parts for one in part.findings), *caution_findings(room, live)),
        inside=tuple(one for part in parts for one in part.inside),
    )


@dataclass(frozen=True)
class _Placed:
    """A service with the items that it lands behind, and whether each of their backs is cut out for it."""

    spot: Spot
    behind: tuple[Behind, ...]
    cut: tuple[bool, ...]


def _run_services(
    job: Job, room: Room, here: Site, out: SettingOut, run: RunSetOut, floor: Floor, datum_mm: float | None
) -> RoomServices:
    pairs = live_services(run.run, here)
    spots = [spot_of(run, floor, datum_mm, one, wanted) for one, wanted in pairs]
    stood = stood_items(job, room, out.placed, run, floor, datum_mm)
    known = [_placed(run, spot, stood) for spot in spots]
    walls = [_placed(run, spot, stood) for spot in feature_spots(run, floor, datum_mm, [one for one, _ in pairs])]
    cuts, findings = _cuts(job, [*known, *walls])
    made = {(cut.item, service): cut.cut.id for cut in cuts for service in cut.cut.services}
    landings = []
    for one in known:
        landings.append(_landing(job, run, one, made))
        findings += landing_findings(job, room, run, one.spot, one.behind, one.cut, made, landings[-1])
        for behind in one.behind:
            findings += leg_space_findings(job, run, behind)
            if isinstance(behind.stood.placed.item, ApplianceBay) and one.spot.service.comes_from is ComesFrom.WALL:
                findings += behind_bay_findings(job, run, floor, behind)
    below, routes = [], []
    for placed in run.rod.placed:
        below += [(placed, each) for each in hanging(job, room, placed)]
        findings += unread_findings(placed)
        for route, told in vents(job, run, placed, [one for one, _ in pairs]):
            routes.append(route)
            findings += told
    inside = [each for one in (*known, *walls) for each in _inside(run, one)]
    inside += [each for placed, one in below if (each := hanging_inside(placed, one)) is not None]
    for passage in run.run.passages:
        inside += passages_inside(job, run.rod, passage)
        findings += passage_findings(job, run.rod, passage)
    return RoomServices(
        tuple(landings),
        tuple(cuts),
        tuple(passage_hole(run.rod, one) for one in run.run.passages),
        tuple(one for _, one in below),
        tuple(first_fix(job, run, floor, datum_mm, _names(room), {one.id for one, _ in pairs if one.found})),
        tuple(routes),
        findings=tuple(findings),
        inside=tuple(inside),
    )


def _names(room: Room) -> dict[str, str]:
    names = {}
    for item in (item for run in room.runs for item in run.items):
        names[item.id] = item.name
        sheets = item.appliances if isinstance(item, Carcass) else ()
        names |= {one.id: one.name for one in sheets}
        if isinstance(item, ApplianceBay):
            names[item.appliance.id] = item.appliance.name
    return names


def _placed(run: RunSetOut, spot: Spot, stood: Sequence[Stood]) -> _Placed:
    behind = behind_of(spot, stood)
    return _Placed(spot, behind, tuple(_wants_cut(run, one) for one in behind))


def _wants_cut(run: RunSetOut, one: Behind) -> bool:
    """Whether the back before it is cut out: it stands out further than is free behind the back, must stay within
    reach, is a cable, which has to come through, or serves what it lies behind."""
    item, spot = one.stood.placed.item, one.spot
    if not isinstance(item, Carcass | OpenUnit) or spot.service.comes_from is ComesFrom.FLOOR:
        return False
    if spot.over is None or one.under:
        return False
    if spot.service.stands_out_mm > free_behind_back_mm(run, one) + SAME_MM:
        return True
    if spot.feature:
        return False
    sheets = item.appliances if isinstance(item, Carcass) else ()
    serves = spot.service.serves in (item.id, *(sheet.id for sheet in sheets))
    return spot.service.reach or spot.service.kind is ServiceKind.CABLE or serves


def free_behind_back_mm(run: RunSetOut, one: Behind) -> float:
    """Free depth between the wall and the back panel of a carcass there: the void and the back's own recess."""
    placed = one.stood.placed
    recess_mm = 0.0
    if isinstance(placed.item, Carcass | OpenUnit):
        box = carcass_box(placed.item)
        recess_mm = max(box.depth_mm - box.inside_depth_mm - placed.item.box.back_mm, 0.0)
    return void_mm(run, placed, one.spot.left_mm, one.spot.right_mm) + recess_mm


def _cuts(job: Job, placed: Sequence[_Placed]) -> tuple[list[BackCut], list[Finding]]:
    needs: dict[str, tuple[Stood, list[Need]]] = {}
    for one in placed:
        for behind, cut in zip(one.behind, one.cut, strict=True):
            if cut:
                stood = behind.stood
                needs.setdefault(stood.placed.item.id, (stood, []))[1].append(_need(behind))
    cuts: list[BackCut] = []
    findings: list[Finding] = []
    for stood, wanted in needs.values():
        item = stood.placed.item
        assert isinstance(item, Carcass | OpenUnit)
        box = carcass_box(item)
        below_mm = stood.placed.run.datum_offset_mm - stood.low_mm
        for opening in cut_outs(job.cut_outs, box, wanted):
            cuts.append(back_cut(job, box, opening, below_mm))
            findings += cut_findings(job, box, opening)
    return cuts, findings


def _need(behind: Behind) -> Need:
    spot, stood = behind.spot, behind.stood
    from_mm = stood.placed.body_mm[0]
    assert spot.over is not None
    return Need(
        spot.service.id,
        spot.service.name,
        spot.left_mm - from_mm,
        spot.right_mm - from_mm,
        spot.over[0] - stood.low_mm,
        spot.over[1] - stood.low_mm,
        spot.service.round,
    )


def _inside(run: RunSetOut, one: _Placed) -> Iterator[Inside]:
    """What stands out into the carcasses, past their rear edges."""
    spot = one.spot
    for behind in one.behind:
        item = behind.stood.placed.item
        if not isinstance(item, Carcass | OpenUnit) or spot.over is None:
            continue
        need = _need(behind)
        if spot.service.comes_from is ComesFrom.FLOOR:
            if spot.out_y_mm is None or spot.over[1] <= behind.stood.low_mm:
                continue
            half_mm = spot.service.height_mm / 2
            from_mm, to_mm = item.depth_mm - spot.out_y_mm - half_mm, item.depth_mm - spot.out_y_mm + half_mm
        else:
            proud_mm = spot.service.stands_out_mm - void_mm(run, behind.stood.placed, spot.left_mm, spot.right_mm)
            if proud_mm <= SAME_MM:
                continue
            from_mm, to_mm = item.depth_mm - proud_mm, item.depth_mm
        yield Inside(
            item.id,
            spot.service.id,
            spot.service.name,
            need.left_mm,
            need.right_mm,
            need.low_mm,
            need.high_mm,
            from_mm,
            to_mm,
            spot.service,
        )


def _landing(job: Job, run: RunSetOut, one: _Placed, made: dict[tuple[str, str], str]) -> Landing:
    spot, step_mm = one.spot, job.rounding_mm
    service = spot.service
    sure = bool(one.behind) and (spot.over is not None or len(one.behind) == 1 or service.comes_from is ComesFrom.FLOOR)
    main = one.behind[0] if sure else None
    also = tuple(each.stood.placed.item.id for each in one.behind if each is not main) if main or one.behind else ()
    cut = None if main is None else made.get((main.stood.placed.item.id, service.id))
    middle = None
    if spot.over is not None and service.comes_from is ComesFrom.WALL:
        middle = run.run.datum_offset_mm - (spot.over[0] + spot.over[1]) / 2
    below: Figure | None = None
    if middle is not None:
        below = figure(middle, step_mm, "Its middle, down from the run's datum line.")
    reached, words = _reached(job, run, one, main, cut)
    where = "As found" if service.found else "As wanted"
    return Landing(
        run.run.id,
        service,
        spot.left_mm,
        spot.right_mm,
        None if spot.level is None else spot.level[0],
        None if spot.level is None else spot.level[1],
        figure(spot.left_mm - run.rod.left_mm, step_mm, f"{where}: its left edge, from the run's zero mark."),
        figure(spot.right_mm - run.rod.left_mm, step_mm, f"{where}: its right edge, from the run's zero mark."),
        figure(service.x_mm, step_mm, f"{where}: its middle, from the zero mark that its wall was read from."),
        below,
        None if main is None else main.stood.placed.item.id,
        cut,
        reached,
        words + _moved_words(job, spot),
        also,
        None if spot.level is None else figure(spot.level[0], step_mm, f"{where}: its lower edge, {LEVEL}", True),
        None if spot.level is None else figure(spot.level[1], step_mm, f"{where}: its upper edge, {LEVEL}", True),
    )


def _moved_words(job: Job, spot: Spot) -> str:
    """How far it was found from where it was wanted, along the wall."""
    if spot.wanted is None:
        return ""
    by_mm = spot.service.x_mm - spot.wanted.x_mm
    if abs(by_mm) <= job.tolerances.tape_mm:
        return ""
    return f"; found {text_mm(abs(by_mm), job.rounding_mm)} {'right' if by_mm > 0 else 'left'} of where it was wanted"


def _reached(job: Job, run: RunSetOut, one: _Placed, main: Behind | None, cut: str | None) -> tuple[str | None, str]:
    """How it is reached once all is fitted, and where it lies, in words."""
    service, step_mm = one.spot.service, job.rounding_mm
    if main is None and one.behind:
        names = " or ".join(each.stood.placed.item.name for each in one.behind)
        return None, f"behind {names}: its height is not known yet"
    if main is None:
        place = "floor" if service.comes_from is ComesFrom.FLOOR else "wall"
        return f"on the open {place}", f"on the open {place}"
    item = main.stood.placed.item
    if service.comes_from is ComesFrom.FLOOR:
        return _from_floor(job, one.spot, main)
    if isinstance(item, ApplianceBay):
        words = bay_words(job, run, main)
        return (None if item.appliance.built_in else f"with the {item.appliance.name} pulled out"), words
    if not isinstance(item, Carcass | OpenUnit):
        return None, f"behind {item.name}"
    if one.spot.over is None:
        return None, f"behind {item.name} if it is low enough: its height is not known yet"
    if main.under:
        return "with the plinth off", f"in the leg space under {item.name}"
    others = [each.stood.placed.item.name for each in one.behind if each is not main]
    across = f", and across the joint behind {listed(others)}" if others else ""
    if cut is not None:
        return f"from inside {item.name}, through the cut-out in its back", f"behind {item.name}{across}"
    free_mm = free_behind_back_mm(run, main)
    free = f"stands {text_mm(service.stands_out_mm, step_mm)} out, {text_mm(free_mm, step_mm)} are free behind its back"
    return None, f"behind {item.name}{across}, covered: {free}"


def _from_floor(job: Job, spot: Spot, main: Behind) -> tuple[str | None, str]:
    placed, step_mm = main.stood.placed, job.rounding_mm
    name, depth_mm = placed.item.name, placed.depth_mm
    if isinstance(placed.item, ApplianceBay):
        machine = placed.item.appliance
        return (None if machine.built_in else f"with the {machine.name} pulled out"), f"out of the floor in {name}"
    if spot.out_y_mm is None or depth_mm is None:
        return None, f"out of the floor under {name}; how far out of the wall is not known yet"
    if spot.out_y_mm <= 0:
        return None, f"out of the floor in the void behind {name}"
    below_mm = underside_below_datum_mm(job, placed)
    if below_mm is None:
        return None, f"out of the floor under {name}"
    if spot.over is None:
        return "with the plinth off", f"out of the floor under {name}; how high over its bottom is not known yet"
    if spot.over[1] <= -below_mm + SAME_MM:
        return "with the plinth off", f"out of the floor under {name}"
    up = text_mm(spot.over[1] + below_mm, step_mm)
    return f"from inside {name}", f"out of the floor, up through the bottom of {name}, {up} over its underside"
