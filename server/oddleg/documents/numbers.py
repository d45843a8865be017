"""One grammar for numbers as typed on site. The phone has the same, and tests/number_cases.json drives both.

Spaces (U+0020) around the number are ignored. Then: a sign or none (+, - or the true minus sign, which the program's
own texts print), ASCII digits, and at most one comma or point, which is the decimal mark, with a digit on both sides of
it. No grouping, exponent, words or units. At most 7 digits before the mark; after it at most 2 in mm, 3 in cm, 4 in m.
"""

from __future__ import annotations

import re
from decimal import Decimal

DECIMALS = {"mm": 2, "cm": 3, "m": 4}
POWERS_OF_TEN = {"mm": 0, "cm": 1, "m": 3}
DIGITS_BEFORE_MARK = 7

REASONS = {
    "unit": "The unit must be mm, cm or m.",
    "empty": "Nothing was typed.",
    "characters": "Use digits, one comma or point and a sign in front; nothing else.",
    "sign": "Only one sign, in front of the number.",
    "marks": "Only one comma or point.",
    "digits": "There is no digit.",
    "edge": "A digit is missing before or after the comma or point.",
    "long": "At most 7 digits before the comma or point.",
    "decimals": "Too many digits after the comma or point: 2 at most in mm, 3 in cm, 4 in m.",
}


class NumberError(ValueError):
    """What was typed is no number by the grammar. `code` is a key of REASONS; the text is the reason in plain words."""

    def __init__(self, code: str) -> None:
        super().__init__(REASONS[code])
        self.code = code


def parsed(raw: str, unit: str) -> Decimal:
    """The typed number in mm, exact. Raises NumberError with the first reason that applies, in the order of REASONS."""
    if unit not in DECIMALS:
        raise NumberError("unit")
    text = raw.strip(" ")
    if not text:
        raise NumberError("empty")
    if re.search(r"[^0-9+\-\u2212,.]", text):
        raise NumberError("characters")
    negative = text[0] in "-\u2212"
    unsigned = text[1:] if text[0] in "+-\u2212" else text
    if re.search(r"[+\-\u2212]", unsigned):
        raise NumberError("sign")
    whole, *rest = re.split(r"[,.]", unsigned)
    if len(rest) > 1:
        raise NumberError("marks")
    decimals = rest[0] if rest else ""
    if not whole and not decimals:
        raise NumberError("digits")
    if not whole or (rest and not decimals):
        raise NumberError("edge")
    if len(whole) > DIGITS_BEFORE_MARK:
        raise NumberError("long")
    if len(decimals) > DECIMALS[unit]:
        raise NumberError("decimals")
    digits = tuple(int(digit) for digit in whole + decimals)
    value = Decimal((0, digits, POWERS_OF_TEN[unit] - len(decimals)))
    return -value if negative and value else value


def decimal_text(value: Decimal) -> str:
    """The one text of a number in mm: ASCII minus and point, no exponent, no zeros at either end, "0" for nought."""
    if not value.is_finite():
        raise ValueError(f"{value} is not a length")
    digits = format(value, "f")
    if "." in digits:
        digits = digits.rstrip("0").rstrip(".")
    sign = "-" if digits.startswith("-") else ""
    whole, point, rest = digits.lstrip("+-").partition(".")
    unsigned = (whole.lstrip("0") or "0") + point + rest
    return unsigned if unsigned == "0" else sign + unsigned
