"""The demo's job and entries, for tests that want a whole survey."""

import json
from functools import cache
from pathlib import Path

from oddleg.charts import charts
from oddleg.documents import load_job, parse_json, parsed_entry
from oddleg.plan import plan

DEMO = Path(__file__).parents[1] / "demo"


@cache
def job():
    return load_job(parse_json((DEMO / "hall.json").read_bytes()))


@cache
def entries():
    book = json.loads((DEMO / "hall-entries.json").read_text(encoding="utf-8"))
    return tuple(parsed_entry(one, position, "Ned") for position, one in enumerate(book["entries"], 1))


@cache
def hall_plan():
    return plan(job(), entries(), charts())
