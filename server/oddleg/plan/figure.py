"""A shown quantity: its value, the text that every screen, drawing and sheet prints, and the sentence behind it."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal


@dataclass(frozen=True)
class Figure:
    """`mm` unrounded, `text` as shown, `why`: one sentence of readings, rule and give or take."""

    mm: float
    text: str
    why: str = ""


def rounded_mm(value_mm: float, step_mm: float = 0.5) -> Decimal:
    """The value to the nearest multiple of `step_mm`, half away from zero. The one place where the program rounds.

    Works on the shortest decimal that stands for the float, so that a value written 0.25 is a half and 2.675 too.
    Raises ValueError where the value is not finite or the step not positive.
    """
    if not step_mm > 0:
        raise ValueError(f"rounding step must be above 0, not {step_mm}")
    value, step = Decimal(repr(float(value_mm))), Decimal(repr(float(step_mm)))
    if not value.is_finite():
        raise ValueError(f"{value_mm} is not a length")
    return (abs(value) / step).quantize(Decimal(1), ROUND_HALF_UP) * step * (-1 if value < 0 else 1)


def text_mm(value_mm: float, step_mm: float = 0.5, signed: bool = False) -> str:
    """The number as shown, without unit: no trailing zeros; a true minus sign; `signed` puts + before a gain."""
    value = rounded_mm(value_mm, step_mm)
    digits = format(abs(value), "f")
    if "." in digits:
        digits = digits.rstrip("0").rstrip(".")
    if value == 0:
        return "0"
    return ("\N{MINUS SIGN}" if value < 0 else "+" if signed else "") + digits


def figure(value_mm: float, step_mm: float = 0.5, why: str = "", signed: bool = False) -> Figure:
    return Figure(value_mm, text_mm(value_mm, step_mm, signed), why)
