"""Services and cut-outs as drawn: to scale, with the plan's own texts, from the front and, mirrored, from behind."""

import re
import xml.etree.ElementTree as ET

import demo_hall
import pytest
from service_rooms import BARE, one_unit, pipe, socket, unit

from oddleg.drawings import first_fix_drawings, part_drawings, service_drawings, svg
from oddleg.drawings.back_cuts import back_drawing
from oddleg.drawings.primitives import Circle, Group, Line, Polygon, Text
from oddleg.drawings.rebate import rebate_drawing
from oddleg.drawings.services import NAMED_FROM_MM
from oddleg.job import RebateFace
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.fitted_out import DrawerPart, PartIs, Rebate

SVG = "{http://www.w3.org/2000/svg}"


def kitchen():
    (room,) = demo_hall.hall_plan().rooms
    return room


def phone():
    return part_drawings(demo_hall.hall_plan())["services/kitchen"]


def marks(drawing, kind):
    """All marks of a kind, those in groups too."""

    def inside(several):
        for one in several:
            if isinstance(one, Group):
                yield from inside(one.marks)
            elif isinstance(one, kind):
                yield one

    return list(inside(drawing.marks))


def texts(drawing):
    return [one.text for one in marks(drawing, Text)]


def back(*services, behind=False, **more):
    found = one_unit(*services, **more)
    return back_drawing(carcass_box(unit()), found.cuts, 90.0, behind), found.cuts


@pytest.mark.parametrize("behind", [False, True])
def test_a_cut_out_is_drawn_to_scale_where_it_is_told_to_be(behind):
    """FP: the panel's outline is 564 by 684; the cut-out's place on it in the same scale, mirrored from behind."""
    drawing, (cut,) = back(socket(x_mm=163.0, height_mm=110.0), rule=BARE, behind=behind)
    panel, hole = (one.points_mm for one in marks(drawing, Polygon)[:2])
    scale = (panel[1][0] - panel[0][0]) / 564
    assert (panel[2][1] - panel[1][1]) / scale == pytest.approx(684)
    from_mm = 564 - 100 - 90 if behind else 163 - 18 - 45
    assert (hole[0][0] - panel[0][0]) / scale == pytest.approx(from_mm)
    assert (hole[1][0] - hole[0][0]) / scale == pytest.approx(90)
    assert (panel[2][1] - hole[2][1]) / scale == pytest.approx(cut.cut.foot_mm)
    assert (hole[2][1] - hole[1][1]) / scale == pytest.approx(110)


def test_the_figures_on_it_are_the_plan_s_own_and_mirror_from_behind():
    """Trap 46: 564 - (100 + 90) = 374."""
    front, _ = back(socket(x_mm=163.0), rule=BARE)
    behind, _ = back(socket(x_mm=163.0), rule=BARE, behind=True)
    turned = [[one.text for one in marks(drawing, Text) if one.turned] for drawing in (front, behind)]
    assert turned == [["100", "374"], ["374", "100"]]
    assert "425" not in " ".join(texts(front)) and any(
        "below the datum line" in line for line in (front.alt, behind.alt)
    )


def test_a_bore_is_drawn_round_with_its_middle_where_its_figures_go():
    drawing, (cut,) = back(pipe(across_mm=60.0, x_mm=218.0))
    (bore,), panel = marks(drawing, Circle), marks(drawing, Polygon)[0].points_mm
    scale = (panel[1][0] - panel[0][0]) / 564
    assert (bore.x_mm - panel[0][0]) / scale == pytest.approx(cut.from_left.mm)
    assert (panel[2][1] - bore.y_mm) / scale == pytest.approx(cut.from_foot.mm)
    assert bore.radius_mm / scale == pytest.approx(cut.cut.width_mm / 2)
    assert any(" bore, middle" in text for text in texts(drawing))


def test_every_service_stands_on_its_run_s_drawing_with_its_figure_and_its_height():
    room = kitchen()
    elevations, backs = service_drawings(demo_hall.job(), room, 182.0, 88.0)
    said = " ".join(one.alt for one in elevations)
    for one in room.fitting.services.landings:
        assert f"{one.service.name}: {one.left.text} " in said
    assert len(backs) == 2 * len({one.item for one in room.fitting.services.cuts})


def test_a_service_over_the_datum_line_is_said_to_be_above_it():
    heights = [text for one in phone().values() for text in texts(one)]
    assert any("above datum" in text for text in heights) and not any("\N{MINUS SIGN}" in text for text in heights)


