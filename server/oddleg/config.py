"""Settings, read once from the environment and handed to `create_app`."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

PORT = 8675


class BadSetting(ValueError):
    """A setting that cannot be used; the text says which and what it must be."""


@dataclass(frozen=True)
class Config:
    """`data_folder` holds the database where `database` names no other (an SQLAlchemy address).

    `origin` is the address that phones reach the server by, as printed in QR codes; None: not stated. `pwa_folder`: the
    built phone app; None: look in the package, then in a checkout beside it. Sizes in bytes, times in minutes.
    """

    data_folder: Path
    database: str = ""
    port: int = PORT
    origin: str | None = None
    name: str = "Oddleg"
    pwa_folder: Path | None = None
    greatest_body_bytes: int = 8_000_000
    greatest_from_revoked_bytes: int = 10_000_000
    code_minutes: int = 24 * 60
    wrong_codes: int = 30
    wrong_codes_minutes: int = 10

    @property
    def database_address(self) -> str:
        return self.database or f"sqlite:///{self.data_folder.resolve() / 'oddleg.sqlite3'}"

    @property
    def folder(self) -> str:
        """16 hex digits that stand for the data folder, so that a second start knows the server of its own folder."""
        return hashlib.sha256(str(self.data_folder.resolve()).encode()).hexdigest()[:16]

    @property
    def built_pwa(self) -> Path | None:
        """The folder with the built phone app, or None where there is none."""
        package = Path(__file__).parent
        places = [self.pwa_folder] if self.pwa_folder else [package / "pwa", package.parent.parent / "pwa" / "dist"]
        return next((place for place in places if (place / "index.html").is_file()), None)

    def at_port(self, port: int) -> Config:
        return replace(self, port=port)


def config_from(environment: Mapping[str, str] | None = None) -> Config:
    """Reads ODDLEG_DATA (folder; `oddleg-data` here if unset), ODDLEG_DATABASE, ODDLEG_PORT, ODDLEG_ORIGIN, ODDLEG_PWA.

    Raises BadSetting.
    """
    given = os.environ if environment is None else environment
    text = given.get("ODDLEG_PORT", "").strip()
    port = PORT if not text else int(text) if text.isascii() and text.isdigit() else 0
    if not 0 < port < 65536:
        raise BadSetting(f"ODDLEG_PORT is {text!r}: give a whole number from 1 to 65535")
    origin = given.get("ODDLEG_ORIGIN", "").strip().rstrip("/") or None
    if origin and not origin.startswith(("http://", "https://")):
        raise BadSetting(f"ODDLEG_ORIGIN is {origin!r}: give an address such as https://office.example:{PORT}")
    pwa = given.get("ODDLEG_PWA", "").strip()
    return Config(
        data_folder=Path(given.get("ODDLEG_DATA", "").strip() or "oddleg-data"),
        database=given.get("ODDLEG_DATABASE", "").strip(),
        port=port,
        origin=origin,
        pwa_folder=Path(pwa) if pwa else None,
    )
