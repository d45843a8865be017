"""demo/start, in a copy of this checkout: once, again while it runs, with the port taken, and fresh."""

import json
import os
import shutil
import socket
import subprocess
import sys
import urllib.request
from contextlib import contextmanager
from pathlib import Path

import pytest

import bootstrap

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="module")
def checkout(tmp_path_factory):
    """A copy with what tests/run has made here, so that the demo has nothing left to make."""
    made = (ROOT / ".oddleg/phone-app", ROOT / "pwa/dist/sw.js")
    assert all(path.is_file() for path in made), "the phone app is not made: tests/run makes it"
    # Else the demo of the copy would install the copy into the environment that it shares with this checkout.
    assert bootstrap.environment_is_made(), "the environment is older than its locks: tests/run makes it again"
    # Else the copy would install itself into the environment of this checkout, in its place.
    current = [
        bootstrap.stamp(bootstrap.VENV / f"made-{kind}") == bootstrap.hash_of([lock, ROOT / "pyproject.toml"])
        for kind, lock in bootstrap.LOCKS.items()
    ]
    assert any(current), "pyproject.toml or a lock has changed: tests/run makes the environment again"
    copy = tmp_path_factory.mktemp("checkout")
    leave_out = shutil.ignore_patterns("node_modules", "data", "data-*", "out", "__pycache__", ".*_cache")
    for name in ("server", "pwa", "demo", ".oddleg"):
        shutil.copytree(ROOT / name, copy / name, ignore=leave_out)
    for name in ("pyproject.toml", "README.md"):
        shutil.copy(ROOT / name, copy / name)
    (copy / ".venv").symlink_to(ROOT / ".venv", target_is_directory=True)
    return copy


def free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


def start(checkout, port, *more):
    command = [sys.executable, str(checkout / "demo/start"), *more]
    environment = {**os.environ, "ODDLEG_PORT": str(port)}
    # What it says on the way goes to stderr; stdout has the one line that a caller waits for.
    return subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


@contextmanager
def serving(checkout, port, *more):
    """The link of a demo that is being served; stopped by TERM afterwards."""
    with start(checkout, port, *more) as demo:
        line = demo.stdout.readline()
        assert line.startswith("ready http://localhost:"), demo.stderr.read()
        try:
            yield line.split()[1]
        finally:
            demo.terminate()
            rest, said = demo.communicate(timeout=600)
    assert demo.returncode == 0, said
    assert rest == ""
    assert "Traceback" not in said


def port_of(link):
    return int(link.split(":")[2].split("/")[0])


def about(link):
    with urllib.request.urlopen(link.partition("#")[0] + "api/v1", timeout=30) as answer:
        return json.load(answer)


def test_the_demo_loads_prints_serves_and_starts_again(checkout):
    port = free_port()
    with serving(checkout, port) as link:
        assert port_of(link) == port
        assert "/#/join/" in link
        assert about(link)["marker"] == "oddleg/1"
        sheets = sorted((checkout / "demo/out").glob("*.pdf"))
        assert len(sheets) >= 3
        assert all(sheet.read_bytes().startswith(b"%PDF-") for sheet in sheets)

        with start(checkout, port) as second:
            out, said = second.communicate(timeout=600)
        assert second.returncode == 0, said
        assert port_of(out.split()[1]) == port
        assert out.split()[1] != link
        assert out.count("\n") == 1

        with start(checkout, port, "--fresh") as third:
            _, said = third.communicate(timeout=600)
        assert third.returncode == 1
        assert "stop it first" in said

    loaded = (checkout / "demo/data/demo-loaded").stat().st_mtime_ns
    with socket.create_server(("127.0.0.1", port)), serving(checkout, port) as link:
        assert port_of(link) != port
        assert about(link)["marker"] == "oddleg/1"
    assert (checkout / "demo/data/demo-loaded").stat().st_mtime_ns == loaded

    with serving(checkout, port, "--fresh"):
        assert (checkout / "demo/data/demo-loaded").stat().st_mtime_ns != loaded
    aside = list((checkout / "demo").glob("data-*"))
    assert len(aside) == 1
    assert (aside[0] / "oddleg.sqlite3").is_file()
