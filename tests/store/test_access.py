"""Which jobs a caller may see: one function says it, and no query for a job goes round it."""

import ast
from pathlib import Path

import pytest

import oddleg.store
from oddleg.app import create_app
from oddleg.config import Config
from oddleg.store import access
from oddleg.store.database import database, writing
from oddleg.store.refusals import NotHere, NotYours
from oddleg.store.tables import Assignment, JobHead, Person

AT = "2026-03-02T08:00:00.000Z"


@pytest.fixture
def jobs(tmp_path):
    with create_app(Config(tmp_path / "data")).app_context():
        with writing() as session:
            for name in ("barn", "hall", "mill"):
                session.add(JobHead(id=name, revision=1, title=name, place="", client="", counter=0, chain="0" * 64))
            for name, role in (("maud", "office"), ("col", "fitter"), ("ned", "fitter")):
                session.add(Person(id=name, name=name, role=role, at=AT))
            session.flush()
            session.add(Assignment(job_id="hall", person_id="col", at=AT))
            session.add(Assignment(job_id="barn", person_id="ned", at=AT))
        yield
        database.session.remove()
        database.engine.dispose()


def seen(caller):
    return [head.id for head in database.session.scalars(access.visible_jobs(caller))]


def test_the_office_sees_all_and_a_fitter_what_is_assigned(jobs):
    assert seen(access.Caller("maud", "maud", "office")) == ["barn", "hall", "mill"]
    assert seen(access.Caller("col", "col", "fitter")) == ["hall"]
    assert seen(access.Caller("nobody", "nobody", "fitter")) == []
    # a role that nobody thought of sees what a fitter sees
    assert seen(access.Caller("ned", "ned", "guest")) == ["barn"]


def test_a_revoked_phone_sees_nothing_not_even_the_offices(jobs):
    with pytest.raises(NotYours):
        access.visible_jobs(access.Caller("maud", "maud", "office", "d-1", "desk", revoked=True))


def test_one_job_is_found_or_refused(jobs):
    office, fitter = access.Caller("maud", "maud", "office"), access.Caller("col", "col", "fitter")
    assert access.job_head(office, "mill").id == "mill"
    assert access.job_head(fitter, "hall").id == "hall"
    with pytest.raises(NotHere):
        access.job_head(office, "nix")
    for job in ("mill", "nix"):
        with pytest.raises(NotYours):
            access.job_head(fitter, job)


def asks_for_a_job(call):
    if not isinstance(call, ast.Call) or getattr(call.func, "id", getattr(call.func, "attr", "")) not in ("select", "get", "query"):
        return False
    return any(isinstance(name, ast.Name) and name.id == "JobHead" for one in call.args for name in ast.walk(one))


def test_no_query_for_a_job_goes_round_it():
    """In all the code of the store and of the wire, `select(JobHead...)` and `get(JobHead` stand once: in `visible_jobs`."""
    package = Path(oddleg.store.__file__).parent.parent
    files = [*(package / "store").glob("*.py"), *(package / "api").glob("*.py"), package / "cli.py"]
    found = [
        (path.name, function.name)
        for path in files
        for function in ast.walk(ast.parse(path.read_text()))
        if isinstance(function, ast.FunctionDef) and any(asks_for_a_job(one) for one in ast.walk(function))
    ]
    assert found == [("access.py", "visible_jobs")]


def test_codes_use_every_letter_alike():
    """Bytes past the last whole multiple of 31 are thrown away: 8 x 31 = 248 bytes, each letter eight times."""
    letters = access.LETTERS
    assert len(letters) == 31
    given = iter(bytes(range(248, 256)) + bytes(range(248)))
    codes = "".join(access.new_code(lambda count: bytes(next(given) for _ in range(count))) for _ in range(31))
    assert {letters.count(letter) for letter in letters} == {1}
    assert codes == letters * 8  # the 8 bytes that came first left no letter


def test_the_console_has_an_office_user_or_says_how_to_make_one(jobs, tmp_path):
    assert access.console().person == "maud"
    with create_app(Config(tmp_path / "empty")).app_context():
        with pytest.raises(NotHere, match="oddleg link"):
            access.console()
        database.session.remove()
        database.engine.dispose()
