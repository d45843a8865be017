"""Whatever passes the door gets a plan: parts, drawings and canonical texts, the same twice, every figure finite."""

import re
from itertools import pairwise

from hypothesis import HealthCheck, given, settings
from odd_jobs import jobs_with_entries

from oddleg.api.pack import canonical, drawn
from oddleg.charts import charts
from oddleg.job import Filler
from oddleg.plan import plan
from oddleg.plan.parts import parts
from oddleg.plan.row import taken_mm

# What never belongs in a text that a fitter reads: a value of the program's, a minus made of a hyphen, an empty place.
PROGRAM_WORDS = re.compile(r"\bNone\b(?! of)|\bnan\b|\binf\b|\bTrue\b|\bFalse\b|\de[-+]\d|(?<![\w.])-\d|\d\.0\b|Figure\(|  | ,|\(\)|[a-z]_[a-z]")
TEXTS = {"text", "why", "words", "wrong", "cure", "place", "source", "next_words", "alt", "title", "opening_words", "anchor_words",
         "stock_words", "nesting_words", "joint_words", "end_words", "chance_words"}  # fmt: skip


def made_of(job, entries):
    made = plan(job, entries, charts())
    found, drawings = parts(made, 1), drawn(made)
    # No number that JSON has not: canonical() raises for one that is not finite.
    return made, found, drawings, canonical([found, drawings])


def texts(value, key=""):
    if isinstance(value, dict):
        for name, one in value.items():
            yield from texts(one, name)
    elif isinstance(value, list | tuple):
        for one in value:
            yield from texts(one, key)
    elif isinstance(value, str) and key in TEXTS:
        yield value


def unsaid(run):
    """What of a rod goes past an end, overlaps or is squeezed without a finding that says so."""
    rules, rod = {finding.rule for finding in run.findings}, run.rod
    for stands in (True, False):
        row = [one for one in rod.placed if one.stands is stands]
        for before, after in pairwise(row):
            if after.left_mm < before.right_mm - 1e-6:
                yield f"{after.item.id} overlaps {before.item.id}"
        for one in row:
            kept = 0.0 if isinstance(one.item, Filler) and one.item.share > 0 else taken_mm(one.item)
            if one.right_mm - one.left_mm < kept - 1e-6:
                yield f"{one.item.id} is squeezed"
            known = rod.opening is not None
            past = known and (one.left_mm < rod.left_mm - 1e-6 or one.right_mm > rod.right_mm + 1e-6)
            if past and "rod.too_long" not in rules:
                yield f"{one.item.id} is past an end"
    least = {item.id: item.least_mm for item in run.run.items if isinstance(item, Filler) and item.share > 0}
    for filler in rod.fillers:
        narrow = rod.opening is not None and filler.item in least and filler.wide.mm < least[filler.item] - 1e-6
        if narrow and not rules & {"rod.filler_narrow", "rod.too_long", "rod.mark_not_plumbed"}:
            yield f"{filler.item} is below its least"


@settings(derandomize=True, deadline=None, max_examples=40, suppress_health_check=list(HealthCheck))
@given(jobs_with_entries())
def test_every_odd_job_that_loads_gets_a_plan_with_its_parts_and_drawings(job_and_entries):
    job, entries = job_and_entries
    made, found, drawings, text = made_of(job, entries)
    assert made_of(job, entries)[-1] == text, "the same in, the same out"
    runs = [run for room in made.rooms for run in room.setting_out.runs]
    assert [run.run.id for run in runs] == [run.id for room in job.rooms for run in room.runs]
    assert [words for run in runs for words in unsaid(run)] == []
    for words in (*texts(found), *texts(drawings)):
        assert not PROGRAM_WORDS.search(words), words
    for fields in drawings.values():
        for one in fields.values():
            assert not re.search(r"[ \"](?:nan|inf|-inf|None)\b", one["svg"])
