"""The house in order: what lies where, what the locks hold, and documents that say what the program does."""

import json
import re
import subprocess
from pathlib import Path

import demo_hall
import pytest

from oddleg.app import create_app
from oddleg.config import Config
from oddleg.documents.entry_kinds import KINDS
from oddleg.drawings import part_drawings
from oddleg.plan.parts import parts

ROOT = Path(__file__).resolve().parents[1]
GREATEST_LINES_OF_CODE = 450


def kept_files():
    listed = subprocess.run(["git", "ls-files", "-z", "-c", "-o", "--exclude-standard"], cwd=ROOT, capture_output=True, check=True)
    names = listed.stdout.decode().split("\0")
    return [ROOT / name for name in names if name and (ROOT / name).is_file()]


FILES = kept_files()


def test_nothing_lies_at_the_top_but_what_belongs_there():
    top = {path.relative_to(ROOT).parts[0] for path in FILES}
    assert {name for name in top if not name.startswith(".")} <= {
        "README.md", "DEVELOPERS.md", "pyproject.toml", "server", "pwa", "tests", "e2e", "demo",
    }


def test_no_file_grows_past_reading():
    def lines_of_code(path):
        lines = map(str.strip, path.read_text(encoding="utf-8").splitlines())
        return sum(bool(line) and not line.startswith(("#", "//", "*", "/*")) for line in lines)

    sources = [
        path for path in FILES
        if path.suffix in (".py", ".js", ".mjs", ".css")
        and path.relative_to(ROOT).parts[0] in ("server", "pwa", "demo")
    ]
    assert len(sources) > 20
    long = {str(path.relative_to(ROOT)): count for path in sources if (count := lines_of_code(path)) > GREATEST_LINES_OF_CODE}
    assert long == {}


def test_no_file_names_this_machine():
    place = "/" + "work" + "/"
    found = [path for path in FILES if path.suffix not in (".png", ".ttf", ".woff2") and place.encode() in path.read_bytes()]
    assert found == []


@pytest.mark.parametrize("name", ["requirements.txt", "requirements-develop.txt"])
def test_the_locks_pin_versions_and_hashes_and_name_no_host(name):
    text = (ROOT / "server" / name).read_text(encoding="utf-8")
    assert "://" not in text and "index-url" not in text and "find-links" not in text
    entries = re.split(r"\n(?=[a-z0-9])", re.sub(r"(?m)^ *#.*\n", "", text))
    pinned = {entry.split("==")[0].strip() for entry in entries if entry.strip()}
    assert all("==" in entry and "--hash=sha256:" in entry for entry in entries if entry.strip())
    assert {"flask", "hatchling", "editables", "marshmallow", "typst"} <= pinned


def test_both_locks_agree():
    def pins(name):
        text = (ROOT / "server" / name).read_text(encoding="utf-8")
        return set(re.findall(r"(?m)^([a-z0-9-]+==[^ \\]+(?: ; [^\\]+)?)", text))

    assert {pin.strip() for pin in pins("requirements.txt")} <= {pin.strip() for pin in pins("requirements-develop.txt")}


def test_the_lock_of_the_phone_app_holds_hashes_and_no_address():
    lock = json.loads((ROOT / "pwa" / "package-lock.json").read_text(encoding="utf-8"))
    packages = {name: one for name, one in lock["packages"].items() if name}
    assert packages
    assert all("integrity" in one and "resolved" not in one for one in packages.values())


def test_the_commands_can_be_started():
    for name in ("demo/start", "tests/run", ".ci/run"):
        assert (ROOT / name).read_text(encoding="utf-8").startswith("#!/usr/bin/env ")
        assert (ROOT / name).stat().st_mode & 0o111


def requests_written():
    """Method and path of every row of the table of requests in DEVELOPERS.md."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = text[text.index("| request | answer |") :].split("\n\n")[0]
    found = set()
    for row in table.splitlines()[2:]:
        methods = []
        for piece in re.findall(r"`([^`]*)`", row.split("|")[1]):
            match = re.fullmatch(r"([A-Z]+)(?: (/[^\[?]*)(?:[\[?].*)?)?", piece)
            if match:
                methods.append(match[1])
                if match[2]:
                    found |= {(method, re.sub(r"\{[^}]*\}", "{}", match[2]).rstrip("/")) for method in methods}
                    methods = []
        assert not methods, row
    return found


def test_the_table_of_requests_is_what_the_server_answers(tmp_path):
    app = create_app(Config(data_folder=tmp_path))
    answered = set()
    for rule in app.url_map.iter_rules():
        if rule.rule.startswith("/api/v1"):
            path = re.sub(r"<[^>]*>", "{}", rule.rule.removeprefix("/api/v1")).rstrip("/")
            answered |= {(method, path) for method in rule.methods - {"HEAD", "OPTIONS"}}
    assert requests_written() == answered


def test_the_table_of_entries_has_every_kind():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = text[text.index("| kind | target | data |") :].split("\n\n")[0]
    assert set(re.findall(r"(?m)^\| `(\w+)` \|", table)) == set(KINDS)


OF_ONE = {"panel": "PANEL", "elevation|first_fix": "RUN", "back|behind": "ITEM"}


def test_the_table_of_parts_has_every_key():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = text[text.index("| part | holds |") :].split("\n\n")[0]
    rows = {row.split("`")[1].split("/")[0]: row for row in table.splitlines()[2:]}
    made = demo_hall.hall_plan()
    found, drawn = parts(made, 1), part_drawings(made)
    assert {name.split("/")[0] for name in found} == set(rows)
    for name, part in found.items():
        keys = (part.keys() | drawn.get(name, {}).keys()) - {"mark"}
        row = rows[name.split("/")[0]]
        # A drawing a piece: piece-1, piece-2 stand in the table as piece-NUMBER; so do those of panels, runs and items.
        keys = {re.sub(r"-\d+$", "-NUMBER", key) for key in keys}
        for of, names in (("PANEL", "panel"), ("RUN", "elevation|first_fix"), ("ITEM", "back|behind")):
            keys = {re.sub(rf"^({names})-[\w-]+$", rf"\1-{of}", key) for key in keys}
        assert {key for key in keys if not re.search(rf"\b{key}\b", row)} == set(), name
