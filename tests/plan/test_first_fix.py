"""Services as they are asked for before plaster. First principles."""

from dataclasses import replace

import sample_room as sample
from service_rooms import level_floor, run, socket, unit

from oddleg.job import EndsAt, RunEnd
from oddleg.plan.first_fix import first_fix
from oddleg.plan.setting_out import setting_out
from oddleg.plan.site import Site


def test_a_zero_mark_that_lies_off_the_wall_is_counted_in_from_the_finished_wall():
    """FP: a socket 300 right of the zero mark, which a filler keeps 12 off the wall: the electrician measures 312."""
    room = sample.room(run(unit(), services=(socket(x_mm=300.0),), left_end=RunEnd(EndsAt.WALL)))
    job = sample.job(room)
    (one,) = setting_out(job, room, Site(), 875.0).runs
    off = replace(one, rod=replace(one.rod, beyond_mm=(12.0, 0.0)))
    (wish,) = first_fix(job, off, level_floor(job), 875.0, {})
    assert wish.from_left.mm == 300 + 12 and wish.from_left_words == "from the finished wall at the left"
    assert "12 off the wall" in wish.from_left.why


def test_what_is_there_already_is_said_beside_what_was_wanted():
    room = sample.room(run(unit(), services=(socket("a", x_mm=300.0), socket("b", x_mm=400.0))))
    job = sample.job(room)
    (one,) = setting_out(job, room, Site(), 875.0).runs
    words = [wish.words for wish in first_fix(job, one, level_floor(job), 875.0, {}, {"b"})]
    assert [text.endswith("there already, see where it landed") for text in words] == [False, True]
