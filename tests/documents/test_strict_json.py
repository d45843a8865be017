"""Strict JSON, with Python's own reader as oracle for what is sound."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.documents.strict_json import DocumentError, parse_json


@pytest.mark.parametrize(
    "data",
    [
        b"", b" ", b"{", b"[1,]", b"{'a': 1}", b"\xff\xfe", b'"\xed\xa0\x80"', b"NaN", b"[Infinity]", b"-Infinity", b"1e400",
        b'{"a": 1, "a": 2}', b'{"a": {"b": 1, "b": 1}}', b'"\\ud800"', b'{"\\udfff": 1}', b'"\\u0000"', b'{"\\u0000": 1}', b'"\x00"',
        b"[" * 100000, b"[" * 40 + b"]" * 40, b'{"a":' * 5000 + b"1" + b"}" * 5000, b"1" * 5000, b"-" + b"9" * 41, b"0." + b"1" * 400,
        b"01", b"+1", b".5", b"1.", b"0x1", b"True", b'"a\nb"', b"1 2", b"\xef\xbb\xbf\xef\xbb\xbf1",
    ],
    ids=lambda data: repr(data[:20]),
)
def test_what_is_not_strict_json_is_refused_in_plain_words(data):
    with pytest.raises(DocumentError) as refused:
        parse_json(data)
    assert all(text.endswith(".") for texts in refused.value.errors.values() for text in texts)
    assert json.dumps(refused.value.errors).isascii()


def test_a_document_over_the_size_is_refused():
    assert parse_json(b'"1234567"', greatest_bytes=9) == "1234567"
    with pytest.raises(DocumentError):
        parse_json(b'"12345678"', greatest_bytes=9)


def test_a_byte_order_mark_before_a_saved_file_does_no_harm():
    assert parse_json(b'\xef\xbb\xbf{"a": 1}') == {"a": 1}


def test_the_place_of_what_cannot_be_kept_is_named():
    with pytest.raises(DocumentError) as refused:
        parse_json(b'{"rooms": [{"name": "a\\u0000"}]}')
    assert list(refused.value.errors) == ["rooms.0.name"]


@settings(derandomize=True, deadline=None)
@given(st.binary(max_size=60) | st.text(alphabet='{}[]",:\\u0d8a1e+-.NaIfinty ', max_size=40).map(str.encode))
def test_no_bytes_raise_anything_else(data):
    try:
        parse_json(data)
    except DocumentError:
        pass


SOUND = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**20), 10**20) | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.sampled_from("abcd"), inner, max_size=4),
    max_leaves=12,
)


@settings(derandomize=True, deadline=None)
@given(SOUND)
def test_sound_json_is_read_as_any_reader_reads_it(value):
    text = json.dumps(value)
    assert parse_json(text.encode()) == json.loads(text)
