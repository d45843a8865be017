"""Makes what running and testing need, on a fresh machine: environment, phone app, browser. Standard library only.

Each thing is made once and known again by the hash of what it was made from, so that a second run needs no network. One
lock file round the making lets two commands start at once.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import shutil
import subprocess
import sys
import time
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
STATE = ROOT / ".oddleg"
VENV = ROOT / ".venv"
PWA = ROOT / "pwa"
LOCKS = {"run": ROOT / "server" / "requirements.txt", "develop": ROOT / "server" / "requirements-develop.txt"}
BROWSERS = ("chromium", "chromium-browser")
EXIT_MISSING = 3
LOG = "making.log"
LAST_LINES = 15
SAY_EVERY_S = 15


class Missing(Exception):
    """What this machine lacks and cannot be made here: one line with the command that brings it."""


def say(text):
    print(text, file=sys.stderr, flush=True)


def run(command, folder=ROOT):
    """Runs a step; its output goes to the log, the last lines to the screen if it fails. Raises CalledProcessError."""
    command = [str(part) for part in command]
    STATE.mkdir(exist_ok=True)
    log = STATE / LOG
    with open(log, "ab") as kept:
        kept.write(f"$ {' '.join(command)}\n".encode())
        kept.flush()
        begin = kept.tell()
        with subprocess.Popen(command, cwd=str(folder), stdout=kept, stderr=subprocess.STDOUT) as step:
            exit_code = _waited(step)
    if exit_code:
        lines = log.read_bytes()[begin:].decode(errors="replace").splitlines()
        say("\n".join(f"  {line}" for line in lines[-LAST_LINES:]))
        say(f"all that it printed is in {log}")
        raise subprocess.CalledProcessError(exit_code, command)


def _waited(step):
    """The exit code of a step; says every so often that it still goes on."""
    seconds = 0
    try:
        while True:
            try:
                return step.wait(SAY_EVERY_S)
            except subprocess.TimeoutExpired:
                seconds += SAY_EVERY_S
                say(f"  still at it, {seconds} s")
    except BaseException:
        step.terminate()
        raise


def hash_of(paths):
    """One hash over names and contents."""
    found = hashlib.sha256()
    for path in sorted(paths):
        found.update(path.relative_to(ROOT).as_posix().encode() + b"\0" + hashlib.sha256(path.read_bytes()).digest())
    return found.hexdigest()


def files_under(folder, leave_out=()):
    for path in folder.iterdir():
        if path.name in leave_out:
            continue
        if path.is_dir():
            yield from files_under(path, leave_out)
        else:
            yield path


@contextlib.contextmanager
def making():
    """Held while anything is made; waits for another command that is making something."""
    STATE.mkdir(exist_ok=True)
    with open(STATE / "making.lock", "a+b") as lock:
        if not _locked(lock):
            say("another command is making things here; waiting for it")
            while not _locked(lock):
                time.sleep(0.2)
        (STATE / LOG).write_bytes(b"")
        yield


def _locked(lock):
    """Takes the lock, or says False at once. The system lets go of it when this process ends, however it ends."""
    try:
        if os.name == "nt":
            import msvcrt

            lock.seek(0)
            msvcrt.locking(lock.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def stamp(path):
    """What a thing was made from, as written when it was done."""
    return path.read_text(encoding="ascii") if path.is_file() else ""


def in_venv(program):
    if os.name == "nt":
        return VENV / "Scripts" / (program + ".exe")
    return VENV / "bin" / program


def environment(develop=False):
    """The virtual environment with the locked packages and this project in it; `develop` adds the tools for tests."""
    python = in_venv("python")
    if environment_is_made(develop):
        return python
    kind = "develop" if develop else "run"
    if not _version_is_ours(python):
        say(f"making the virtual environment {VENV.name}")
        try:
            import ensurepip  # noqa: F401
        except ImportError:
            from_apt("python3-venv", "Python's venv")
        venv.create(str(VENV), with_pip=True, clear=True)
    tools = " and the tools for tests" if develop else ""
    say(f"installing the locked packages{tools}: some minutes the first time")
    pip = [python, "-m", "pip", "install", "--disable-pip-version-check", "--no-input"]
    run([*pip, "--require-hashes", "-r", LOCKS[kind]])
    run([*pip, "--no-deps", "--no-build-isolation", "--editable", "."])
    (VENV / f"made-{kind}").write_text(_made_from(kind), encoding="ascii")
    return python


def environment_is_made(develop=False):
    """Whether the environment is there, of this Python and made from the locks as they are now."""
    kinds = {"develop", "develop" if develop else "run"}
    return _version_is_ours(in_venv("python")) and any(
        stamp(VENV / f"made-{kind}") == _made_from(kind) for kind in kinds
    )


def _made_from(kind):
    return hash_of([LOCKS[kind], ROOT / "pyproject.toml"])


def _version_is_ours(python):
    return python.is_file() and version_in(python) == list(sys.version_info[:2])


def version_in(python):
    asked = [str(python), "-c", "import json, sys; print(json.dumps(sys.version_info[:2]))"]
    answer = subprocess.run(asked, capture_output=True, check=False)
    return json.loads(answer.stdout) if answer.returncode == 0 else None


def npm():
    """The command npm, with Node 20 or later beside it."""
    node, command = shutil.which("node"), shutil.which("npm")
    if not node or not command:
        raise Missing("Node 20 or later with npm is missing: install Node and start again")
    text = subprocess.run([node, "--version"], capture_output=True, text=True, check=True).stdout
    if int(text.strip().lstrip("v").split(".")[0]) < 20:
        raise Missing(f"Node {text.strip()} is too old: install Node 20 or later and start again")
    return command


def node_packages():
    """The packages of the phone app, as locked."""
    wanted = hash_of([PWA / "package.json", PWA / "package-lock.json"])
    made = PWA / "node_modules" / ".made"
    if stamp(made) == wanted:
        return
    say("installing the locked packages of the phone app")
    run([npm(), "ci"], PWA)
    made.write_text(wanted, encoding="ascii")


def phone_app():
    """The built phone app; made again when one of its sources has changed."""
    sources = [*files_under(PWA, ("node_modules", "dist", "test")), *files_under(ROOT / "server/oddleg/drawings/fonts")]
    wanted = hash_of(sources)
    made = STATE / "phone-app"
    if stamp(made) == wanted and (PWA / "dist" / "sw.js").is_file():
        return
    node_packages()
    say("building the phone app")
    run([npm(), "run", "build"], PWA)
    made.write_text(wanted, encoding="ascii")


def browser():
    """A Chromium for the tests in a browser: the one that ODDLEG_CHROMIUM names, one that is found, or Debian's."""
    named = os.environ.get("ODDLEG_CHROMIUM", "")
    if named and not shutil.which(named):
        raise Missing(f"ODDLEG_CHROMIUM names {named}, which cannot be run: unset it, or name a Chromium")
    found = named or next(filter(None, map(shutil.which, BROWSERS)), None)
    if not found:
        from_apt("chromium", "Chromium")
        found = next(filter(None, map(shutil.which, BROWSERS)), None)
    if not found:
        raise Missing("Chromium is missing: apt-get install chromium")
    return found


def from_apt(package, what):
    """Installs a Debian package, as root only. Raises Missing where that cannot be done here."""
    command = shutil.which("apt-get")
    if not command or not hasattr(os, "geteuid") or os.geteuid() != 0:
        raise Missing(f"{what} is missing: as root, apt-get install {package}")
    say(f"{what} is missing; installing Debian's package {package}")
    try:
        run([command, "update", "-q"])
        run([command, "install", "-q", "-y", "--no-install-recommends", package])
    except subprocess.CalledProcessError:
        raise Missing(f"{what} is missing and could not be installed: as root, apt-get install {package}") from None


def guarded(main):
    """Runs a command's main function; says in one line what is missing or which step failed."""
    if sys.version_info < (3, 11):  # noqa: UP036
        say(f"Python {sys.version.split()[0]} is too old: start this with Python 3.11 or later")
        return EXIT_MISSING
    try:
        return main()
    except Missing as missing:
        say(str(missing))
        return EXIT_MISSING
    except subprocess.CalledProcessError as failed:
        say(f"this step failed (exit {failed.returncode}): {' '.join(str(part) for part in failed.cmd)}")
        return 1
    except KeyboardInterrupt:
        return 130
