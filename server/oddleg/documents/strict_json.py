"""JSON from outside, read strictly: RFC 8259 without doubled names, NaN, lone surrogates or NUL, and within bounds."""

from __future__ import annotations

import json
import math
import re
from typing import Any, NoReturn

GREATEST_BYTES = 4_000_000
GREATEST_DEPTH = 32
GREATEST_DIGITS = 40
WHOLE = "document"


class DocumentError(ValueError):
    """What is wrong with a document: texts by path ("rooms.0.runs.1.width_mm"); "document" stands for all of it."""

    def __init__(self, errors: dict[str, list[str]]) -> None:
        super().__init__("; ".join(f"{path}: {' '.join(texts)}" for path, texts in errors.items()))
        self.errors = errors


def refused(text: str, path: str = WHOLE) -> NoReturn:
    raise DocumentError({path: [text]})


def unsound_text(text: str) -> str | None:
    """Why a text cannot be kept (NUL, half of a surrogate pair), or None."""
    if "\0" in text:
        return "There is a NUL character in it; take it out."
    if re.search("[\ud800-\udfff]", text):
        return "There is half of a surrogate pair in it, which is no character; take it out."
    return None


def parse_json(data: bytes, greatest_bytes: int = GREATEST_BYTES, greatest_depth: int = GREATEST_DEPTH) -> Any:
    """The value that the bytes stand for. Raises DocumentError, and nothing else, whatever the bytes are."""
    if len(data) > greatest_bytes:
        refused(f"The document has {len(data)} bytes; {greatest_bytes} at most are read.")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        refused(f"Byte {error.start} is not UTF-8; save the file as UTF-8.")
    try:
        value = json.loads(
            text,
            object_pairs_hook=_object,
            parse_constant=_constant,
            parse_float=_decimal,
            parse_int=_integer,
        )
    except json.JSONDecodeError as error:
        refused(f"This is not JSON: line {error.lineno}, column {error.colno}: {error.msg}.")
    except RecursionError:
        refused(f"Nested too deep: {greatest_depth} levels at most.")
    _walk(value, greatest_depth)
    return value


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        seen: set[str] = set()
        for name, _ in pairs:
            if name in seen:
                refused(f"The name {json.dumps(name[:64])} is given twice in one object; leave one.")
            seen.add(name)
    return found


def _constant(name: str) -> NoReturn:
    refused(f"{name} is no number in JSON; write a number or null.")


def _decimal(digits: str) -> float:
    value = float(digits) if len(digits) <= GREATEST_DIGITS else math.inf
    if not math.isfinite(value):
        refused(f"The number {digits[:20]} is too large or has too many digits.")
    return value


def _integer(digits: str) -> int:
    if len(digits) > GREATEST_DIGITS:
        refused(f"The number {digits[:20]}... has too many digits.")
    return int(digits)


def _walk(value: Any, greatest_depth: int) -> None:
    waiting = [(value, "", 1)]
    while waiting:
        node, path, depth = waiting.pop()
        if depth > greatest_depth and isinstance(node, dict | list):
            refused(f"Nested too deep: {greatest_depth} levels at most.", path or WHOLE)
        if isinstance(node, str) and (why := unsound_text(node)):
            refused(why, path or WHOLE)
        elif isinstance(node, dict):
            for name, inner in node.items():
                if why := unsound_text(name):
                    refused(f"A name here cannot be kept. {why}", path or WHOLE)
                waiting.append((inner, joined(path, name), depth + 1))
        elif isinstance(node, list):
            waiting.extend((inner, joined(path, place), depth + 1) for place, inner in enumerate(node))


def joined(path: str, step: str | int) -> str:
    return f"{path}.{step}" if path else str(step)
