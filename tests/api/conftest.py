"""A server over a real SQLite file, with its clock and randomness in the test's hands; and phones that talk to it."""

import hashlib
import json
import random
from datetime import UTC, datetime, timedelta

import pytest

from oddleg.app import create_app
from oddleg.config import Config
from oddleg.store import access

START = "0" * 64


class Clock:
    def __init__(self):
        self.at = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)

    def __call__(self):
        return self.at

    def goes_on(self, **by):
        self.at += timedelta(**by)


class Site:
    """The server, started as often as the test likes over the same folder."""

    def __init__(self, folder, **settings):
        self.folder, self.settings, self.clock = folder, settings, Clock()
        self.chance = random.Random(7)
        self.start()

    def start(self):
        config = Config(self.folder, **self.settings)
        self.app = create_app(config, now=self.clock, random=self.chance.randbytes)
        self.http = self.app.test_client()

    def office(self):
        with self.app.app_context():
            return access.add_person("Maud Office", "office", self.clock(), self.chance.randbytes).id

    def code(self, person):
        with self.app.app_context():
            return access.add_code(person, self.clock(), self.chance.randbytes, 60).code

    def phone(self, person, device="phone"):
        answer = self.http.post("/api/v1/claims", json={"code": self.code(person), "device": device})
        assert answer.status_code == 201, answer.text
        return Phone(self, answer.json)


class Phone:
    def __init__(self, site, claimed, writer="w-1"):
        self.site, self.claimed, self.writer, self.seq = site, claimed, writer, 0
        self.pairing = claimed["pairing"]
        self.chance = random.Random(claimed["pairing"])

    @property
    def headers(self):
        return {"Authorization": f"Bearer {self.claimed['token']}", "Oddleg-Writer": self.writer}

    def ask(self, method, path, headers=None, **more):
        return self.site.http.open(f"/api/v1{path}", method=method, headers={**self.headers, **(headers or {})}, **more)

    def entry(self, payload, uid=None, seq=None):
        """An entry as the phone's outbox holds it."""
        if seq is None:
            self.seq += 1
            seq = self.seq
        text = payload if isinstance(payload, str) else json.dumps(payload)
        sha = hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
        return {"uid": uid or new_uid(self.chance), "seq": seq, "sha": sha, "payload": text}

    def push(self, *entries, saved_seq=None, **more):
        saved = max([self.seq, *(one["seq"] for one in entries)]) if saved_seq is None else saved_seq
        body = {"writer": self.writer, "app": "test", "saved_seq": saved, "entries": list(entries)}
        return self.ask("POST", "/entries", json=body, **more)

    def statuses(self, *entries, **more):
        answer = self.push(*entries, **more)
        assert answer.status_code == 200, answer.text
        assert [one["sha"] for one in answer.json["results"]] == [one["sha"] for one in entries]
        return [one["status"] for one in answer.json["results"]]

    def pull(self, job="hall", after=None, limit=None):
        query = {name: value for name, value in (("after", after), ("limit", limit)) if value is not None}
        return self.ask("GET", f"/jobs/{job}/entries", query_string=query)

    def log(self, job="hall"):
        return self.pull(job).json["rows"]


def new_uid(chance):
    bits = f"{chance.getrandbits(128):032x}"
    return f"{bits[:8]}-{bits[8:12]}-7{bits[13:16]}-8{bits[17:20]}-{bits[20:]}"


def link(chain, uid, sha):
    return hashlib.sha256((chain + uid + sha).encode()).hexdigest()


def note(text="shed key is under the pot", job="hall", target=None, **more):
    return {
        "schema": 1, "job": job, "kind": "note", "target": target or job,
        "at": {"utc": "2026-03-02T08:00:00.000Z", "offset_minutes": 0, "server_offset_ms": None, "measured_at": None},
        "raw": None, "unit": None, "value": None, "shown": {"expected": None, "part_mark": None},
        "replaces": None, "data": {"text": text}, **more,
    }  # fmt: skip


def set_up(id="set-up-1", room="kitchen", **more):
    data = {
        "name": "middle", "room": room, "stage": "stripped", "laser": "laser", "instrument": None,
        "x_mm": 1200, "y_mm": 1200, "line": None,
    }  # fmt: skip
    return note(**{**more, "target": id}) | {"kind": "set_up", "data": data}


def reading(station="mark", value="1204.5", replaces=None, job="hall"):
    data = {
        "set_up": "set-up-1", "way": "down", "side": None, "name": "mark", "x_mm": 0, "y_mm": 0,
    }  # fmt: skip
    typed = {"kind": "reading", "raw": value, "unit": "mm", "value": value, "data": data, "replaces": replaces}
    return note(job=job, target=station) | typed


def hall(**more):
    """A small job, every name in it invented."""
    unit = {
        "made_as": "carcass", "id": "unit-1", "name": "sink base", "width_mm": 800, "height_mm": 720, "depth_mm": 560,
        "legs": {"least_mm": 100, "greatest_mm": 180},
    }  # fmt: skip
    second = {**unit, "id": "unit-2", "name": "drawers", "width_mm": 600}
    corners = [(0, 0), (3000, 0), (3000, 2400), (0, 2400), (0, 0)]
    walls = [
        {"id": f"wall-{i}", "name": f"wall {i}", "points": [{"x_mm": x, "y_mm": y} for x, y in corners[i : i + 2]]}
        for i in range(4)
    ]
    room = {
        "id": "kitchen", "name": "Kitchen", "corner": "left of the window", "walls": walls,
        "worktop": {"thickness_mm": 30}, "bench_marks": [{"id": "mark", "name": "cross on the sill"}],
        "runs": [
            {"id": "run", "name": "Window run", "x_mm": 0, "y_mm": 0, "bearing_deg": 0, "wall": "wall-0",
             "items": [unit, second]}
        ],
    }  # fmt: skip
    return {
        "format": 1, "id": "hall", "title": "Hall kitchen", "place": "Upper Wend", "client": "Hall committee",
        "time_zone": "Europe/London", "base_carcass_height_mm": 720,
        "lasers": [{"id": "laser", "name": "line laser"}], "instruments": [], "rooms": [room], **more,
    }  # fmt: skip


@pytest.fixture
def site(tmp_path):
    return Site(tmp_path / "data")


@pytest.fixture
def desk(site):
    """The office's own device, with the job brought in."""
    desk = site.phone(site.office(), "desk")
    answer = desk.ask("POST", "/jobs", json=hall())
    assert answer.status_code == 201, answer.text
    return desk


@pytest.fixture
def fitter(site, desk):
    person = desk.ask("POST", "/people", json={"name": "Col Fitter", "role": "fitter"}).json["id"]
    assert desk.ask("PUT", f"/jobs/hall/assignments/{person}").status_code == 204
    phone = site.phone(person)
    phone.person = person
    return phone


@pytest.fixture
def made():
    """Makers of what the wire carries."""

    class Made:
        pass

    for one in (hall, note, set_up, reading, link, new_uid, Site):
        setattr(Made, one.__name__, staticmethod(one))
    Made.START = START
    return Made
