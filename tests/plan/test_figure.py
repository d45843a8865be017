"""Rounding and text: one function for every number that is shown."""

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oddleg.plan.figure import rounded_mm, text_mm


@pytest.mark.parametrize(
    ("value_mm", "step_mm", "text"),
    [
        (875.25, 0.5, "875.5"),
        (-0.25, 0.5, "−0.5"),
        (0.2499, 0.5, "0"),
        (-0.2, 0.5, "0"),
        (2.675, 0.01, "2.68"),
        (152.5, 1, "153"),
        (-152.5, 1, "−153"),
        (720.0, 0.5, "720"),
        (1e-9, 0.1, "0"),
    ],
)
def test_halves_go_away_from_zero_and_nought_has_no_sign(value_mm, step_mm, text):
    assert text_mm(value_mm, step_mm) == text


def test_a_signed_figure_says_plus_and_a_true_minus():
    assert [text_mm(value, 1, signed=True) for value in (4, -4, 0)] == ["+4", "−4", "0"]


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_length_is_refused(value):
    with pytest.raises(ValueError, match="not a length"):
        rounded_mm(value)


def test_a_step_of_nought_is_refused():
    with pytest.raises(ValueError, match="above 0"):
        rounded_mm(1.0, 0.0)


@given(st.floats(-1e5, 1e5), st.sampled_from([0.1, 0.5, 1.0, 5.0]))
def test_rounding_moves_a_value_by_half_a_step_at_most_and_the_mirror_image_alike(value_mm, step_mm):
    rounded = rounded_mm(value_mm, step_mm)
    assert abs(rounded - Decimal(repr(value_mm))) <= Decimal(repr(step_mm)) / 2
    assert rounded_mm(-value_mm, step_mm) == -rounded
