"""Making things once: what is missing is said in one line, and two commands at once do not make the same thing twice."""

import importlib.util
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture
def bootstrap(tmp_path, monkeypatch):
    spec = importlib.util.spec_from_file_location("bootstrap", ROOT / "server" / "bootstrap.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    monkeypatch.setattr(module, "STATE", tmp_path / "state")
    monkeypatch.setattr(module, "ROOT", tmp_path)
    return module


def test_what_is_missing_is_one_line_with_the_command_and_exit_3(bootstrap, monkeypatch, capsys):
    monkeypatch.setenv("PATH", "")
    monkeypatch.delenv("ODDLEG_CHROMIUM", raising=False)
    for make, word in ((bootstrap.browser, "apt-get install chromium"), (bootstrap.npm, "Node 20")):
        assert bootstrap.guarded(make) == 3
        said = capsys.readouterr().err
        assert said.count("\n") == 1 and word in said


def test_a_browser_that_is_named_but_not_there_is_not_passed_over(bootstrap, monkeypatch):
    monkeypatch.setenv("ODDLEG_CHROMIUM", "/nowhere/chromium")
    with pytest.raises(bootstrap.Missing):
        bootstrap.browser()


def test_nothing_is_installed_unless_root(bootstrap, monkeypatch):
    monkeypatch.setattr(bootstrap.os, "geteuid", lambda: 1000)
    monkeypatch.setattr(bootstrap, "run", lambda *_: pytest.fail("it installed something"))
    with pytest.raises(bootstrap.Missing):
        bootstrap.from_apt("chromium", "Chromium")


def test_an_old_node_is_refused(bootstrap, monkeypatch, tmp_path):
    for name in ("node", "npm"):
        (tmp_path / name).write_text("#!/bin/sh\necho v18.20.4\n")
        (tmp_path / name).chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin")
    with pytest.raises(bootstrap.Missing, match=r"v18\.20\.4 is too old"):
        bootstrap.npm()


def test_a_step_that_fails_is_named(bootstrap, capfd):
    def main():
        bootstrap.run([sys.executable, "-c", "raise SystemExit(7)"])

    assert bootstrap.guarded(main) == 1
    assert "exit 7" in capfd.readouterr().err


def test_a_step_talks_into_the_log_and_only_a_failed_one_is_heard(bootstrap, capfd):
    bootstrap.run([sys.executable, "-c", "print('chatter')"])
    assert capfd.readouterr() == ("", "")
    with pytest.raises(subprocess.CalledProcessError):
        bootstrap.run([sys.executable, "-c", "for n in range(40): print('line', n)\nraise SystemExit(1)"])
    said = capfd.readouterr().err
    log = bootstrap.STATE / bootstrap.LOG
    assert "line 39" in said and "line 3\n" not in said and "chatter" not in said and str(log) in said
    assert "chatter" in log.read_text() and "line 3\n" in log.read_text()


def test_a_long_step_says_that_it_goes_on(bootstrap, capfd, monkeypatch):
    monkeypatch.setattr(bootstrap, "SAY_EVERY_S", 0.01)
    bootstrap.run([sys.executable, "-c", "pass"])  # starting Python takes longer than that
    assert "still at it" in capfd.readouterr().err


def test_the_hash_of_sources_follows_names_and_contents(bootstrap, tmp_path):
    one, other = tmp_path / "one", tmp_path / "other"
    one.write_text("a")
    other.write_text("b")
    first = bootstrap.hash_of([one, other])
    assert bootstrap.hash_of([other, one]) == first
    other.write_text("c")
    assert bootstrap.hash_of([one, other]) != first
    other.rename(tmp_path / "moved")
    assert bootstrap.hash_of([one]) != bootstrap.hash_of([one, tmp_path / "moved"])


HOLDER = """
import sys
sys.path.insert(0, sys.argv[1])
import bootstrap, pathlib
bootstrap.STATE = pathlib.Path(sys.argv[2])
with bootstrap.making():
    print("mine", flush=True)
    sys.stdin.readline()
"""


def test_two_commands_at_once_make_things_one_after_the_other(tmp_path):
    def holder():
        command = [sys.executable, "-c", HOLDER, str(ROOT / "server"), str(tmp_path / "state")]
        pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
        return subprocess.Popen(command, text=True, **pipes)

    with holder() as first:
        assert first.stdout.readline() == "mine\n"
        with holder() as second:
            assert "waiting" in second.stderr.readline()
            first.kill()  # the lock goes with the process, however it ends
            assert second.stdout.readline() == "mine\n"
            second.communicate("\n", timeout=60)
        first.communicate(timeout=60)
