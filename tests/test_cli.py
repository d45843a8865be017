"""The command line: what it prints, what it refuses in plain words, and the server that it starts and stops."""

import hashlib
import json
import os
import signal
import socket
import ssl
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path

import pytest
from click.testing import CliRunner

from oddleg.cli import main, what_phones_need
from oddleg.config import PORT, BadSetting, config_from

HALL = Path(__file__).parent.parent / "demo" / "hall.json"
ODDLEG = [sys.executable, "-c", "from oddleg.cli import main; main()"]


@pytest.fixture
def folder(tmp_path, monkeypatch):
    for name in ("ODDLEG_DATABASE", "ODDLEG_PORT", "ODDLEG_ORIGIN", "ODDLEG_PWA"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("ODDLEG_DATA", str(tmp_path / "data"))
    return tmp_path


def run(*words, fails=0):
    result = CliRunner().invoke(main, [str(word) for word in words])
    assert result.exit_code == fails, result.output
    assert result.exception is None or isinstance(result.exception, SystemExit)
    assert "Traceback" not in result.output
    return result


@pytest.fixture
def with_hall(folder):
    run("link")
    run("import", HALL)
    return folder


def test_a_link_is_one_time_and_may_name_a_person(folder):
    assert run("link").output.startswith(f"http://localhost:{PORT}/#/join/")
    run("link", "--person", "Col Fitter", "--role", "fitter")
    run("link", "--person", "Col Fitter", "--role", "fitter")
    rows = [line.split("\t")[1:] for line in run("people").output.splitlines()]
    assert rows == [["office", "Office"], ["fitter", "Col Fitter"]]
    assert "already" in run("link", "--person", "Col Fitter", fails=1).output
    run("link", "--role", "fitter", fails=2)


def test_the_stated_origin_is_what_links_lead_to(folder, monkeypatch):
    monkeypatch.setenv("ODDLEG_ORIGIN", "https://legs.example/")
    assert run("link").output.startswith("https://legs.example/#/join/")


def test_a_job_comes_in_and_goes_out_byte_for_byte_after_the_first_round(with_hall):
    first, second = with_hall / "first.json", with_hall / "second.json"
    run("export", "hollowmere-hall", "--out", first)
    assert run("import", first, "--replace", 1).output == "hollowmere-hall revision 2\n"
    run("export", "hollowmere-hall", "--out", second)
    assert first.read_bytes() == second.read_bytes()
    assert CliRunner().invoke(main, ["export", "hollowmere-hall"]).stdout_bytes == first.read_bytes()


def test_a_known_job_is_refused_with_both_ways_out(with_hall):
    output = run("import", HALL, fails=1).output
    assert "--as-copy" in output
    assert "--replace 1" in output
    assert "revision 1" in run("import", HALL, "--as-copy").output
    run("import", HALL, "--as-copy", "--replace", 1, fails=2)
    run("import", HALL, "--replace", 1)
    assert "latest is 2" in run("import", HALL, "--replace", 1, fails=1).output


@pytest.mark.parametrize(
    ("change", "path"),
    [
        (lambda job: job.pop("title"), "title"),
        (lambda job: job.update(colour="red"), "colour"),
        (lambda job: job["rooms"][0]["worktop"].update(thickness_mm="thirty"), "rooms.0.worktop.thickness_mm"),
    ],
)
def test_a_bad_job_file_is_refused_by_path(folder, change, path):
    run("link")
    job = json.loads(HALL.read_text())
    change(job)
    file = folder / "bad.json"
    file.write_text(json.dumps(job))
    assert f"  {path}: " in run("import", file, fails=1).output


@pytest.mark.parametrize("data", [b"", b"{", b"\xff\xfe\x00", b"[]", b'{"format": NaN}', b"[" * 100_000])
def test_a_file_that_is_no_job_is_refused_in_words(folder, data):
    run("link")
    file = folder / "bad.json"
    file.write_bytes(data)
    assert "to put right" in run("import", file, fails=1).output
    assert run("entries", "load", file, fails=1).output.startswith("Error: ")


def test_what_is_not_there_is_said(folder):
    assert "oddleg link" in run("import", HALL, fails=1).output
    run("link")
    assert "There is no job 'nix'" in run("export", "nix", fails=1).output
    assert "There is no job 'nix'" in run("sheets", "nix", "--out", folder / "out", fails=1).output
    run("import", folder / "nowhere.json", fails=2)


def test_jobs_are_listed_with_revision_and_title(with_hall):
    run("import", HALL, "--replace", 1)
    assert run("jobs").output == "hollowmere-hall\t2\tHollowmere village hall, kitchen\n"


@pytest.mark.parametrize("name", ["", "  ", "two\nlines", "n" * 201])
def test_a_person_has_a_name(folder, name):
    assert "  name: " in run("people", "add", name, "--role", "fitter", fails=1).output
    assert run("people").output == ""


def test_a_phone_app_that_is_not_where_it_was_said_to_be_is_refused(folder, monkeypatch):
    monkeypatch.setenv("ODDLEG_PWA", str(folder / "nowhere"))
    output = run("serve", "--port", free_port(), fails=1).output
    assert output.startswith("Error: ODDLEG_PWA is ") and output.count("\n") == 1


def test_serve_says_what_still_keeps_phones_away():
    said = lambda host, tls, **settings: " ".join(what_phones_need(host, tls, config_from(settings)))  # noqa: E731
    assert "--host 0.0.0.0" in said("127.0.0.1", True)
    assert "only over https" in said("0.0.0.0", False)
    assert "ODDLEG_ORIGIN" in said("0.0.0.0", True)
    assert "ODDLEG" not in said("0.0.0.0", True, ODDLEG_ORIGIN="https://legs.example").replace("ODDLEG_PWA", "")


def test_a_database_that_cannot_be_used_is_one_line(folder, monkeypatch):
    file = folder / "no.sqlite3"
    file.write_bytes(b"this is no database, whatever its name says" * 100)
    monkeypatch.setenv("ODDLEG_DATABASE", f"sqlite:///{file}")
    assert run("people", fails=1).output.startswith("Error: The database cannot be used: ")
    monkeypatch.setenv("ODDLEG_DATABASE", "nonsense")
    assert run("people", fails=1).output.startswith("Error: The database cannot be used: ")


def entries_file(folder, *texts):
    entries = []
    for seq, text in enumerate(texts, 1):
        payload = json.dumps({
            "schema": 1, "job": "hollowmere-hall", "kind": "note", "target": "hollowmere-hall",
            "at": {"utc": "2026-03-02T08:00:00.000Z", "offset_minutes": 0, "server_offset_ms": None, "measured_at": None},
            "raw": None, "unit": None, "value": None, "shown": {"expected": None, "part_mark": None},
            "replaces": None, "data": {"text": text},
        })  # fmt: skip
        sha = hashlib.sha256(payload.encode()).hexdigest()
        entries.append({"uid": f"0192f0aa-0000-7000-8000-{seq:012x}", "seq": seq, "sha": sha, "payload": payload})
    file = folder / "entries.json"
    file.write_text(json.dumps({"writer": "w-1", "app": "1", "saved_seq": len(texts), "entries": entries}))
    return file


def test_entries_handed_over_as_a_file_are_a_push_of_any_length(with_hall):
    file = entries_file(with_hall, *(f"note {count}" for count in range(1001)))
    assert run("entries", "load", file).output == "1001 stored\n"
    assert run("entries", "load", file).output == "1001 duplicate\n"


def test_a_file_says_what_was_put_aside(with_hall):
    file = entries_file(with_hall, "good", "bad")
    body = json.loads(file.read_text())
    body["entries"][1]["sha"] = "0" * 64
    file.write_text(json.dumps(body))
    output = run("entries", "load", file).output
    assert "1 quarantined, 1 stored" in output
    assert "damaged" in output
    body["entries"][1]["uid"] = "nonsense"
    file.write_text(json.dumps(body))
    assert "  entries.1.uid: " in run("entries", "load", file, fails=1).output


def test_a_persons_entries_are_erased_on_asking(with_hall):
    person = run("people", "add", "Col", "--role", "fitter").output.strip()
    run("people", "assign", "hollowmere-hall", person)
    run("entries", "load", entries_file(with_hall, "mine"), "--person", person)
    assert run("people", "erase", person, "--yes").output == "1 entries erased\n"
    assert "There is no person" in run("people", "erase", "nix", "--yes", fails=1).output


def test_sheets_are_written_as_pdf(with_hall):
    out = with_hall / "out"
    lines = run("sheets", "hollowmere-hall", "--out", out, "--paper", "both").output.splitlines()
    kinds = (
        "survey",
        "walls",
        "legs",
        "labels",
        "plinth",
        "corners",
        "tall",
        "drawers",
        "drilling",
        "services",
        "first_fix",
    )
    of_room = {f"{kind}-kitchen.pdf" for kind in kinds}
    runs = ("window-run", "side-run", "counter")
    of_runs = {f"{kind}-{run}.pdf" for kind in ("rod", "strip_a4", "strip_a3") for run in runs}
    items = [item for run in json.loads(HALL.read_text(encoding="utf-8"))["rooms"][0]["runs"] for item in run["items"]]
    fitted = {item["id"] for item in items if item.get("fitting_out")}
    of_units = {f"{kind}-{id}.pdf" for kind in ("panels", "template_a4", "template_a3") for id in fitted}
    # The sides of the blind corner base, with its fixed shelf alone, have nothing that a stick would carry.
    of_units |= {f"{kind}-{id}.pdf" for kind in ("stick_a4", "stick_a3") for id in fitted - {"corner"}}
    assert {Path(line).name for line in lines} == of_room | of_runs | of_units
    assert all((out / Path(line).name).read_bytes().startswith(b"%PDF-") for line in lines)


def test_what_is_at_full_size_is_written_for_the_paper_at_hand(with_hall):
    names = {
        paper: {Path(line).stem for line in run("sheets", "hollowmere-hall", "--out", with_hall / paper, *option).output.splitlines()}
        for paper, option in (("a4", ()), ("a3", ("--paper", "a3")))
    }
    assert {name.replace("_a4", "_a3") for name in names["a4"]} == names["a3"]
    assert "template_a4-sink" in names["a4"] and "survey-kitchen" in names["a3"]


@pytest.mark.parametrize("port", ["0", "65536", "many", "-1", "8675.5", "\u0663"])
def test_a_port_that_is_none_is_refused(port):
    with pytest.raises(BadSetting, match="ODDLEG_PORT"):
        config_from({"ODDLEG_PORT": port})


def test_settings_come_from_the_environment():
    config = config_from({"ODDLEG_DATA": "there", "ODDLEG_PORT": "9000", "ODDLEG_ORIGIN": "https://legs.example/"})
    assert (config.data_folder, config.port, config.origin) == (Path("there"), 9000, "https://legs.example")
    assert config_from({}).port == PORT
    assert config.folder != config_from({}).folder
    with pytest.raises(BadSetting, match="ODDLEG_ORIGIN"):
        config_from({"ODDLEG_ORIGIN": "legs.example"})


def free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


class Served:
    """`oddleg serve` as a process of its own, from its ready line to its end."""

    def __init__(self, folder, *words):
        self.port = free_port()
        environment = {**os.environ, "ODDLEG_DATA": str(folder / "data"), "ODDLEG_PORT": str(self.port)}
        self.process = subprocess.Popen(
            [*ODDLEG, "serve", *words], env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        )
        self.ready = self.process.stdout.readline().strip()

    def __enter__(self):
        assert self.ready.startswith("ready "), self.process.stderr.read()
        return self

    def __exit__(self, *_):
        self.process.terminate()
        self.process.communicate(timeout=60)

    def ask(self, path, scheme="http", body=None, token=None, context=None):
        request = urllib.request.Request(f"{scheme}://localhost:{self.port}{path}", body and json.dumps(body).encode())
        if token:
            request.add_header("Authorization", f"Bearer {token}")
        with urllib.request.urlopen(request, timeout=60, context=context) as answer:
            return json.load(answer)


def test_serve_prints_a_ready_line_with_the_first_link_and_stops_on_term(folder):
    with Served(folder) as served:
        address, code = served.ready.removeprefix("ready ").split("/#/join/")
        assert address == f"http://localhost:{served.port}"
        assert served.ask("/api/v1")["marker"] == "oddleg/1"
        token = served.ask("/api/v1/claims", body={"code": code, "device": "desk"})["token"]
        assert served.ask("/api/v1/me", token=token)["person"]["role"] == "office"
        with pytest.raises(urllib.error.HTTPError) as refused:
            served.ask("/api/v1/me")
        assert refused.value.code == 401
        refused.value.close()
        served.process.send_signal(signal.SIGTERM)
        _, errors = served.process.communicate(timeout=60)
        assert served.process.returncode == 0
        assert "Traceback" not in errors
    with Served(folder) as again:
        assert again.ready == f"ready http://localhost:{again.port}/"


def test_a_taken_port_is_refused_in_one_line(folder):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        output = run("serve", "--port", taken.getsockname()[1], fails=1).output
    assert output.startswith("Error: Cannot listen on 127.0.0.1")
    assert "ODDLEG_PORT" in output
    assert output.count("\n") == 1
    # 203.0.113.0/24 is kept for documentation (RFC 5737), so no machine has it.
    assert "address of this computer" in run("serve", "--host", "203.0.113.7", "--port", free_port(), fails=1).output


@pytest.fixture
def certificate(tmp_path):
    """Made for this test alone, by openssl."""
    names = [tmp_path / "certificate.pem", tmp_path / "key.pem"]
    subprocess.run(
        ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj", "/CN=localhost",
         "-addext", "subjectAltName=DNS:localhost", "-out", names[0], "-keyout", names[1]],
        check=True, capture_output=True,
    )  # fmt: skip
    return names


