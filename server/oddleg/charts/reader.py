"""The one reader of fitting charts: from a CSV as spreadsheets save it, or from what was typed column by column.

Nothing here raises for what is in a file: what is wrong is a Problem by line and column, and the good rows come back
beside it.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from oddleg.job import HardwareKind, HardwareRow

from .chart_rows import Wrong, row_read
from .columns import Column, columns

GREATEST_ROWS, GREATEST_BYTES = 10_000, 8_000_000
# How the files begin that spreadsheets keep for themselves.
WORKBOOKS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
# A first line of this kind tells a spreadsheet its separator; it is no row.
SEPARATOR = re.compile(r"\s*sep=[,;\t]?\s*", re.IGNORECASE)
BLANKS = " \t\u00a0\u202f"
# What a spreadsheet puts first to say how its letters are written.
MARKS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))


@dataclass(frozen=True)
class Problem:
    """What is wrong in one place: `line` of the file, its header being 1 (of typed rows the first is 1); `row_id` as
    far as it is known; `column` empty where the whole line is meant."""

    line: int
    row_id: str
    column: str
    wrong: str


@dataclass(frozen=True)
class ChartRead:
    """`rows`: the good ones, in order."""

    kind: HardwareKind | None
    rows: tuple[HardwareRow, ...]
    problems: tuple[Problem, ...]


def read_csv(data: bytes, kind: HardwareKind | None = None) -> ChartRead:
    """The rows of a chart in a file. Without `kind` the file says it in a column `kind`, one word in every row.

    Separators: comma, semicolon or tab, whichever the header has; decimal commas where the separator is another. Byte
    order marks, blank lines and columns at the end, and any kind of line end are taken.
    """
    lines, broken = _lines(data)
    if not lines:
        return ChartRead(kind, (), tuple(broken))
    header, rows = [one.strip(BLANKS).lower() for one in lines[0][1]], lines[1:]
    while header and not header[-1]:
        header.pop()
    if kind is None:
        kind, problem = _kind_said(header, rows)
        if kind is None:
            return ChartRead(None, (), (problem,))
    found = _header_problems(kind, header, lines[0][0])
    if found:
        return ChartRead(kind, (), tuple(found))
    if len(rows) > GREATEST_ROWS:
        told = f"The file has {len(rows)} rows; at most {GREATEST_ROWS} are taken at once: part it."
        return ChartRead(kind, (), (Problem(1, "", "", told),))
    if not rows:
        return ChartRead(kind, (), tuple(broken) or (Problem(1, "", "", "There is a header and no row below it."),))
    found += broken
    texts: list[tuple[int, Mapping[str, str]]] = []
    for line, cells in rows:
        if len(cells) > len(lines[0][1]) or any(cell.strip(BLANKS) for cell in cells[len(header) :]):
            told = f"It has {len(cells)} cells and the header {len(header)}: a decimal comma, or a separator too many?"
            found.append(Problem(line, cells[0].strip(BLANKS), "", told))
            continue
        row = dict(zip(header, cells, strict=False))
        said = row.pop("kind", str(kind)).strip(BLANKS).lower()
        if said and said != kind:
            told = f"This row is of the kind {said}, and the chart of the kind {kind}: one kind a file."
            found.append(Problem(line, row.get("id", ""), "kind", told))
            continue
        texts.append((line, row))
    return _read(kind, texts, found)


def read_rows(kind: HardwareKind, rows: Sequence[Mapping[str, str]]) -> ChartRead:
    """The same for rows that were typed column by column; the first is line 1."""
    found: list[Problem] = []
    if len(rows) > GREATEST_ROWS:
        told = f"These are {len(rows)} rows; at most {GREATEST_ROWS} are taken at once."
        return ChartRead(kind, (), (Problem(1, "", "", told),))
    known = {one.name for one in columns(kind)}
    for line, row in enumerate(rows, 1):
        for name in sorted(set(row) - known):
            found.append(Problem(line, row.get("id", ""), name, _unknown(kind, name)))
    return _read(kind, list(enumerate(rows, 1)), found)


def _read(kind: HardwareKind, texts: Sequence[tuple[int, Mapping[str, str]]], found: list[Problem]) -> ChartRead:
    rows: list[HardwareRow] = []
    first: dict[str, int] = {}
    for line, cells in texts:
        row, wrongs = row_read(kind, {name: text.strip(BLANKS) for name, text in cells.items()})
        id = cells.get("id", "").strip(BLANKS)
        if id and id in first:
            told = f"The id {id} is already that of line {first[id]}; give each row its own."
            wrongs = (*wrongs, Wrong("id", told))
        elif id:
            first[id] = line
        found += [Problem(line, id, one.column, one.wrong) for one in wrongs]
        if row is not None and not wrongs:
            rows.append(row)
    return ChartRead(kind, tuple(rows), tuple(sorted(found, key=lambda one: one.line)))


def _lines(data: bytes) -> tuple[list[tuple[int, list[str]]], list[Problem]]:
    """Lines that are not blank, with their numbers, as far as the file can be read; and why it cannot be further."""
    if len(data) > GREATEST_BYTES:
        return [], [_of_file(f"The file has {len(data) / 1e6:.1f} MB; at most {GREATEST_BYTES / 1e6:g} are taken.")]
    if data.startswith(WORKBOOKS):
        told = "This is a spreadsheet's own file: open it there, save the sheet as CSV and try again."
        return [], [_of_file(told)]
    text = _text(data)
    if text is None:
        return [], [_of_file("This is no text: save it as CSV (comma separated values) and try again.")]
    if "\x00" in text:
        return [], [_of_file("There are zero bytes in it, so it is no CSV; save it as CSV and try again.")]
    filled = (line for line in text.splitlines() if line.strip(BLANKS) and not SEPARATOR.fullmatch(line))
    head = next(filled, "")
    separator = max(",;\t", key=head.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    lines: list[tuple[int, list[str]]] = []
    line = 1
    try:
        for cells in reader:
            names_separator = not lines and SEPARATOR.fullmatch(separator.join(cells))
            if any(cell.strip(BLANKS) for cell in cells) and not names_separator:
                lines.append((line, cells))
            line = reader.line_num + 1
    except csv.Error:
        told = "A quotation mark is left open or stands alone here, so nothing from this line on was read."
        return lines, [Problem(line, "", "", told)]
    return lines, [] if lines else [_of_file("The file is empty.")]


def _of_file(wrong: str) -> Problem:
    return Problem(1, "", "", wrong)


def _text(data: bytes) -> str | None:
    """UTF-8 or, with its mark, UTF-16; else the letters that spreadsheets use in western Europe."""
    marked = next((name for mark, name in MARKS if data.startswith(mark)), None)
    for name in (marked,) if marked else ("utf-8", "cp1252"):
        try:
            return data.decode(name)
        except UnicodeDecodeError:
            continue
    return None


def _kind_said(header: Sequence[str], rows: Sequence[tuple[int, list[str]]]) -> tuple[HardwareKind | None, Problem]:
    kinds = ", ".join(HardwareKind)
    if "kind" not in header:
        return None, Problem(1, "", "kind", f"The column kind is missing; it holds one word in every row: {kinds}.")
    at = header.index("kind")
    for line, cells in rows:
        said = cells[at].strip(BLANKS).lower() if len(cells) > at else ""
        if said in list(HardwareKind):
            return HardwareKind(said), Problem(line, "", "", "")
        return None, Problem(line, "", "kind", f"{said or 'Nothing'} is no kind of hardware; allowed: {kinds}.")
    return None, Problem(1, "", "", "There is a header and no row below it.")


def _header_problems(kind: HardwareKind, header: Sequence[str], line: int) -> list[Problem]:
    known = {one.name: one for one in columns(kind)}
    found = [
        Problem(line, "", name, f"The column {name} is missing: {one.words}. Allowed in it: {one.allowed}.")
        for name, one in known.items()
        if name not in header and may_not_lack(one)
    ]
    for name in dict.fromkeys(header):
        if header.count(name) > 1:
            found.append(Problem(line, "", name, f"The column {name} is in it {header.count(name)} times."))
        if name not in known and name != "kind":
            found.append(Problem(line, "", name, _unknown(kind, name)))
    return found


def may_not_lack(column: Column) -> bool:
    """Every column has to be there, empty or not, but the day of the check."""
    return column.needed or column.name != "checked_on"


def _unknown(kind: HardwareKind, name: str) -> str:
    names = [one.name for one in columns(kind)]
    near = get_close_matches(name, names, 1, 0.6)
    hint = f" Is {near[0]} meant?" if near else f" Allowed: {', '.join(names)}."
    return f"A chart of this kind has no column {name[:64] or 'without a name'}.{hint}"
