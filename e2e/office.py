"""The real server over a data folder of its own, and what the office does with it."""

from __future__ import annotations

import contextlib
import json
import os
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

PROGRAM = Path(sys.executable).with_name("oddleg")
STOPS_WITHIN_S = 30
WAITS_S = 30


def free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


@contextlib.contextmanager
def opened(folder, pwa=None):
    """An office that has started for the first time, over a new folder; `pwa`: another built phone app than ours."""
    office = Office(folder, pwa)
    try:
        office.open()
        yield office
    finally:
        office.stop()


class Refused(Exception):
    """The server said no: status, and what it said."""

    def __init__(self, status, text):
        super().__init__(f"{status}: {text}")
        self.status = status


class Office:
    """`token` signs the office's own requests; `people` are ids by name. The port stays the same over a restart."""

    def __init__(self, folder, pwa=None):
        self.folder = folder
        self.port = free_port()
        self.origin = f"http://localhost:{self.port}"
        self.environment = {**os.environ, "ODDLEG_DATA": str(folder)}
        for name in ("ODDLEG_DATABASE", "ODDLEG_ORIGIN", "ODDLEG_PORT"):
            self.environment.pop(name, None)
        if pwa:
            self.environment["ODDLEG_PWA"] = str(pwa)
        self.log = folder.with_suffix(".log")
        self.process = None
        self.token = None
        self.people = {}

    def start(self):
        """Returns the address that the server printed when it was ready."""
        with open(self.log, "ab") as log:
            self.process = subprocess.Popen(
                [PROGRAM, "serve", "--port", str(self.port)],
                env=self.environment,
                stdout=subprocess.PIPE,
                stderr=log,
                text=True,
            )
        line = self.process.stdout.readline().strip()
        if not line.startswith("ready "):
            self.process.wait(STOPS_WITHIN_S)
            raise AssertionError(f"the server did not start, exit {self.process.returncode}: {line}\n{self.said()}")
        return line.removeprefix("ready ")

    def stop(self, how=signal.SIGTERM):
        """Ends the server; one that has died by itself is a failure, shown with what it said."""
        if self.process is None:
            return
        if self.process.poll() is not None:
            code, self.process = self.process.returncode, None
            raise AssertionError(f"the server died by itself, exit {code}:\n{self.said()}")
        self.process.send_signal(how)
        self.process.wait(STOPS_WITHIN_S)
        self.process.stdout.close()
        self.process = None

    def said(self):
        return self.log.read_text(encoding="utf-8", errors="replace")

    def program(self, *command):
        """What a command of the program prints, over the same data."""
        done = subprocess.run(
            [PROGRAM, *map(str, command)], env=self.environment, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr
        return done.stdout.strip()

    def ask(self, path, method="GET", body=None, **headers):
        """The JSON that the API answered to the office. Raises Refused."""
        request = urllib.request.Request(f"{self.origin}/api/v1{path}", method=method, headers=headers)
        if self.token:
            request.add_header("Authorization", f"Bearer {self.token}")
            request.add_header("Oddleg-Writer", "office-in-tests")
        if body is not None:
            request.add_header("Content-Type", "application/json")
            request.data = json.dumps(body).encode()
        try:
            with urllib.request.urlopen(request, timeout=60) as answer:
                content = answer.read()
        except urllib.error.HTTPError as error:
            raise Refused(error.code, error.read().decode()) from None
        return json.loads(content) if content else None

    def open(self):
        """Starts for the first time: the office signs in by the link that was printed."""
        link = self.start()
        self.token = self.ask("/claims", "POST", {"code": link.rpartition("/")[2], "device": "office desk"})["token"]
        self.people = {one["name"]: one["id"] for one in self.ask("/people")["people"]}

    def add_job(self, document, fitter):
        """Brings a job in and puts a new fitter on it."""
        self.ask("/jobs", "POST", document)
        self.people[fitter] = self.ask("/people", "POST", {"name": fitter, "role": "fitter"})["id"]
        self.ask(f"/jobs/{document['id']}/assignments/{self.people[fitter]}", "PUT")

    def change_job(self, document):
        """Puts a job that is here in place of its last revision."""
        (revision,) = (one["revision"] for one in self.ask("/jobs")["jobs"] if one["id"] == document["id"])
        self.ask(f"/jobs/{document['id']}", "PUT", document, **{"If-Match": f'"{revision}"'})

    def part(self, job, name):
        """A part of the job's plan, as a phone gets it."""
        parts = self.ask(f"/jobs/{job}/pack")["parts"]
        (sha,) = (one["sha"] for one in parts if one["name"] == name)
        return self.ask(f"/jobs/{job}/pack/{sha}")

    def code(self, name):
        return self.ask(f"/people/{self.people[name]}/codes", "POST", {})["code"]

    def wait_for_entries(self, job, count):
        """Until the job's log has that many."""
        until = time.monotonic() + WAITS_S
        while len(self.entries(job)) < count:
            assert time.monotonic() < until, f"{len(self.entries(job))} of {count} entries came within {WAITS_S} s"
            time.sleep(0.05)

    def entries(self, job):
        """Payloads of the job's log, in order."""
        rows = self.ask(f"/jobs/{job}/entries?after=0.{'0' * 64}&limit=1000")["rows"]
        return [json.loads(row["payload"]) for row in rows]
