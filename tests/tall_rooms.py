"""Rods and levels for the tests of tall and wall units: rods as the job has them, ceilings given by their level."""

import numpy as np
from datum_rooms import floor_of, job_of, surface

from oddleg.job import Stage, Station
from oddleg.plan.levels import Levels, StationLevel
from oddleg.plan.rod import placed_items
from oddleg.plan.set_out import Rod
from oddleg.plan.tall_units import tall_wall

LEVEL = floor_of(surface(lambda x, y: 0.0))


def rods_of(room, **ends_mm):
    """Each run as the job has it; `ends_mm`: run id to (zero, end mark), else its standing or hanging items' ends."""
    rods = []
    for run in room.runs:
        placed = placed_items(run)
        left_mm, right_mm = ends_mm.get(run.id, (0.0, max((one.right_mm for one in placed), default=0.0)))
        rods.append(Rod(run, left_mm, right_mm, None, "", 0.0, "", placed, (), (), None, (), (), ()))
    return tuple(rods)


def overhead(id, x_mm, y_mm, name=None):
    return Station(id, name or id, x_mm, y_mm, surface="overhead")


def levels_of(give_mm=0.9, **levels_mm):
    found = tuple(
        StationLevel(id, Stage.AS_FOUND, level_mm, give_mm, ("r1",), ("setup",)) for id, level_mm in levels_mm.items()
    )
    return Levels(found, (), (), np.zeros((len(found),) * 2), None, 0.5, False, (), ())


def made(room, datum_mm=875.0, floor=LEVEL, stations=(), levels=None, ends_mm=None, **job):
    rods = rods_of(room, **(ends_mm or {}))
    return tall_wall(job_of(room, **job), room, rods, floor, stations, levels or levels_of(), datum_mm)
