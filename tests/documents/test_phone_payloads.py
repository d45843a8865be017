"""Payloads as phones send them are read, whatever becomes of this program: the phone's own tests make the same file."""

import json
from decimal import Decimal
from pathlib import Path

import pytest

from oddleg.documents.entry_kinds import KINDS
from oddleg.documents.payload import read_payload

SENT = json.loads((Path(__file__).parents[1] / "phone_payloads.json").read_text("utf-8"))["schema_1"]


@pytest.mark.parametrize("sent", SENT, ids=lambda sent: sent["kind"] if sent["data"] is not None else "undo")
def test_what_a_phone_sends_is_read(sent):
    read = read_payload(json.dumps(sent, ensure_ascii=False, separators=(",", ":")).encode())
    assert (read.kind, read.target) == (sent["kind"], sent["target"])
    assert (read.body is None) == (sent["data"] is None)
    assert read.value == (None if sent["value"] is None else Decimal(sent["value"]))


def test_every_kind_is_among_them():
    assert {sent["kind"] for sent in SENT} == set(KINDS)
