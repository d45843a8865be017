"""Prints what the program costs: first run, size of the phone app, start without a signal, plan, push. No pass marks.

    python tests/bench/figures.py [--first-run]

Run it with the python of .venv after tests/run has made what it needs. --first-run also times demo/start in a new clone,
which installs every package anew (pip's own cache helps it, where there is one). Every figure is of this machine in this
hour: the first line says what else it had to do.
"""

from __future__ import annotations

import argparse
import gzip
import hashlib
import json
import math
import os
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import uuid
from itertools import pairwise
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "server"), str(ROOT / "tests"), str(ROOT / "e2e")]

import demo_hall
import numpy as np
import phone as phones
import sample_room as sample
from office import Office, free_port
from playwright.sync_api import sync_playwright
from scipy.optimize import linprog

from oddleg.charts import charts
from oddleg.job import (
    Anchor,
    AnchorOn,
    DatumDecision,
    EndsAt,
    Entry,
    Filler,
    OpeningDepth,
    OpeningWidth,
    Reading,
    RunEnd,
    SetUp,
    Stage,
    WallHeight,
    WallLine,
    WallReading,
    Way,
)
from oddleg.plan import plan
from oddleg.plan.minimax import WallHull, best_slope
from oddleg.plan.parts import parts
from oddleg.plan.setting_out import setting_out
from oddleg.plan.site import of_room, site

TIMES = 5
UNITS = (10, 100, 1000)
READINGS = (10, 40, 200)
WALLS = 50
PUSHED = 1000
SLOWER = 4
# The name that the office of e2e gives itself as a writer.
WRITER = "office-in-tests"
QUIET = ["--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run"]


def tell(label, text):
    print(f"{label:<46} {text}", flush=True)


def timed(work):
    started = time.perf_counter()
    done = work()
    return time.perf_counter() - started, done


def median_s(work, times=TIMES):
    return statistics.median(timed(work)[0] for _ in range(times))


def machine():
    load = f", load {os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else ""
    tell("machine", f"{os.cpu_count()} cores{load}, Python {sys.version.split()[0]}")


def first_run():
    """demo/start in a new clone of the last commit, up to its `ready` line."""
    with tempfile.TemporaryDirectory() as folder:
        clone = Path(folder) / "clone"
        subprocess.run(["git", "clone", "--quiet", str(ROOT), str(clone)], check=True)
        environment = {**os.environ, "ODDLEG_PORT": str(free_port())}
        started = time.perf_counter()
        with subprocess.Popen(
            [getattr(sys, "_base_executable", sys.executable), str(clone / "demo/start")],
            env=environment, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
        ) as demo:  # fmt: skip
            line = demo.stdout.readline()
            took_s = time.perf_counter() - started
            demo.terminate()
        if not line.startswith("ready "):
            raise SystemExit(f"demo/start did not come up in a new clone, exit {demo.returncode}")
        tell("first run of demo/start, new clone", f"{took_s:.0f} s")


def phone_app():
    """What a phone fetches once: every file of the built app, gzipped one by one."""
    dist = ROOT / "pwa" / "dist"
    sizes = {
        path.relative_to(dist).as_posix(): len(gzip.compress(path.read_bytes()))
        for path in dist.rglob("*") if path.is_file()
    }  # fmt: skip
    if not sizes:
        raise SystemExit("pwa/dist is empty: tests/run node builds it")
    own = {name: sizes.get(name, 0) for name in ("app.js", "app.css", "sw.js")}
    told = ", ".join(f"{name} {size / 1000:.1f}" for name, size in own.items())
    rest = sum(sizes.values()) - sum(own.values())
    tell("phone app, gz", f"{sum(sizes.values()) / 1000:.1f} kB: {told}, letters, icons and page {rest / 1000:.1f}")


