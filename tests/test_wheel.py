"""The wheel: built from here, installed in a new environment with no Node on PATH, it serves all that phones keep."""

import json
import os
import re
import socket
import subprocess
import sys
import sysconfig
import urllib.request
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


def ran(command, **more):
    done = subprocess.run([str(part) for part in command], capture_output=True, text=True, check=False, **more)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    assert (ROOT / "pwa/dist/sw.js").is_file(), "the phone app is not built: tests/run builds it"
    folder = tmp_path_factory.mktemp("wheel")
    ran([sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", folder], cwd=ROOT)
    return next(folder.glob("*.whl"))


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """A new environment with the wheel in it. What the wheel needs is read from the environment of the tests."""
    folder = tmp_path_factory.mktemp("environment")
    ran([sys.executable, "-m", "venv", "--without-pip", folder])
    programs = folder / ("Scripts" if os.name == "nt" else "bin")
    pip = [sys.executable, "-m", "pip", "--python", programs / "python", "install", "--no-index", "--no-deps"]
    ran([*pip, "--disable-pip-version-check", wheel])
    packages = Path(sysconfig.get_path("purelib", vars={"base": str(folder), "platbase": str(folder)}))
    # Folders that a .pth file names are not searched for .pth files, so the checkout itself stays out.
    (packages / "needed.pth").write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    return programs


@pytest.fixture(scope="module")
def server(installed, tmp_path_factory):
    folder = tmp_path_factory.mktemp("data")
    environment = {"PATH": str(installed), "ODDLEG_DATA": str(folder), "SYSTEMROOT": os.environ.get("SYSTEMROOT", "")}
    command = [str(installed / "oddleg"), "serve", "--port", str(free_port())]
    with subprocess.Popen(command, env=environment, cwd=folder, stdout=subprocess.PIPE, text=True) as process:
        line = process.stdout.readline()
        assert line.startswith("ready "), line
        yield line.split()[1].partition("#")[0]
        process.terminate()


def free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


def test_the_program_that_serves_is_the_one_in_the_wheel(installed, tmp_path):
    code = "import oddleg, shutil; print(oddleg.__file__); print(shutil.which('node'))"
    where, node = ran([installed / "python", "-c", code], env={"PATH": str(installed)}, cwd=tmp_path).split()
    assert Path(where).is_relative_to(installed.parent)
    assert node == "None"


def test_every_address_that_phones_keep_is_served(server, wheel):
    with urllib.request.urlopen(server + "sw.js", timeout=30) as answer:
        worker = answer.read().decode()
    kept = re.findall(r'["\']?url["\']?:\s*["\']([^"\']+)["\']', worker)
    with zipfile.ZipFile(wheel) as archive:
        packed = {name.removeprefix("oddleg/pwa/") for name in archive.namelist() if name.startswith("oddleg/pwa/")}
    assert {"index.html", "app.js", "app.css"} <= set(kept)
    assert packed >= set(kept) | {"sw.js"}
    for address in kept:
        with urllib.request.urlopen(server + address, timeout=30) as answer:
            assert answer.status == 200, address
            assert answer.read() == zipfile.ZipFile(wheel).read(f"oddleg/pwa/{address}"), address


def test_the_installed_program_answers_for_itself(server):
    with urllib.request.urlopen(server + "api/v1", timeout=30) as answer:
        assert json.load(answer)["marker"] == "oddleg/1"


def test_the_tables_and_letters_travel_in_the_wheel(wheel):
    names = zipfile.ZipFile(wheel).namelist()
    kept = ran(["git", "ls-files", "server/oddleg"], cwd=ROOT).split()
    assert {name.removeprefix("server/") for name in kept if (ROOT / name).is_file()} <= set(names)


def test_no_wheel_is_built_without_the_phone_app(tmp_path):
    for name in ("pyproject.toml", "README.md", "server/wheel_carries_pwa.py", "server/oddleg/__init__.py"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes((ROOT / name).read_bytes())
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel"]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode != 0
    assert "npm run build" in done.stdout + done.stderr
    assert not list(tmp_path.rglob("*.whl"))
