"""What the app was made with: settings, clock and randomness, handed in and never patched."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from flask import current_app, g

from oddleg.config import Config
from oddleg.store.access import Caller, Random

MARKER = "oddleg/1"
BASE = "/api/v1"


@dataclass(frozen=True)
class Services:
    config: Config
    now: Callable[[], datetime]
    random: Random


def services() -> Services:
    found: Services = current_app.extensions["oddleg"]
    return found


def caller() -> Caller:
    found: Caller = g.caller
    return found