def test_serve_speaks_tls(folder, certificate):
    pem, key = certificate
    with Served(folder, "--certificate", str(pem), "--key", str(key)) as served:
        assert served.ready.startswith(f"ready https://localhost:{served.port}/#/join/")
        context = ssl.create_default_context(cafile=str(pem))
        assert served.ask("/api/v1", "https", context=context)["marker"] == "oddleg/1"


def test_a_certificate_without_its_key_is_refused(folder, certificate):
    pem, key = certificate
    run("serve", "--certificate", pem, fails=2)
    output = run("serve", "--port", free_port(), "--certificate", key, "--key", pem, fails=1).output
    assert output.startswith("Error: ") and "None" not in output
    assert output.count("\n") == 1


def test_a_start_does_not_wait_for_what_only_a_plan_needs():
    def imported(line):
        told = f"import sys; {line}; print(*sys.modules)"
        return set(
            subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True).stdout.split()
        )

    assert {"flask", "sqlalchemy", "numpy"}.isdisjoint(imported("import oddleg.cli"))
    started = imported("import oddleg.app")
    assert "flask" in started and "scipy" not in started


PLATES = "kind;id;name;height_mm;row_mm;spread_mm;hole_mm;hole_depth_mm;source;checked_on\r\n"


def test_a_chart_is_looked_through_by_line_and_column(tmp_path):
    file = tmp_path / "plates.csv"
    file.write_text(
        f"\ufeff{PLATES}plate;a;Plate a;2,5;37;32;5;12;a sheet;\r\nplate;b;Plate b;2;1.457;32;5;12;a sheet;\r\n"
    )
    result = run("charts", "check", file, fails=1)
    assert result.stdout == "a\tPlate a\n"
    assert "line 3, b, row_mm: 1.457 is out of range" in result.stderr and "1.457 in is 37.0 mm" in result.stderr
    assert "1 row right, 1 thing to put right." in result.stderr


