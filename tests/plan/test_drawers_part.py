"""The part of a room's drawers: names of runners, and rebates as the list has them. First principles."""

from dataclasses import replace

import sample_plan
from hardware_rows import carcass, compartment, every_row, member, pin, runner, stack

from oddleg.job import Box, FrontIs, HoleLimits
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.drawer_parts import drawer_parts
from oddleg.plan.drawers_part import drawers_part
from oddleg.plan.fitted_out import FittedOut
from oddleg.plan.fitting import RoomFitting
from oddleg.plan.front_stacks import filled
from oddleg.plan.room_services import RoomServices


def part(known, *boards_mm, shop_mm=0.1):
    """Of one drawer in a carcass of each of these boards."""
    job = replace(sample_plan.job(), holes=HoleLimits(shop_mm=shop_mm))
    units = []
    for number, board_mm in enumerate(boards_mm):
        drawer = member(f"drawer-{number}", front=FrontIs.DRAWER, runner="standard")
        width_mm = 600.0 + 2 * (board_mm - 18)
        item = carcass(f"b{number}", compartment(stack=stack(drawer)), width_mm=width_mm, box=Box(board_mm=board_mm))
        box = carcass_box(item)
        fronts = filled(job, box, known)
        boards, _ = drawer_parts(job, box, known, fronts)
        units.append(FittedOut(item.id, None, item.name, box, drawers=fronts.drawers, drawer_parts=boards))
    room = replace(sample_plan.room_plan(), fitting=RoomFitting(tuple(units), RoomServices()), hardware=known)
    return drawers_part(replace(sample_plan.plan(room), job=job), room)


def test_a_runner_has_its_own_name_where_a_row_of_another_kind_has_its_id():
    found = part(every_row(runner(id="standard", name="the runner"), pin(id="standard", name="the pin")), 18.0)
    assert found["runners"] == [{"row": "standard", "name": "the runner", "count": 1}]


def test_rebates_are_told_apart_as_finely_as_the_job_shows_shop_work():
    """Boards of 18.00 and 18.02 in a chart for 16: rebates of 2.00 and 2.02, alike to 0.1 and not to 0.01."""
    known = every_row(runner(id="standard", board_mm=16.0))

    def depths(shop_mm):
        found = part(known, 18.0, 18.02, shop_mm=shop_mm)
        return sorted({row["rebate_words"].split()[0] for row in found["list"] if row["part"] == "base"})

    assert depths(0.1) == ["2"]
    assert depths(0.01) == ["2", "2.02"]