@pytest.mark.parametrize("width_mm", [NAMED_FROM_MM - 30, NAMED_FROM_MM + 60])
def test_services_are_numbered_where_names_would_lie_over_each_other(width_mm):
    elevations, _ = service_drawings(demo_hall.job(), kitchen(), width_mm, 88.0)
    numbered = any(re.fullmatch(r"\(\d+\)", text) for one in elevations for text in texts(one))
    assert numbered is (width_mm < NAMED_FROM_MM)


def test_what_may_be_live_is_crossed_and_says_so():
    drawing = phone()["elevation-window-run"]
    assert any("Treat it as live." in text for text in texts(drawing))
    assert not any("Treat it as live." in text for text in texts(phone()["first_fix-window-run"]))


def test_no_line_to_a_name_runs_over_another_service():
    """FP: a line from the cold over the hot gives the hot the name of the cold."""
    job, room = demo_hall.hall_plan().job, kitchen()
    drawings = [*first_fix_drawings(job, room, 182.0, 220.0), *service_drawings(job, room, 182.0, 88.0, 220.0)[0]]
    met = 0
    for drawing in drawings:
        groups = [one for one in drawing.marks if isinstance(one, Group)]
        for group in groups:
            others = [mark for one in groups if one is not group for mark in one.marks if isinstance(mark, Circle)]
            for line in (mark for mark in group.marks if isinstance(mark, Line) and mark.css == "hair"):
                met += 1
                for step in range(101):
                    x = line.x1_mm + (line.x2_mm - line.x1_mm) * step / 100
                    y = line.y1_mm + (line.y2_mm - line.y1_mm) * step / 100
                    assert all((x - one.x_mm) ** 2 + (y - one.y_mm) ** 2 > one.radius_mm**2 for one in others)
    assert met


def test_first_fix_gives_heights_over_the_finished_floor():
    """Trap 48: as wanted, from wall and finished floor."""
    room, drawing = kitchen(), phone()["first_fix-window-run"]
    wanted = [one for one in room.fitting.services.wanted if one.run == "window-run"]
    assert wanted and all(f"{one.over_floor.text} over floor" in drawing.alt for one in wanted)
    assert all(f"{one.service.name}: {one.from_left.text} " in drawing.alt for one in wanted)


@pytest.mark.parametrize("face", [RebateFace.BELOW, RebateFace.ABOVE, None])
def test_a_rebate_is_drawn_in_section_to_scale(face):
    """FP: board 18, rebate 2 deep, so 16 are left at the edge; the lip is 12 wide."""
    rebate = Rebate(2.0, 12.0, ("left", "right"), face, "rebate 2 deep")
    part = DrawerPart("d", PartIs.BACK if face is None else PartIs.BASE, 500.0, 400.0, 18.0, 1, rebate, "words")
    drawing = rebate_drawing(part, rebate, 90.0)
    left = marks(drawing, Polygon)[0].points_mm
    ys, xs = sorted({round(y, 6) for _, y in left}), sorted({round(x, 6) for x, _ in left})
    scale = (ys[-1] - ys[0]) / 18
    assert (xs[1] - xs[0]) / scale == pytest.approx(12)
    edge = [y for x, y in left if round(x, 6) == xs[0]]
    assert (max(edge) - min(edge)) / scale == pytest.approx(16)
    # Above: the lip is at the foot of the board; else at its head.
    assert (min(edge) > ys[0] + 1e-9) is (face is RebateFace.ABOVE)
    assert {"16", "18", "12"} <= set(texts(drawing))


def test_an_edge_without_a_rebate_is_drawn_whole():
    rebate = Rebate(2.0, 12.0, ("left", "right", "front"), RebateFace.BELOW, "rebate")
    part = DrawerPart("d", PartIs.BASE, 500.0, 400.0, 18.0, 1, rebate, "words")
    drawing = rebate_drawing(part, rebate, 90.0)
    assert {"left edge", "right edge", "front edge", "back edge"} <= set(texts(drawing))
    outlines = [one.points_mm for one in marks(drawing, Polygon)]
    assert sorted(len(one) for one in outlines[::2]) == [4, 6, 6, 6]


def test_all_of_them_are_sound_svg_within_their_page():
    for field, one in phone().items():
        root = ET.fromstring(svg(one, field))
        assert root.get("viewBox").startswith(f"0 0 {one.width_mm:g} ")
        for mark in marks(one, Text):
            assert 0 <= mark.x_mm <= one.width_mm and 0 <= mark.y_mm <= one.height_mm, (field, mark.text)


def test_only_backs_that_are_cut_are_drawn():
    cut = {one.item for one in kitchen().fitting.services.cuts}
    assert {field.removeprefix("behind-") for field in phone() if field.startswith("behind-")} == cut
    assert {field.removeprefix("back-") for field in phone() if field.startswith("back-")} == cut
