"""One row of a fitting chart: out of the texts of its cells, back into them, and the code for its figures."""

from __future__ import annotations

import csv
import dataclasses
import hashlib
import io
import json
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from itertools import pairwise
from typing import Any, get_type_hints

from oddleg.job import ROW_OF, HardwareKind, HardwareRow, Hinge, Pin, Plate, PullOut, Runner
from oddleg.plan.hardware import KIND_OF

from .columns import Column, Holds, columns

MM_PER_INCH = 25.4
# A figure of so many digits after the point that comes to a round one as inches was read off another sheet.
INCH_DIGITS, ROUND_MM, SAME_MM = 3, 0.5, 0.02
SHA_LENGTH = 16
# More holes than this no piece of hardware has.
GREATEST_LISTED = 64
SLUG = re.compile(r"[a-z0-9][a-z0-9-]{0,63}", re.ASCII)
NUMBER = re.compile(r"[-+]?\d{1,9}(?:[.,]\d{1,9})?", re.ASCII)
THOUSANDS = re.compile(r"[-+]?[1-9]\d{0,2},\d{3}", re.ASCII)
# Their screws and pins go in further than they are wide (common practice); sockets of legs and pegs need not.
DEEPER_THAN_WIDE = (Runner, Hinge, Plate, Pin)
CONTROLS = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]")


@dataclass(frozen=True)
class Wrong:
    column: str
    wrong: str


class CellError(ValueError):
    """What is wrong with one cell. `value`: what it says all the same, so that it can be drawn; None: nothing."""

    def __init__(self, wrong: str, value: Any = None) -> None:
        super().__init__(wrong)
        self.value = value


def row_read(kind: HardwareKind, cells: Mapping[str, str]) -> tuple[HardwareRow | None, tuple[Wrong, ...]]:
    """The row, and what is wrong with it: None where a figure is missing or cannot be read, so that there is nothing to
    draw. A row that is there may still be out of range, or wrong between its figures."""
    wrongs: list[Wrong] = []
    values: dict[str, Any] = {}
    for column in columns(kind):
        try:
            values[column.name] = _value(column, cells.get(column.name, ""))
        except CellError as error:
            wrongs.append(Wrong(column.name, str(error)))
            if error.value is not None:
                values[column.name] = error.value
    if len(values) < len(columns(kind)):
        return None, tuple(wrongs)
    made = ROW_OF[kind]
    types = row_types(made)
    for column in columns(kind):
        if column.holds is Holds.CHOICE:
            values[column.name] = types[column.name](values[column.name])
    row = made(**values)
    row = dataclasses.replace(row, sha=row_sha(kind, row))
    return row, tuple(wrongs or _between(kind, row))


@cache
def row_types(made: type[HardwareRow]) -> dict[str, Any]:
    return get_type_hints(made)


