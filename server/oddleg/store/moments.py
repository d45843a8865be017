"""Times as the tables keep them."""

from __future__ import annotations

from datetime import UTC, datetime


def moment(at: datetime) -> str:
    """UTC to the millisecond, as text. Raises ValueError for a time without zone."""
    if at.tzinfo is None:
        raise ValueError("a time needs its zone")
    return at.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
