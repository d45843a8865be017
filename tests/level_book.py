"""A published level book as entries: each laser position of the book a set-up, change points shared stations."""

import csv
from dataclasses import dataclass, field
from pathlib import Path

from sample_survey import Log, levels_of

from oddleg.job import BenchMark


@dataclass
class Book:
    """Rows of a book in metres; heights in metres too, readings in mm. A back sight opens a set-up, a fore sight ends it."""

    rows: list
    start_m: float
    close_m: float | None = None
    log: Log = field(default_factory=Log)
    stations: dict = field(default_factory=dict)

    def __post_init__(self):
        number = 0
        for row in self.rows:
            if number and (row["intermediate"] or row["fore"]):
                self._read(number, row["point"], row["intermediate"] or row["fore"])
            if row["back"]:
                number += 1
                self.log.set_up(f"set-up {number}")
                self._read(number, row["point"], row["back"])
        self.set_ups = number

    def _read(self, number, point, metres):
        self.log.read_at(f"set-up {number}", point, float(metres) * 1000)

    @property
    def marks(self):
        first, last = self.rows[0]["point"], self.rows[-1]["point"]
        known = [(first, self.start_m)] + ([(last, self.close_m)] if self.close_m is not None else [])
        return tuple(BenchMark(point, point, metres * 1000) for point, metres in known)

    def levels(self, **tolerances):
        """A staff for levelling is 4 m long; a joiner's is shorter."""
        return levels_of(self.log, self.marks, greatest_reading_mm=4000.0, **tolerances)

    def total_m(self, column):
        return sum(float(row[column]) for row in self.rows if row[column])

    def is_change_point(self, row):
        return bool(row["back"] and row["fore"])


def book(name, start_m, close_m=None):
    with (Path(__file__).parent / "published" / name).open(encoding="utf-8", newline="") as file:
        return Book(list(csv.DictReader(file)), start_m, close_m)


def levels_m(levels):
    return {one.station: one.level_mm / 1000 for one in levels.stations}