def row_sha(kind: HardwareKind, row: HardwareRow) -> str:
    """16 hex digits of SHA-256 over kind and all that the row says but the day of its check: to check a row anew does
    not make another of it."""
    said = {name: value for name, value in dataclasses.asdict(row).items() if name not in ("sha", "checked_on")}
    text = json.dumps({"kind": kind, **said}, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()[:SHA_LENGTH]


def row_texts(row: HardwareRow) -> dict[str, str]:
    """What stands in each cell; read again it gives the same row."""
    return {column.name: _text(getattr(row, column.name)) for column in columns(KIND_OF[type(row)])}


def write_csv(kind: HardwareKind, rows: Sequence[HardwareRow]) -> str:
    """The chart as CSV: commas, decimal points, a column `kind` first."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(["kind", *(one.name for one in columns(kind))])
    for row in rows:
        writer.writerow([str(kind), *row_texts(row).values()])
    return out.getvalue()


def _text(value: Any) -> str:
    if isinstance(value, float):
        return repr(value).removesuffix(".0")
    if isinstance(value, tuple):
        return " ".join(map(_text, value))
    return str(value)


def _value(column: Column, text: str) -> Any:
    """Raises CellError."""
    if not text:
        if column.needed:
            raise CellError(f"Nothing is here: {column.words}. Allowed: {column.allowed}.")
        return () if column.holds in (Holds.NUMBERS, Holds.CHOICES) else ""
    match column.holds:
        case Holds.NUMBER:
            return _number(column, text)
        case Holds.NUMBERS:
            return _numbers(column, text)
        case Holds.CHOICE:
            return _choice(column, text)
        case Holds.CHOICES:
            return tuple(_choice(column, word) for word in re.split(r"[\s,;]+", text) if word)
        case Holds.ID:
            if not SLUG.fullmatch(text):
                raise CellError(f"{text[:40]} cannot be used: {column.words}. Allowed: {column.allowed}.")
        case Holds.DAY:
            if not re.fullmatch(r"\d{4}-\d\d-\d\d", text, re.ASCII) or not _is_day(text):
                raise CellError(f"{text[:40]} is no day. Allowed: {column.allowed}.")
        case Holds.WORDS:
            if len(text) > 200 or CONTROLS.search(text):
                raise CellError(f"It is too long, or has a control character in it. Allowed: {column.allowed}.")
    return text


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _choice(column: Column, text: str) -> str:
    word = text.lower()
    if word not in column.choices:
        raise CellError(f"{text[:40]} is none of the words allowed: {', '.join(column.choices)}.")
    return word


def _numbers(column: Column, text: str) -> tuple[float, ...]:
    found = tuple(_number(column, one) for one in text.replace(";", " ").split())
    if not found:
        raise CellError(f"There is no figure in it. Allowed: {column.allowed}.")
    if len(found) > GREATEST_LISTED:
        raise CellError(f"There are {len(found)} figures in it; at most {GREATEST_LISTED} are taken.")
    if column.from_nought and found[0] != 0:
        raise CellError(f"The first is {found[0]:g}, and it counts from itself: it must be 0.", found)
    if column.rises and any(b <= a for a, b in pairwise(found)):
        raise CellError(f"They must rise from one to the next: {text[:80]}.", found)
    return found


def _number(column: Column, text: str) -> float:
    """Decimal point or comma. Raises CellError, with what an inch figure would be in mm."""
    plain = text.replace("\u2212", "-")
    if THOUSANDS.fullmatch(plain):
        raise CellError(
            f"{text} may be read in two ways; write {plain.replace(',', '')} or {plain.replace(',', '.').rstrip('0')}."
        )
    if not NUMBER.fullmatch(plain):
        raise CellError(f"{text[:40]} is no figure. Allowed: {column.allowed}; figures alone, no unit, no fraction.")
    value = float(plain.replace(",", "."))
    as_mm = value * MM_PER_INCH
    of_mm = column.unit == "mm"
    if not column.least <= value <= column.greatest:
        inches = of_mm and value > 0 and column.least <= as_mm <= column.greatest and not _is_round(value)
        hint = f" In inches? {plain.lstrip('+')} in is {as_mm:.1f} mm." if inches else ""
        sign = " It may not be negative." if value < 0 <= column.least else ""
        raise CellError(f"{text} is out of range; allowed: {column.allowed}.{sign}{hint}", value)
    digits = len(re.split("[.,]", plain)[1]) if re.search("[.,]", plain) else 0
    if of_mm and digits >= INCH_DIGITS and abs(as_mm - round(as_mm / ROUND_MM) * ROUND_MM) <= SAME_MM:
        raise CellError(
            f"{text} looks like inches: {plain} in is {as_mm:.1f} mm. Give it in mm; if it is mm, two digits after the "
            "point are enough.",
            value,
        )
    return value + 0.0


def _is_round(value: float) -> bool:
    return value == int(value)


def _between(kind: HardwareKind, row: HardwareRow) -> list[Wrong]:
    """What is wrong between figures that are each right."""
    found = []
    for column in columns(kind):
        value = getattr(row, column.name)
        greatest = getattr(row, column.pair) if column.pair is not None else math.inf
        if column.pair is not None and value > greatest:
            found.append(
                Wrong(
                    column.name,
                    f"{value:g} is more than {column.pair}, {greatest:g}: the two are swapped.",
                )
            )
        others = len(getattr(row, column.along_with)) if column.along_with is not None else 0
        if column.along_with is not None and len(value) != others:
            told = f"It has {len(value)} figures and {column.along_with} {others}; each belongs to one of the other."
            found.append(Wrong(column.name, told))
    if isinstance(row, Runner):
        last_mm = row.first_mm + row.screws_mm[-1]
        if last_mm > row.front_mm + row.length_mm:
            found.append(
                Wrong(
                    "screws_mm",
                    f"The last screw lies {last_mm:g} behind the front edge, beyond the end of the runner at "
                    f"{row.front_mm + row.length_mm:g}.",
                )
            )
        if row.base_shorter_mm >= row.length_mm:
            found.append(Wrong("base_shorter_mm", f"It leaves no base: the runner is {row.length_mm:g} long."))
    for bore, depth in (("hole_mm", "hole_depth_mm"), ("screw_mm", "screw_depth_mm")):
        wide_mm, deep_mm = getattr(row, bore, 0.0), getattr(row, depth, math.inf)
        if isinstance(row, DEEPER_THAN_WIDE) and wide_mm > deep_mm:
            told = f"{wide_mm:g} across is more than {depth}, {deep_mm:g}: the two are swapped."
            found.append(Wrong(bore, told))
    if isinstance(row, Hinge) and row.cup_depth_mm >= row.least_door_mm:
        told = f"A cup {row.cup_depth_mm:g} deep comes out of a door of {row.least_door_mm:g}, the thinnest it is for."
        found.append(Wrong("cup_depth_mm", told))
    if isinstance(row, PullOut) and row.door_up_mm and min(row.door_hole_mm, row.door_hole_depth_mm) <= 0:
        found.append(Wrong("door_hole_mm", "There are holes in its front, so they need a bore and a depth above 0."))
    return found
