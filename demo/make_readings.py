"""Writes demo/hall-entries.json: the invented survey of demo/hall.json, as one phone would hand it over.

The floor is made up: it falls 14 mm from the window's left end to the far corner, with a hollow by the counter. Two
set-ups share three stations and both close on the bench mark; one station was booked 100 out and read again; one was
repeated. Once the datum stands, the walls are read at the stations that the plan proposes, units that came are measured,
the first marks made on the batten, services found behind the sink base and the first holes drilled. Run it again after the job, a station list or the payload changes: `python demo/make_readings.py`.
"""

import hashlib
import json
import random
from datetime import UTC, datetime, timedelta
from pathlib import Path

from hall_found import drill, find_services
from hall_walls import measure_corner_and_opening, measure_units, measure_window, read_walls

from oddleg.charts import charts
from oddleg.documents import load_job, parsed_entry
from oddleg.plan import plan
from oddleg.plan.parts import parts
from oddleg.plan.stations import proposed_stations

HERE = Path(__file__).parent
WRITER = "0192f0aa-0000-7000-8000-00000000demo".replace("demo", "de30")
START = datetime(2026, 11, 23, 8, 40, tzinfo=UTC)
PLANES_MM = {"set-up-one": 1204.3, "set-up-two": 1187.6}


def floor_mm(x_mm, y_mm):
    """The invented floor: level over the bench mark."""
    fall = 14.0 * (0.75 * x_mm / 5400 + 0.25 * y_mm / 2900)
    hollow = 2.5 * max(0.0, 1 - ((x_mm - 2300) ** 2 + (y_mm - 2300) ** 2) / 900**2)
    return -0.8 - fall - hollow


class Survey:
    def __init__(self, job):
        self.job, self.entries, self.now = job, [], START
        self.chance = random.Random(14)

    def add(self, kind, target, data, raw=None, value=None, unit=None, replaces=None, mark=None, expected=None):
        self.now += timedelta(seconds=self.chance.randint(18, 55))
        utc = self.now.isoformat(timespec="milliseconds").replace("+00:00", "Z")
        payload = json.dumps(
            {
                "schema": 1,
                "job": self.job.id,
                "kind": kind,
                "target": target,
                "at": {"utc": utc, "offset_minutes": 0, "server_offset_ms": None, "measured_at": None},
                "raw": raw,
                "unit": unit,
                "value": value,
                "shown": {"expected": expected, "part_mark": mark},
                "replaces": replaces,
                "data": data,
            },
            ensure_ascii=False,
        )
        seq = len(self.entries) + 1
        stamp = int(self.now.timestamp() * 1000)
        uid = f"{stamp >> 16:08x}-{stamp & 0xFFFF:04x}-7{seq:03x}-8000-{self.chance.getrandbits(48):012x}"
        sha = hashlib.sha256(payload.encode()).hexdigest()
        self.entries.append({"uid": uid, "seq": seq, "sha": sha, "payload": payload})
        return uid

    def set_up(self, id, name, x_mm, y_mm):
        data = {"name": name, "room": "kitchen", "stage": "stripped", "laser": "green-laser", "instrument": "rule"}
        return self.add("set_up", id, {**data, "x_mm": x_mm, "y_mm": y_mm, "line": None})

    def two_peg(self, axis, middle_a, middle_b, end_a, end_b):
        """Pegs 20 m apart down the hall; the second pair from 1 m beyond peg B."""

        def typed(value, unit):
            return {"raw": f"{value:g}", "unit": unit, "value": f"{value * (1000 if unit == 'm' else 1):g}"}

        data = {"axis": axis, "middle_a": typed(middle_a, "mm"), "middle_b": typed(middle_b, "mm")}
        data |= {
            "end_a": typed(end_a, "mm"),
            "end_b": typed(end_b, "mm"),
            "end_to_a": typed(21, "m"),
            "end_to_b": typed(1, "m"),
        }
        return self.add("two_peg", "green-laser", {**data, "resolution_mm": 0.5})

    def read(self, set_up, spot, level_mm, way="down", slip_mm=0.0, replaces=None):
        """One reading to the half millimetre, with the noise of a careful hand."""
        sign = 1 if way == "down" else -1
        true = sign * (PLANES_MM[set_up] - level_mm)
        value = round((true + self.chance.gauss(0, 0.4)) * 2) / 2 + slip_mm
        text = f"{value:g}"
        data = {"set_up": set_up, "way": way, "side": None, "name": spot.name, "x_mm": spot.x_mm, "y_mm": spot.y_mm}
        return self.add("reading", spot.id, data, raw=text.replace(".", ","), value=text, unit="mm", replaces=replaces)