def test_a_chart_that_is_right_says_so_and_its_kind_may_be_told_from_outside(tmp_path):
    file = tmp_path / "plates.csv"
    text = f"{PLATES}plate;a;Plate a;2;37;32;5;12;a sheet;\r\n"
    file.write_text(text)
    assert run("charts", "check", file).stdout == "a\tPlate a\n1 row right.\n"
    file.write_text(text.replace("kind;", "").replace("plate;a", "a"))
    assert "The column kind is missing" in run("charts", "check", file, fails=1).stderr
    assert run("charts", "check", file, "--kind", "plate").stdout.endswith("1 row right.\n")


def test_a_file_that_is_no_chart_is_refused_in_words(tmp_path):
    for body in (b"", b"\x00\xff\x00", b"PK\x03\x04"):
        (tmp_path / "x").write_bytes(body)
        assert "0 rows right, 1 thing to put right." in run("charts", "check", tmp_path / "x", fails=1).stderr


def test_a_chart_is_added_whole_or_not_at_all_and_comes_out_again(folder):
    run("link")
    mine = folder / "mine.csv"
    run("charts", "export", "plate", "--out", mine)
    before = mine.read_text(encoding="utf-8")
    head, first, *_ = before.splitlines()
    id = first.split(",")[1]
    good = [head, first.replace(id, "our-plate", 1)]
    mine.write_text("\n".join([*good, good[1]]), encoding="utf-8")
    assert "our-plate" in run("charts", "add", mine, fails=1).stderr
    assert "our-plate" not in run("charts", "export", "plate").stdout
    mine.write_text("\n".join(good), encoding="utf-8")
    assert run("charts", "add", mine).stdout.endswith("1 row saved.\n")
    assert "our-plate" in run("charts", "export", "plate").stdout


def test_a_job_with_a_row_of_elsewhere_says_which_chart_it_wants_first(folder):
    run("link")
    job = json.loads((HALL.parent / "small-job.json").read_text(encoding="utf-8"))
    item = next(one for one in job["rooms"][0]["runs"][0]["items"] if one["made_as"] == "carcass")
    item["fitting_out"] = {"leg": "their-leg"}
    job["hardware"] = [{"kind": "leg", "row": "their-leg", "sha": "0123456789abcdef"}]
    (folder / "job.json").write_text(json.dumps(job), encoding="utf-8")
    said = run("import", folder / "job.json", fails=1).stderr
    assert "hardware.0.sha" in said and "their-leg" in said and "bring its chart in first" in said


def test_columns_of_charts_are_listed_for_every_kind_or_one():
    from oddleg.job import HardwareKind

    every = run("charts", "columns").output
    for kind in HardwareKind:
        one = run("charts", "columns", kind).output
        assert f"\n{kind}: " in one and one.splitlines()[-1] in every
    assert "lever" in run("charts", "columns", "lever", fails=2).output
