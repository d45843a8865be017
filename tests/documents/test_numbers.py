"""The number grammar against the cases that the phone's tests read too, and against Python's own decimal arithmetic."""

import json
import re
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.documents.numbers import DECIMALS, POWERS_OF_TEN, REASONS, NumberError, decimal_text, parsed

FILE = json.loads((Path(__file__).parent.parent / "number_cases.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", FILE["cases"], ids=lambda case: f"{case['raw'][:12]!a} {case['unit']}")
def test_each_case_of_the_shared_file_is_read_as_it_says(case):
    if "value" in case:
        assert decimal_text(parsed(case["raw"], case["unit"])) == case["value"]
    else:
        with pytest.raises(NumberError) as refused:
            parsed(case["raw"], case["unit"])
        assert refused.value.code == case["reason"]
        assert str(refused.value) == FILE["reasons"][case["reason"]]


def test_the_shared_file_has_the_same_reasons_and_a_case_of_each():
    assert FILE["reasons"] == REASONS
    assert {case["reason"] for case in FILE["cases"] if "reason" in case} == set(REASONS)


@settings(derandomize=True, deadline=None)
@given(st.text(alphabet="0123456789+-,. \u2212e", max_size=12), st.sampled_from(sorted(DECIMALS)))
def test_what_one_regular_expression_allows_is_what_is_read(raw, unit):
    allowed = rf" *[+\-\u2212]?[0-9]{{1,7}}([.,][0-9]{{1,{DECIMALS[unit]}}})? *"
    if re.fullmatch(allowed, raw):
        plain = raw.strip().replace(",", ".").replace("\u2212", "-")
        assert parsed(raw, unit) == Decimal(plain) * 10 ** POWERS_OF_TEN[unit]
    else:
        with pytest.raises(NumberError):
            parsed(raw, unit)


@settings(derandomize=True, deadline=None)
@given(st.decimals(min_value=-9999999, max_value=9999999, places=2))
def test_the_text_of_a_number_is_read_back_as_itself_and_has_one_form(value):
    text = decimal_text(value)
    assert parsed(text, "mm") == value
    assert decimal_text(parsed(text, "mm")) == text
    assert text == "0" or not re.search(r"^-?0[0-9]|\.[0-9]*0$|^-0$", text)
