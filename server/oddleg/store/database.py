"""The database, its transactions and its migrations. SQLite here; portable to PostgreSQL in shape."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config as MigrationConfig
from flask_sqlalchemy import SQLAlchemy
from sqlalchemy import Connection, Engine, event
from sqlalchemy.orm import DeclarativeBase, Session

BUSY_TIMEOUT_MS = 10_000
WRITING = "oddleg_writing"


class Base(DeclarativeBase):
    pass


database = SQLAlchemy(model_class=Base, disable_autonaming=True)


def make_durable(engine: Engine) -> None:
    """SQLite: write-ahead log, every commit on disk, patience, foreign keys; and a writer takes its lock at BEGIN.

    A transaction that reads first and locks later fails under load in spite of the timeout, so the driver's own
    transactions are off and BEGIN is sent from here.
    """
    if engine.dialect.name != "sqlite":
        return

    @event.listens_for(engine, "connect")
    def prepare(raw: Any, _record: Any) -> None:
        raw.isolation_level = None
        cursor = raw.cursor()
        for setting in (
            f"busy_timeout={BUSY_TIMEOUT_MS}",
            "journal_mode=WAL",
            "synchronous=FULL",
            "foreign_keys=ON",
        ):
            cursor.execute(f"PRAGMA {setting}")
        cursor.close()

    @event.listens_for(engine, "begin")
    def begin(connection: Connection) -> None:
        writing = connection.get_execution_options().get(WRITING)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")


@contextmanager
def writing() -> Iterator[Session]:
    """One transaction that may write: committed at the end, rolled back on any exception. What was read before it is
    read again, so that nothing is decided on old rows."""
    session = database.session()
    session.rollback()
    session.connection(execution_options={WRITING: True})
    try:
        yield session
        session.commit()
    except BaseException:
        session.rollback()
        raise


def migration_config(connection: Connection) -> MigrationConfig:
    config = MigrationConfig()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    config.attributes["connection"] = connection
    return config


def migrate(engine: Engine) -> None:
    """Brings the tables to this program's version; safe to run at every start."""
    with engine.connect().execution_options(**{WRITING: True}) as connection, connection.begin():
        command.upgrade(migration_config(connection), "head")


__all__ = ["Base", "database", "make_durable", "migrate", "writing"]
