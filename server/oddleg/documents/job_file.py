"""The job file, format 1: a JSON document for the job, checked whole on the way in and written alike on the way out."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from functools import cache
from typing import Any
from zoneinfo import available_timezones

from marshmallow import ValidationError

from oddleg.charts import flatness_classes
from oddleg.job import Flatness, Instrument, Job, Laser, Tolerances

from .fields import Choice, Known, Listing, Number, Part, Record, Slug, Text, by_path, reversed_limits
from .fitting_out_record import HoleLimitsRecord, PinnedRowRecord
from .job_checks import clashes_of
from .numbers import DECIMALS
from .room_record import RoomRecord
from .services_record import CutOutRuleRecord
from .strict_json import DocumentError, refused

FORMAT = 1
Document = dict[str, Any]

# Of each older format, the function that makes the next one of it. Format 1 is the first.
RAISING: Mapping[int, Callable[[Document], Document]] = {}


@cache
def time_zones() -> frozenset[str]:
    return frozenset(available_timezones())


def flatness_names() -> frozenset[str]:
    return frozenset(one.name for one in flatness_classes())


class LaserRecord(Record):
    makes = Laser
    id = Slug()
    name = Text()
    slope_mm_per_m = Number(0, 20, "mm/m")


class InstrumentRecord(Record):
    makes = Instrument
    id = Slug()
    name = Text()
    unit = Choice(tuple(DECIMALS))
    decimals = Number(0, 4, "digits", whole=True)
    resolution_mm = Number(0.01, 100)

    def clashes(self, made: Instrument) -> dict[str, str]:
        most = DECIMALS[made.unit]
        if made.decimals > most:
            return {"decimals": f"In {made.unit} at most {most} digits after the decimal mark can be entered."}
        return {}


class TolerancesRecord(Record):
    makes = Tolerances
    reading_noise_mm = Number(0.01, 20)
    repeat_mm = Number(0, 100)
    misclosure_mm = Number(0, 100)
    off_line_mm = Number(0, 500)
    unevenness_mm = Number(0, 100)
    between_mm = Number(0, 500)
    good_enough_mm = Number(0, 100)
    spacing_mm = Number(100, 20_000)
    leg_reach_mm = Number(0, 20_000)
    line_reach_mm = Number(0, 5_000)
    profile_reach_mm = Number(0, 20_000)
    leg_set_mm = Number(0, 50)
    knock_mm = Number(0, 100)
    unseen_knock_mm = Number(0, 100)
    unchecked_slope_times = Number(1, 20, "times")
    six_legs_from_mm = Number(1, 20_000)
    least_reading_mm = Number(0, 20_000)
    greatest_reading_mm = Number(0, 20_000)
    step_mm = Number(0, 5_000)
    plinth_bow_mm = Number(0.1, 50)
    wall_spacing_mm = Number(50, 5_000)
    wall_repeat_mm = Number(0, 100)
    wall_off_line_mm = Number(0, 500)
    scribe_mm = Number(0, 100)
    play_mm = Number(0, 100)
    bay_over_mm = Number(0, 100)
    unit_size_mm = Number(0, 20)
    greatest_joint_mm = Number(0, 20)
    tape_mm = Number(0, 50)

    def clashes(self, made: Tolerances) -> dict[str, str]:
        return reversed_limits(made, ("least_reading_mm", "greatest_reading_mm"))


class FlatnessRecord(Record):
    makes = Flatness
    name = Known("a flatness class", "DIN 18202 row 3", flatness_names)
    straightedge_mm = Number(100, 15_000)


class JobRecord(Record):
    makes = Job
    id = Slug()
    title = Text()
    place = Text(0)
    client = Text(0)
    time_zone = Known("a time zone", "Europe/London", time_zones)
    base_carcass_height_mm = Number(100, 2_000)
    lasers = Listing(Part(LaserRecord), greatest=50)
    instruments = Listing(Part(InstrumentRecord), greatest=50)
    rooms = Listing(Part(RoomRecord), greatest=100)
    rounding_mm = Number(0.1, 10)
    tolerances = Part(TolerancesRecord)
    flatness = Part(FlatnessRecord)
    packs_mm = Listing(Number(0.1, 100), 1, 50)
    removed_ids = Listing(Slug(), greatest=20_000)
    hardware = Listing(Part(PinnedRowRecord), greatest=2_000)
    holes = Part(HoleLimitsRecord)
    cut_outs = Part(CutOutRuleRecord)

    def clashes(self, made: Job) -> dict[str, str]:
        if len(set(made.packs_mm)) < len(made.packs_mm):
            return {"packs_mm": "The same packer is in it twice; give each thickness once."}
        if made.rounding_mm * 100 != round(made.rounding_mm * 100):
            return {"rounding_mm": "Shown figures have at most 2 decimals in mm; allowed: multiples of 0.01, 0.5 say."}
        return {}


RECORD = JobRecord()


def load_job(document: Any) -> Job:
    """The job that a document of any format so far stands for. Raises DocumentError with what is wrong, by path."""
    body = raised(document)
    try:
        job: Job = RECORD.load(body)
    except ValidationError as error:
        raise DocumentError(by_path(error.messages)) from None
    if clashes := clashes_of(job):
        raise DocumentError(clashes)
    return job


def raised(document: Any) -> Document:
    """The document in the format of today, without its format number."""
    if not isinstance(document, dict):
        refused("A job file is one object in curly brackets.")
    number = document.get("format")
    if "format" not in document:
        refused(f"This field is missing; allowed: 1 to {FORMAT}.", "format")
    if isinstance(number, bool) or not isinstance(number, int) or not 1 <= number <= FORMAT:
        refused(f"This program reads the formats 1 to {FORMAT}; a newer file needs a newer program.", "format")
    body = {name: value for name, value in document.items() if name != "format"}
    for older in range(number, FORMAT):
        body = RAISING[older](body)
    return body


def dump_job(job: Job) -> Document:
    """The document of a job, every field written out, in the order of the records."""
    return {"format": FORMAT, **RECORD.dump(job)}


def job_text(job: Job) -> str:
    """The text of a job file. The same job always gives the same bytes."""
    return json.dumps(dump_job(job), ensure_ascii=False, indent=1, allow_nan=False) + "\n"
