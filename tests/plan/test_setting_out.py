"""What a room's setting out hands on beside its computations: every panel before a wall has its scribe."""

import pytest
import sample_room as sample
import sample_wall as wall_of
from sample_wall import BATTEN, FLOOR, STRING, WALL_UNITS, WORKTOP

from oddleg.job import EndPanel, Storey
from oddleg.plan.setting_out import setting_out
from oddleg.plan.site import of_room, site


def set_out(run, bodies):
    room = sample.room(run)
    job = sample.job(room)
    log = [wall_of.entry(f"e{i:03}", body, i + 1) for i, body in enumerate([STRING, *bodies])]
    return setting_out(job, room, of_room(site(job, log), room), 860.0).runs[0]


def test_panels_that_stand_and_panels_that_hang_are_both_scribed():
    """FP: what stands keeps 10 to a wall that is 6 further out at the floor; what hangs, to one that is flat up there: cut
    to 580 + 16, 6 scribed at the floor; to 330 + 10, nothing scribed."""
    run = sample.run(
        EndPanel("foot", "foot panel", 18.0, 580.0), *(sample.carcass(f"u{i}") for i in range(2)),
        EndPanel("up", "upper panel", 18.0, 330.0, storey=Storey.WALL),
        sample.carcass("high", 600.0, depth_mm=320.0, legs=None, storey=Storey.WALL), void_mm=10.0,
    )  # fmt: skip
    out_mm = ((FLOOR, 6.0), (BATTEN, 0.0), (WORKTOP, 0.0), (WALL_UNITS, 0.0))
    found = set_out(run, [wall_of.read(run, x, 100.0 - out, height) for x in (0, 609, 1218) for height, out in out_mm])
    cut = {one.item: (one.cut_depth.mm, [scribe.mm for _, scribe in one.scribe]) for one in found.scribes}
    assert cut["foot"] == (pytest.approx(580 + 16), pytest.approx([6.0, 0.0, 0.0]))
    assert cut["up"] == (pytest.approx(330 + 10), pytest.approx([0.0]))