def read_floor(survey, set_up, station, **more):
    return survey.read(set_up, station, floor_mm(station.x_mm, station.y_mm), **more)


def surveyed(job):
    room = job.rooms[0]
    survey, mark = Survey(job), room.bench_marks[0]
    stations = proposed_stations(job, room, room.stations)
    ceilings = [one for one in room.stations if one.surface == "overhead"]
    for axis, end_b in (("along", 1203.0), ("across", 1202.0)):
        survey.two_peg(axis, 1198.5, 1201.0, 1200.0, end_b)
    survey.set_up("set-up-one", "set-up one", 2700.0, 1500.0)
    survey.read("set-up-one", mark, 0.0)
    for i, station in enumerate(stations):
        if i == 5:
            slip = read_floor(survey, "set-up-one", station, slip_mm=100.0)
            read_floor(survey, "set-up-one", station, replaces=slip)
        else:
            read_floor(survey, "set-up-one", station)
        if i == 8:
            read_floor(survey, "set-up-one", station)
    for one in ceilings:
        survey.read("set-up-one", one, 2391.0 + one.y_mm / 500, way="up")
    survey.read("set-up-one", mark, 0.0)
    survey.set_up("set-up-two", "set-up two", 3900.0, 2900.0)
    survey.read("set-up-two", mark, 0.0)
    for i in (1, 8, len(stations) - 3):
        read_floor(survey, "set-up-two", stations[i])
    survey.read("set-up-two", mark, 0.0)
    return survey


def planned(job, survey):
    entries = [parsed_entry(one, position, "Ned") for position, one in enumerate(survey.entries, 1)]
    return plan(job, entries, charts())


def tick(survey, run, count):
    """The first marks of a run's rod, made on the batten where its part says."""
    part = parts(planned(survey.job, survey), revision=1)[f"run/{run}"]
    marks = sorted((one for one in part["rod"]["marks"] if one["order"]), key=lambda one: one["order"])
    for one in marks[:count]:
        text = one["from_left"]["text"]
        survey.add("marked", run, {"mark": one["id"]}, text, text, "mm", mark=part["mark"])


def main():
    job = load_job(json.loads((HERE / "hall.json").read_text(encoding="utf-8")))
    survey = surveyed(job)
    between = [one for one in planned(job, survey).rooms[0].station_list.stations if one.pass_number == 2]
    for one in between:
        read_floor(survey, "set-up-two", one.station)
    survey.read("set-up-two", job.rooms[0].bench_marks[0], 0.0)
    now = planned(job, survey)
    datum = next(one for one in now.rooms[0].datum.choices if one.name == "uncut_at_high_spot")
    shown = parts(now, revision=1)["datum/kitchen"]["mark"]
    number = datum.asked.text
    survey.add("decision", "kitchen", {"name": "datum", "choice": datum.name}, number, number, "mm", mark=shown)
    read_walls(survey, {one.run.id: one.wall for one in planned(job, survey).rooms[0].setting_out.runs if one.wall})
    measure_corner_and_opening(survey)
    measure_window(survey)
    measure_units(survey)
    tick(survey, "window-run", 4)
    find_services(survey, job.rooms[0].runs[0])
    # Of the four-drawer base one side is drilled, the other begun.
    part = parts(planned(job, survey), revision=1)["panels/drawers-one"]
    drill(survey, part, "left_side", 12)
    drill(survey, part, "right_side", 5)
    book = {"writer": WRITER, "app": "demo", "saved_seq": len(survey.entries), "entries": survey.entries}
    (HERE / "hall-entries.json").write_text(json.dumps(book, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    print(f"{len(survey.entries)} entries, {len(between)} of them in between; datum {number}")


if __name__ == "__main__":
    main()
