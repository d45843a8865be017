"""Rooms for tests of services: one run of units 720 high, 560 deep, of 18 board, on a level floor. The datum is 875 over
the bench mark, so their undersides lie at 155."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import sample_room as sample

from oddleg.job import (
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    Box,
    Carcass,
    CutOutRule,
    Passage,
    Service,
    ServiceKind,
    Storey,
    UpFrom,
)
from oddleg.plan.finished_floor import Floor
from oddleg.plan.services import room_services
from oddleg.plan.setting_out import setting_out
from oddleg.plan.site import Site
from oddleg.plan.surfaces import Spot, Surface

DATUM, VOID, FLOOR = 875.0, 20.0, -14.0
# As found, and no bigger than it is: no clearance, so that figures are those of the service.
BARE = CutOutRule(clearance_mm=0.0, corner_radius_mm=10.0, apart_mm=30.0, least_edge_mm=30.0)


def unit(id="sink", width_mm=600.0, **more):
    return sample.carcass(id, width_mm, **{"box": Box(board_mm=18.0, back_mm=8.0), **more})


def wall_unit(id, width_mm=600.0, **more):
    return unit(id, width_mm, **{"storey": Storey.WALL, "legs": None, "depth_mm": 330.0, **more})


def bay(id="bay", built_in=False, depth_mm=550.0, **machine):
    sheet = Appliance(f"{id}-machine", "dishwasher", ApplianceSeat.UNDER_TOP, 820.0, least_depth_mm=depth_mm, built_in=built_in, **machine)
    return ApplianceBay(id, id, 600.0, 560.0, sheet)


def socket(id="socket", x_mm=300.0, up_mm=450.0, width_mm=90.0, height_mm=90.0, kind=ServiceKind.SOCKET, up_from=UpFrom.BENCH_MARK, **more):
    return Service(id, id, kind, x_mm, up_mm, width_mm, height_mm, up_from, **more)


def pipe(id="pipe", across_mm=40.0, **more):
    return socket(id, width_mm=across_mm, height_mm=across_mm, round=True, **{"kind": ServiceKind.WASTE, **more})


def passage(from_item, to_item, id="hole", diameter_mm=60.0, from_back_mm=80.0, below_top_mm=300.0, kind=ServiceKind.WASTE):
    return Passage(id, id, kind, from_item, to_item, diameter_mm, from_back_mm, below_top_mm)


def level_floor(job, level_mm=FLOOR, bays=()):
    if level_mm is None:
        nothing = Surface([], np.zeros((0, 0)), [], [], job.tolerances)
        return Floor(nothing, nothing, nothing, {}, ())
    spots = [Spot(f"s{i}", f"s{i}", x, y, level_mm) for i, (x, y) in enumerate(((0.0, 0.0), (5000.0, 0.0), (0.0, 3000.0), (5000.0, 3000.0)))]
    one = Surface(spots, np.zeros((4, 4)), [], [], job.tolerances)
    return Floor(one, one, one, dict.fromkeys(bays, one), ())


def run(*items, void_mm=VOID, **more):
    return sample.run(*items, void_mm=void_mm, **more)


def services(*runs, datum_mm=DATUM, floor_mm=FLOOR, here=Site(), rule=BARE, **more):  # noqa: B008
    """What follows for the services of a room with these runs."""
    room = sample.room(*runs)
    job = sample.job(room, cut_outs=rule, **more)
    bays = [item.id for one in runs for item in one.items if isinstance(item, ApplianceBay)]
    return room_services(job, room, here, setting_out(job, room, here, datum_mm), level_floor(job, floor_mm, bays), datum_mm)


def one_unit(*points, **more):
    """The services of a run with one unit of 600."""
    return services(run(unit(), services=points), **more)


def rules(found):
    return [one.rule for one in found.findings]


def finding(found, rule):
    return next(one for one in found.findings if one.rule == rule)


def with_(item: Carcass, **more):
    return replace(item, **more)
