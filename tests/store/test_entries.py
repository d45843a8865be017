"""Uids and chains, against the standards that they follow."""

import hashlib
import random
import uuid
from datetime import UTC, datetime

from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.store.entries import link, new_uid
from oddleg.store.moments import moment


@settings(derandomize=True, deadline=None, max_examples=50)
@given(st.datetimes(datetime(1970, 1, 2), datetime(2200, 1, 1)), st.integers())
def test_a_uid_is_a_uuid_of_version_7_with_its_time(at, seed):
    """RFC 9562, 5.7: 48 bits of milliseconds since 1970, version 7, variant 10."""
    at = at.replace(tzinfo=UTC)
    made = uuid.UUID(new_uid(at, random.Random(seed).randbytes))
    assert (made.version, made.variant) == (7, uuid.RFC_4122)
    assert made.int >> 80 == int(at.timestamp() * 1000)


def test_the_chain_is_sha_256_over_previous_uid_and_sha():
    assert link("0" * 64, "u", "s") == hashlib.sha256(("0" * 64 + "us").encode()).hexdigest()


def test_a_moment_is_utc_to_the_millisecond():
    assert moment(datetime.fromisoformat("2026-07-01T10:00:00.123456+02:00")) == "2026-07-01T08:00:00.123Z"
