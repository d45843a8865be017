"""The app: settings, clock and randomness go in, a WSGI app comes out."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from datetime import UTC, datetime

from flask import Flask

from .api import Services, serve_api
from .api.shell import serve_shell
from .config import Config
from .store.access import Random, console
from .store.database import database, make_durable, migrate
from .store.quarantine import try_again
from .store.refusals import NotHere


def utc_now() -> datetime:
    return datetime.now(UTC)


def create_app(config: Config, now: Callable[[], datetime] = utc_now, random: Random = secrets.token_bytes) -> Flask:
    """The app over the database of `config`, its tables brought up to date. `random(n)` gives n random bytes."""
    if not config.database:
        config.data_folder.mkdir(parents=True, exist_ok=True)
    app = Flask("oddleg", static_folder=None)
    app.config["SQLALCHEMY_DATABASE_URI"] = config.database_address
    app.json.sort_keys = False  # type: ignore[attr-defined]
    database.init_app(app)
    with app.app_context():
        make_durable(database.engine)
        migrate(database.engine)
    serve_api(app, Services(config, now, random))
    serve_shell(app, config.built_pwa)
    with app.app_context():
        try:
            try_again(console(), now())
        except NotHere:
            pass  # no office user yet, hence no entries either
    return app
