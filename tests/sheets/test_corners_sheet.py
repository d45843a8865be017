"""The corners sheet read back from its PDF; its figures are worked out beside those of the corner rooms."""

import corner_rooms as here
import pypdfium2

from oddleg.job import Filler, Handing
from oddleg.sheets import SheetSource, sheet_pdf

SOURCE = SheetSource(3, "revision 3, entries to 57", "25 November 2026")


def text_of(post_mm=60.0, handing=Handing.RIGHT, gap_mm=20.0, *bodies):
    blind = here.unit("blind-base", 1000.0, Handing.LEFT, blind_mm=600.0)
    left = [blind, Filler("strip", "corner strip", gap_mm, 0.0, 300.0, share=0.0)]
    room = here.room(*here.runs(left, [here.post(post_mm), here.unit("pans", 600.0, handing)]))
    return read(here.plan_of(room, *bodies))


def read(plan):
    pdf = pypdfium2.PdfDocument(sheet_pdf(plan, "corners-kitchen", SOURCE))
    try:
        return " ".join(" ".join(page.get_textpage().get_text_bounded().split()) for page in pdf)
    finally:
        pdf.close()


def test_a_measured_corner_has_its_angle_its_sides_its_far_ends_and_its_joint():
    """4990 over 3000 and 4000: 16.65 at 4000 and 12.49 at 3000; 600 x 0.0041625 = 2.5 over the worktop."""
    text = text_of(60.0, Handing.RIGHT, 20.0, here.triangle(3000.0, 4000.0, 4990.0))
    for words in (
        "Corner 1: Window run and Side run", "Angle between the walls 89.76 degrees", "along the wall of Window run 3000", "across 4990",
        "off square at 4000 along Window run +16.7", "off square at 3000 along Side run +12.5", "post, at least 60", "post there is 60",
        "Worktop joint: Where the tops follow the walls, cut the joint to 89.76 degrees: a square one would open by 2.5",
    ):  # fmt: skip
        assert words in text, words


def test_a_corner_nobody_measured_says_so_and_which_sides_to_measure():
    text = text_of()
    assert "The angle is not measured." in text and "cut no worktop joint on it" in text
    assert "3: across between the two marks" in text and "All that is set out in it rests on that guess." in text


def test_blind_units_and_fronts_are_listed_with_what_they_need():
    text = text_of()
    # Needed 35, as on the rod 20 + 15, uses 1035, clear 400 less a side of 18.
    assert "blind base, Window run" in text and "35 35 1035 382" in text
    assert "pans, Side run" in text and "60 60 opens" in text


def test_what_does_not_open_is_in_the_list_and_in_the_findings():
    text = text_of(60.0, Handing.LEFT)
    assert "short by 35" in text and "Make post 95 wide or more instead of 60." in text
    assert "stands 60 beside the fronts of Window run, and wants 95" in text


def test_sides_that_cannot_close_stand_before_everything():
    text = text_of(60.0, Handing.RIGHT, 20.0, here.triangle(3000.0, 4000.0, 7000.0))
    assert text.index("STOP: corner of Window run and Side run") < text.index("Corner 1:")


def test_a_room_without_a_corner_says_so():
    left, _ = here.runs([here.drawers("a", 800.0)], [], left_at=here.EndsAt.WALL)
    text = read(here.plan_of(here.room(left)))
    assert "No two runs of this room meet in a corner." in text
    assert "Fronts beside corners, walls and linings" in text
