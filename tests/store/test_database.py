"""The database: what is committed is on disk, writers wait their turn, and the migrations make the models' tables."""

import sqlite3
import threading

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import inspect, text

from oddleg.app import create_app
from oddleg.config import Config
from oddleg.store.database import Base, database, migrate, writing
from oddleg.store.tables import Person


@pytest.fixture
def app(tmp_path):
    app = create_app(Config(tmp_path / "data"))
    with app.app_context():
        yield app
        database.session.remove()
        database.engine.dispose()


def test_migrations_make_exactly_the_models_tables(app):
    with database.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True, "compare_server_default": True})
        assert compare_metadata(context, Base.metadata) == []
        names = set(inspect(connection).get_table_names())
    assert names == set(Base.metadata.tables) | {"alembic_version"}


def test_migrating_twice_changes_nothing(app):
    with writing() as session:
        session.add(Person(id="p", name="Ann", role="office", at="2026-03-02T08:00:00.000Z"))
    migrate(database.engine)
    assert database.session.get(Person, "p").name == "Ann"


def test_sqlite_keeps_every_commit_on_disk_and_waits_for_writers(app):
    settings = {"journal_mode": "wal", "synchronous": 2, "busy_timeout": 10_000, "foreign_keys": 1}
    with database.engine.connect() as connection:
        assert {name: connection.execute(text(f"PRAGMA {name}")).scalar() for name in settings} == settings


def test_a_writer_has_its_lock_from_the_start(app, tmp_path):
    with writing():
        other = sqlite3.connect(tmp_path / "data" / "oddleg.sqlite3", timeout=0, isolation_level=None)
        with pytest.raises(sqlite3.OperationalError, match="locked"):
            other.execute("BEGIN IMMEDIATE")
        other.close()


def test_a_failure_in_the_middle_leaves_nothing(app):
    def half():
        with writing() as session:
            session.add(Person(id="p", name="Ann", role="office", at="2026-03-02T08:00:00.000Z"))
            session.flush()
            raise RuntimeError("killed")

    with pytest.raises(RuntimeError):
        half()
    assert database.session.get(Person, "p") is None


def test_reading_and_then_writing_from_many_threads_loses_nothing(app):
    """Read, then write what was read plus one: with a deferred BEGIN such transactions fail or lose updates."""
    with writing() as session:
        session.add(Person(id="p", name="0", role="office", at="2026-03-02T08:00:00.000Z"))
    failed = []

    def count_up():
        with app.app_context():
            try:
                for _ in range(10):
                    with writing() as session:
                        person = session.get(Person, "p")
                        person.name = str(int(person.name) + 1)
            except Exception as error:
                failed.append(error)
            database.session.remove()

    threads = [threading.Thread(target=count_up) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    database.session.rollback()
    assert failed == []
    assert database.session.get(Person, "p").name == "60"