def plans():
    demo_hall.job(), demo_hall.entries()
    took_s = median_s(lambda: parts(plan(demo_hall.job(), demo_hall.entries(), charts()), 1))
    tell("plan of the demo, with its parts", f"{took_s * 1000:.0f} ms")
    whole, alone = {}, {}
    for units in UNITS:
        job, log = surveyed(units)
        room, here = job.rooms[0], of_room(site(job, log), job.rooms[0])
        times = 3 if units < UNITS[-1] else 1
        whole[units] = median_s(lambda job=job, log=log: parts(plan(job, log, charts()), 1), times)
        tell(f"plan of a run of {units} units, every station read", f"{whole[units] * 1000:.0f} ms")
        alone[units] = median_s(lambda job=job, room=room, here=here: setting_out(job, room, here, 860.0), times)
        tell("of that, setting the run out", f"{alone[units] * 1000:.0f} ms")
    for what, took in (("plan", whole), ("setting out", alone)):
        for (few, short_s), (many, long_s) in pairwise(took.items()):
            power = math.log(long_s / short_s) / math.log(many / few)
            tell(f"{what}, growth from {few} to {many} units", f"as units to the power {power:.1f}")


def front_lines():
    """The exact line beside a linear programme, on the same walls in the same run: both find the same waste."""
    for readings in READINGS:
        chance = random.Random(readings)
        walls = [
            [(chance.uniform(0, 6000), chance.gauss(0, 5)) for _ in range(readings)] for _ in range(WALLS)
        ]  # fmt: skip
        line_s, wasted = timed(lambda walls=walls: [least_waste_mm(points) for points in walls])
        programme_s, found = timed(lambda walls=walls: [least_waste_by_programme_mm(points) for points in walls])
        apart_mm = max(abs(one - other) for one, other in zip(wasted, found, strict=True))
        tell(
            f"front line before {readings} readings",
            f"{line_s / WALLS * 1000:.2f} ms; linprog {programme_s / WALLS * 1000:.2f} ms; apart {apart_mm:.0e} mm",
        )


def least_waste_mm(points):
    hull = WallHull(points)
    return hull.waste_mm(best_slope([(hull, 0.0)]))


def least_waste_by_programme_mm(points):
    """Back, slope per metre and waste: the line is at every x at least the wall and at most that much more."""
    x_m, y_mm = (np.array(values) for values in zip(*((x / 1000, y) for x, y in points), strict=True))
    one = np.ones(len(points))
    keeps = np.column_stack([-one, -x_m, 0 * one])
    wastes = np.column_stack([one, x_m, -one])
    limits = np.concatenate([-y_mm, y_mm])
    return linprog([0, 0, 1], A_ub=np.vstack([keeps, wastes]), b_ub=limits, bounds=[(None, None)] * 3).fun


def surveyed(units):
    """A run of so many units between two walls, on a floor that falls 1 mm a metre, every proposed station of floor and
    wall read, its opening measured at three heights, a datum chosen."""
    left, right = (Filler(f"filler-{side}", f"filler {side}", 50.0, 20.0, 100.0) for side in ("left", "right"))
    items = (left, *(sample.carcass(f"unit-{number}") for number in range(units)), right)
    ends = {"left_end": RunEnd(EndsAt.WALL), "right_end": RunEnd(EndsAt.WALL), "opening_mm": 600.0 * units + 100.0}
    run = sample.run(*items, **ends, anchor=Anchor(AnchorOn.MIDDLE))
    room = sample.room(run)
    job = sample.job(room)
    chance = random.Random(units)
    mark = room.bench_marks[0]
    close = Reading("one", mark.id, Way.DOWN, 1200.0, mark.name, None, None)
    bodies = [SetUp("one", "one", room.id, Stage.STRIPPED, "laser", "rule", 1000.0, 2000.0), close]
    before = plan(job, (), charts()).rooms[0]
    bodies.append(WallLine("line", "line", run.id, stands_off_mm=100.0))
    for at in before.setting_out.runs[0].wall.stations:
        for height in at.heights:
            bodies.append(WallReading("line", at.id, height, 100 + chance.randint(-8, 8) / 2, at.name, at.x_mm))
    for more_mm, height in enumerate((WallHeight.FLOOR, WallHeight.BATTEN, WallHeight.WORKTOP)):
        bodies.append(OpeningWidth(run.id, height, OpeningDepth.FRONT, run.opening_mm + more_mm))
    for one in before.station_list.stations:
        at = one.station
        value_mm = round(2 * (1210 + at.x_mm / 1000 + chance.uniform(-1, 1))) / 2
        bodies.append(Reading("one", at.id, Way.DOWN, value_mm, at.name, at.x_mm, at.y_mm))
    bodies += [close, DatumDecision(room.id, "wanted_height", 860.0, "aaaaaa")]
    return job, [Entry(f"e{i}", i, "Ned", "2026-11-23T08:40:00Z", body) for i, body in enumerate(bodies, 1)]


