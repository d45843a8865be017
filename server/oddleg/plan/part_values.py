"""The small values that parts are made of: figures, findings, and the mark that stands for shown texts."""

from __future__ import annotations

import hashlib
import json
from typing import Any

from oddleg.job import Handing, Item

from .figure import Figure
from .finding import Finding

Part = dict[str, Any]

# No letter or digit that is taken for another when it is read off a sheet and typed.
MARK_SIGNS = "23456789abcdefghjkmnpqrstuvwxyz"
MARK_LENGTH = 6
# Exact lengths, old marks, and what the fitter ticked where it still is: a sheet is not out of date for any of them.
NO_TEXTS = frozenset({"mm", "mark", "x_mm", "y_mm", "marked", "drilled"})


def mark_of(shown: object) -> str:
    """Six characters that stand for the shown texts in `shown`. Exact lengths (`mm`), old marks and the ticks of marks
    on a rod (`marked`) and of holes (`drilled`) do not count; that one has moved since (`moved`) does."""
    text = json.dumps(_texts(shown), ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    number = int.from_bytes(hashlib.sha256(text.encode()).digest()[:8], "big")
    signs = []
    for _ in range(MARK_LENGTH):
        number, sign = divmod(number, len(MARK_SIGNS))
        signs.append(MARK_SIGNS[sign])
    return "".join(signs)


def figure_part(one: Figure | None) -> Part | None:
    """`mm` to the millionth: one reading more moves the last bits of every level, and no part may travel for those."""
    return None if one is None else {"mm": round(one.mm, 6) + 0.0, "text": one.text, "why": one.why}


def finding_part(one: Finding) -> Part:
    """An amount that brings no sentence of its own opens to the rule that it was found by, else to what is wrong."""
    amount = figure_part(one.amount)
    if amount is not None and not amount["why"]:
        rule = one.source.rstrip(".") or one.wrong.rstrip(".")
        amount["why"] = f"{rule[:1].upper()}{rule[1:]}."
    return {
        "rule": one.rule,
        "severity": one.severity.value,
        "place": one.place,
        "wrong": one.wrong,
        "cure": one.cure,
        "source": one.source,
        "amount": amount,
        "concerns": list(one.concerns),
        "caution": one.caution,
    }


def _texts(shown: object) -> object:
    if isinstance(shown, dict):
        return {key: _texts(value) for key, value in shown.items() if key not in NO_TEXTS}
    if isinstance(shown, list | tuple):
        return [_texts(one) for one in shown]
    return shown


def handing_words(item: Item) -> str:
    """How the unit's door hangs, in words."""
    words = {
        Handing.LEFT: "door hung on the left",
        Handing.RIGHT: "door hung on the right",
        Handing.PAIR: "pair of doors",
        Handing.NONE: "no door",
    }
    return words[getattr(item, "handing", Handing.NONE)]
