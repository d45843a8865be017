"""README is true where a machine can tell: its commands, its picture, the places it points to, and the file it begins with."""

import json
import re
import struct
from pathlib import Path

import pytest
from click.testing import CliRunner

from oddleg.charts import read_csv
from oddleg.cli import main
from oddleg.documents import load_job

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
SMALL = ROOT / "demo" / "small-job.json"


def test_every_place_that_it_points_to_is_there():
    places = re.findall(r"\]\(([^)#:]+)\)", README)
    assert places and all((ROOT / place).exists() for place in places)


def test_its_picture_is_a_png_of_less_than_200_kb():
    data = (ROOT / "demo/pictures/phone.png").read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n" and len(data) < 200_000  # PNG specification, 5.2
    width, height = struct.unpack(">II", data[16:24])
    assert width > height > 600


@pytest.mark.parametrize("line", sorted(set(re.findall(r"oddleg ([a-z]+(?: --?[a-z]+| [A-Zj][A-Za-z.]*)*)", README))))
def test_every_command_that_it_tells_is_one(line):
    name, *words = line.split()
    command = main.commands[name]
    options = {option for one in command.params for option in one.opts}
    assert {word for word in words if word.startswith("--")} <= options


def test_the_small_job_comes_in_and_goes_out_with_every_field(tmp_path, monkeypatch):
    job = load_job(json.loads(SMALL.read_text(encoding="utf-8")))
    for name in ("ODDLEG_DATABASE", "ODDLEG_ORIGIN", "ODDLEG_PWA", "ODDLEG_PORT"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("ODDLEG_DATA", str(tmp_path))
    run = CliRunner()
    assert run.invoke(main, ["link"]).exit_code == 0
    assert run.invoke(main, ["import", str(SMALL)]).output == f"{job.id} revision 1\n"
    exported = run.invoke(main, ["export", job.id]).stdout
    assert "reserve_mm" in exported and "reserve_mm" not in SMALL.read_text(encoding="utf-8")
    assert load_job(json.loads(exported)).rooms[0].runs == job.rooms[0].runs


def test_the_chart_that_it_shows_is_one():
    lines = re.findall(r"(?m)^    (kind,id.*|plate,.*)$", README)
    read = read_csv("\n".join(lines).encode())
    assert len(lines) == 2 and read.problems == ()
    assert [(one.id, one.source) for one in read.rows] == [("our-plate-3", "the maker's sheet, page 4")]
