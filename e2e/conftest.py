"""The browser, the office's server, and phones that sign in to it."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path

import phone as phones
import pytest
from office import opened
from playwright.sync_api import expect

HERE = Path(__file__).parent
OUT = HERE / "out"
FLAGS = [
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-quic",
    "--no-first-run",
]

expect.set_options(timeout=20_000)


def pytest_configure(config):
    config.option.output = str(OUT / "failed")
    config.option.screenshot = "only-on-failure"


@pytest.fixture(scope="session")
def browser_type_launch_args():
    """Debian's Chromium. A browser that is missing is a failure, never a skip."""
    named = os.environ.get("ODDLEG_CHROMIUM") or "/usr/bin/chromium"
    path = shutil.which(named)
    assert path, f"there is no browser at {named}: tests/run installs one, or name one in ODDLEG_CHROMIUM"
    return {"executable_path": path, "chromium_sandbox": False, "args": FLAGS, "timeout": 60_000}


@pytest.fixture(scope="session")
def one_office(tmp_path_factory):
    """The server of all tests that leave it running. Each test has a job and a fitter of its own in it."""
    with opened(tmp_path_factory.mktemp("office") / "data") as office:
        yield office


@pytest.fixture
def office(one_office):
    return one_office


@pytest.fixture
def job(office):
    """Id of a job of this test alone: two carcasses and a bay, nothing read yet."""
    document = json.loads((HERE / "small-job.json").read_text(encoding="utf-8"))
    number = len(office.people)
    document["id"] = f"ferry-hut-{number}"
    office.add_job(document, f"Ned {number}")
    return document["id"]


@pytest.fixture
def fitter(job):
    """The name of the fitter who is on this test's job."""
    return f"Ned {job.rpartition('-')[2]}"


@pytest.fixture
def make_phone(new_context, office, job):
    """A new phone, or with `size` a new desk, not signed in yet."""

    def make(size=phones.PHONE, **more):
        context = new_context(**{**phones.COMMON, **size, **more})
        context.set_default_timeout(20_000)
        return phones.Phone(context, office.origin, job)

    return make


@pytest.fixture
def phone(make_phone):
    return make_phone()


@pytest.fixture
def ready_phone(phone, office, fitter):
    """Signed in, the job's pack and the app itself on the phone."""
    return phone.ready_for_site(office.code(fitter))


@pytest.fixture
def at_bench_mark(ready_phone, office):
    """In the survey, with a set-up that is in the office already; the phone asks for the bench mark."""
    ready_phone.open(ready_phone.survey)
    ready_phone.set_up("stripped", place=False)
    ready_phone.at_spot("cut in the door sill")
    office.wait_for_entries(ready_phone.job, 1)
    ready_phone.has_unsent(0)
    return ready_phone
