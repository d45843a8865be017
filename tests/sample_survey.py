"""A survey for tests: a log of set-ups and readings, and its levels. Positions count up, as entries come in."""

from dataclasses import replace

import sample_room

from oddleg.job import BenchMark, Entry, Reading, SetUp, Stage, Tolerances, Way
from oddleg.plan.levels import adjusted_levels

TOLERANCES = Tolerances()
NAIL = (BenchMark("nail", "nail"),)


class Log:
    def __init__(self):
        self.entries = []

    def _add(self, body, replaces=None):
        position = len(self.entries) + 1
        self.entries.append(Entry(f"e{position:04}", position, "Ned", "2026-11-23T08:40:00Z", body, replaces))
        return self.entries[-1].uid

    def set_up(self, id, stage=Stage.STRIPPED, **more):
        self._add(SetUp(id, id, "room", stage, **more))
        return self

    def read(self, set_up, way=Way.DOWN, **values_mm):
        """One reading for each keyword: station to value, in the order given."""
        return [self.read_at(set_up, station, value, way) for station, value in values_mm.items()]

    def read_at(self, set_up, station, value_mm, way=Way.DOWN, replaces=None):
        return self._add(Reading(set_up, station, way, float(value_mm), station, None, None), replaces)

    def without(self, *uids):
        kept = Log()
        kept.entries = [entry for entry in self.entries if entry.uid not in uids]
        return kept


def levels_of(log, marks=NAIL, places=None, lasers=None, entries=None, **tolerances):
    room = sample_room.room(bench_marks=marks)
    job = sample_room.job(room, tolerances=replace(TOLERANCES, **tolerances))
    if lasers is not None:
        job = replace(job, lasers=lasers)
    return adjusted_levels(job, room, log.entries if entries is None else entries, places or {}, {})


def level_mm(levels, station, stage=Stage.STRIPPED):
    found = levels.at(station, stage)
    return None if found is None else found.level_mm


def rules(levels, severity=None):
    return [one.rule for one in levels.findings if severity is None or one.severity == severity]


def finding(levels, rule):
    (found,) = [one for one in levels.findings if one.rule == rule]
    return found