def pushes(office, job):
    """One batch over HTTP to a server of its own, notes on the job; a plan is made later, by whoever asks."""
    took_s = []
    for first in range(PUSHED, 4 * PUSHED, PUSHED):
        batch = {"writer": WRITER, "app": "figures", "saved_seq": first + PUSHED, "entries": [
            entry(job, seq) for seq in range(first, first + PUSHED)
        ]}  # fmt: skip
        one_s, answer = timed(lambda batch=batch: office.ask("/entries", "POST", batch))
        stored = sum(one["status"] == "stored" for one in answer["results"])
        if stored != PUSHED:
            raise SystemExit(f"only {stored} of {PUSHED} entries were stored")
        took_s.append(one_s)
    tell(f"push of {PUSHED} entries in one batch", f"{statistics.median(took_s) * 1000:.0f} ms")


def entry(job, seq):
    at = {"utc": "2026-03-02T08:00:00.000Z", "offset_minutes": 0, "server_offset_ms": None, "measured_at": None}
    payload = json.dumps({
        "schema": 1, "job": job, "kind": "note", "target": job, "at": at, "raw": None, "unit": None, "value": None,
        "shown": {"expected": None, "part_mark": None}, "replaces": None, "data": {"text": f"note {seq}"},
    })  # fmt: skip
    return {
        "uid": str(uuid.uuid4()),
        "seq": seq,
        "sha": hashlib.sha256(payload.encode()).hexdigest(),
        "payload": payload,
    }


SHOWN = """
new MutationObserver(() => {
  const head = document.querySelector("h1");
  const top = document.documentElement;
  if (!top.dataset.shownMs && head && head.textContent !== "Oddleg") top.dataset.shownMs = performance.now();
}).observe(document, { childList: true, subtree: true, characterData: true });
"""


def starts(office, job, title):
    """From the address to the first screen with content, without a signal, at phone size."""
    path = shutil.which(os.environ.get("ODDLEG_CHROMIUM", "chromium"))
    if not path:
        raise SystemExit("there is no Chromium: tests/run installs one, or name one in ODDLEG_CHROMIUM")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, chromium_sandbox=False, args=QUIET)
        context = browser.new_context(**phones.PHONE, **phones.COMMON)
        phone = phones.Phone(context, office.origin, job)
        phone.sign_in(office.code("Ned"))
        phone.wait_for_pack(title)
        phone.offline()
        plain_ms = median_start_ms(context, f"{office.origin}/#/job/{job}")
        slow_ms = median_start_ms(context, f"{office.origin}/#/job/{job}", SLOWER)
        browser.close()
    tell("start without a signal, to the first screen", f"{plain_ms:.0f} ms")
    tell(f"the same, processor {SLOWER} times slower", f"{slow_ms:.0f} ms, {slow_ms / plain_ms:.1f} times as long")


def median_start_ms(context, address, slower=1):
    found = []
    for _ in range(TIMES):
        page = context.new_page()
        page.add_init_script(SHOWN)
        context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
        page.goto(address)
        # Read off an attribute: the page's own policy lets nobody evaluate text in it while waiting.
        shown = page.locator("html[data-shown-ms]")
        shown.wait_for(state="attached")
        found.append(float(shown.get_attribute("data-shown-ms")))
        page.close()
    return statistics.median(found)


def main():
    asked = argparse.ArgumentParser(description="Print what the program costs. No pass marks.")
    asked.add_argument("--first-run", action="store_true", help="also time demo/start in a new clone (minutes)")
    long = asked.parse_args().first_run
    machine()
    phone_app()
    plans()
    front_lines()
    with tempfile.TemporaryDirectory() as folder:
        office = Office(Path(folder) / "data")
        try:
            office.open()
            document = json.loads((demo_hall.DEMO / "hall.json").read_text(encoding="utf-8"))
            office.add_job(document, "Ned")
            book = json.loads((demo_hall.DEMO / "hall-entries.json").read_text(encoding="utf-8"))
            office.ask("/entries", "POST", {**book, "writer": WRITER})
            starts(office, document["id"], document["title"])
            pushes(office, document["id"])
        finally:
            office.stop()
    if long:
        first_run()


if __name__ == "__main__":
    main()
