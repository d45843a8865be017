"""A moment as people on the job write it."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo


def local_time(at_utc: str, time_zone: str) -> str:
    """A phone's time as words in the job's time zone; as it came where it is no time."""
    try:
        at = datetime.fromisoformat(at_utc).astimezone(ZoneInfo(time_zone))
    except (ValueError, KeyError):
        return at_utc
    return f"{at.day} {at:%B %Y}, {at:%H:%M}"
