"""Fitting charts: every cell is told by line and column, and the good rows are shown beside what is wrong."""

import dataclasses
import json
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oddleg.charts import columns, read_csv, read_rows, row_sha, row_texts, shipped_rows, write_csv
from oddleg.charts.chart_rows import row_read
from oddleg.charts.columns import Holds, described
from oddleg.job import ROW_OF, Bracket, FixedTo, HardwareKind, Hinge, Plate, PullOut, Runner
from oddleg.plan.hardware import KIND_OF

PLATE = {
    "id": "plate-2",
    "name": "plate",
    "height_mm": "2",
    "row_mm": "37",
    "spread_mm": "32",
    "hole_mm": "5",
    "hole_depth_mm": "12",
    "source": "a sheet",
    "checked_on": "",
}
HEAD = "kind,id,name,height_mm,row_mm,spread_mm,hole_mm,hole_depth_mm,source,checked_on"
GOOD = "plate,plate-2,plate,2,37,32,5,12,a sheet,"


def told(read):
    return [(one.line, one.column) for one in read.problems]


def typed(kind=HardwareKind.PLATE, **cells):
    return read_rows(kind, [{**PLATE, **cells}])


def runner_texts(**cells):
    row = next(one for one in shipped_rows() if one.id == "runner-500")
    return {**row_texts(row), **cells}


@pytest.mark.parametrize("kind", HardwareKind)
def test_columns_are_the_fields_of_the_rows_in_their_order(kind):
    fields = [one.name for one in dataclasses.fields(ROW_OF[kind]) if one.name != "sha"]
    assert [one.name for one in columns(kind)] == fields


@pytest.mark.parametrize("kind", HardwareKind)
def test_units_are_in_the_names_of_columns(kind):
    for one in columns(kind):
        assert (one.unit in ("mm", "kg", "degrees")) == (one.holds in (Holds.NUMBER, Holds.NUMBERS)), one.name


def test_what_ships_is_generic_and_says_that_it_is_invented():
    rows = shipped_rows()
    assert {KIND_OF[type(one)] for one in rows} == set(HardwareKind)
    assert all("invented for this program" in one.source and not one.checked_on for one in rows)


def test_a_chart_has_a_row_for_a_runner_of_500():
    """Common practice: a 500 runner asks for the chart's row for 500."""
    row = next(one for one in shipped_rows() if isinstance(one, Runner) and one.length_mm == 500)
    # Common practice: first screw 37 to 38 behind the front edge, holes of 5.
    assert 37 <= row.first_mm <= 38 and row.hole_mm == 5


def test_the_shipped_screws_lie_a_multiple_of_32_behind_the_first():
    """Pitch 32 (bellinghambaywoodcraft.com, 32mm, read)."""
    assert all(screw % 32 == 0 for one in shipped_rows() if isinstance(one, Runner) for screw in one.screws_mm)


RUNNERS = [one for one in shipped_rows() if isinstance(one, Runner)]


@pytest.mark.parametrize("row", RUNNERS, ids=lambda row: row.id)
def test_the_parts_of_a_shipped_drawer_stay_within_what_its_runner_takes(row):
    """First principles. Base and back stand on what is free over the runner's foot; a rebate's lip lies over the runner's
    side, and the back's lip beside it; the back of a least front is no higher than the front."""
    foot_mm = row.up_mm - row.below_mm + row.base_clear_mm
    top_mm = foot_mm + row.board_mm + row.back_height_mm
    assert top_mm <= row.up_mm + row.above_mm <= row.least_front_mm
    assert row.base_less_mm / 2 + row.base_lip_mm == row.side_mm == row.back_less_mm / 2 + row.back_lip_mm
    assert row.least_up_mm >= row.below_mm and row.up_mm - row.least_up_mm >= 18


def test_runners_are_there_for_the_usual_lengths():
    assert {row.length_mm for row in RUNNERS} == {270, 300, 350, 400, 450, 500, 550}
    assert all(row.board_mm == 16 for row in RUNNERS)


@pytest.mark.parametrize(
    ("id", "overlay_mm"),
    [("hinge-110", 18 - 1.5), ("hinge-155", 18 - 1.5), ("hinge-110-half", 18 / 2 - 1.5), ("hinge-110-inset", -1.5)],
)
def test_shipped_hinges_hang_the_usual_door_on_a_shipped_plate(id, overlay_mm):
    """Common practice: boards of 18, doors 1.5 short of the side, of half a side between two doors, or of the opening; edge
    distance about 5. First principles: edge distance = overlay - constant + plate height."""
    hinge = next(one for one in shipped_rows() if one.id == id)
    heights = [one.height_mm for one in shipped_rows() if isinstance(one, Plate)]
    edges = [overlay_mm - hinge.constant_mm + height for height in heights]
    assert any(hinge.least_edge_mm <= edge <= hinge.greatest_edge_mm and abs(edge - 5) <= 1 for edge in edges)


@pytest.mark.parametrize("row", [one for one in shipped_rows() if isinstance(one, Hinge)], ids=lambda row: row.id)
def test_a_shipped_cup_stays_in_its_thinnest_door_and_its_screws_beside_it(row):
    """First principles. Two screws beside a cup: their holes lie outside its rim; a thicker table row carries more."""
    assert row.cup_depth_mm < row.least_door_mm <= row.greatest_door_mm and row.screw_depth_mm < row.least_door_mm
    away_mm = math.hypot(row.screws_back_mm, row.screws_apart_mm / 2)
    assert away_mm > row.cup_mm / 2 + row.screw_mm / 2
    assert len(row.up_to_mm) == len(row.up_to_kg) and list(row.up_to_kg) == sorted(row.up_to_kg)


@pytest.mark.parametrize("row", [one for one in shipped_rows() if isinstance(one, Bracket)], ids=lambda row: row.id)
def test_a_shipped_bracket_is_fixed_before_the_back_that_its_rail_lies_behind(row):
    """First principles: the rims of its holes clear a back of 8 that is set in by the least; demo's back is set in by 20."""
    assert all(in_mm - row.hole_mm / 2 >= max(row.least_recess_mm, 20) + 8 for in_mm in row.in_mm)


@pytest.mark.parametrize("row", [one for one in shipped_rows() if isinstance(one, PullOut)], ids=lambda row: row.id)
def test_a_shipped_frame_goes_into_a_unit_of_its_width_and_its_holes_into_the_unit(row):
    """First principles: a unit less two boards of 16 or 18 is the inside width."""
    outside_mm = int(row.id.split("-")[1])
    assert row.least_width_mm <= outside_mm - 2 * 18 < outside_mm - 2 * 16 <= row.greatest_width_mm
    assert all(0 < u < row.least_depth_mm for u in row.holes_u_mm)
    if row.fixed_to is FixedTo.BOTTOM:
        assert all(abs(across) < row.least_width_mm / 2 for across in row.holes_across_mm)
    else:
        assert all(0 < up < row.least_height_mm for up in row.holes_across_mm)
    assert all(abs(across) < row.least_width_mm / 2 for across in row.door_across_mm)


@pytest.mark.parametrize("kind", HardwareKind)
def test_a_chart_that_is_written_reads_back_the_same(kind):
    rows = tuple(one for one in shipped_rows() if KIND_OF[type(one)] is kind)
    read = read_csv(write_csv(kind, rows).encode())
    assert read.rows == rows and read.problems == () and read.kind is kind


def as_saved(separator=",", comma=".", mark=b"", encoding="utf-8", ends="\r\n"):
    lines = [HEAD, "plate,plate-2,Plåt,2.5,37,32,5,12.5,a sheet,2026-01-31"]
    text = ends.join(line.replace(",", separator).replace(".", comma) for line in lines) + ends
    return mark + text.encode(encoding)


@pytest.mark.parametrize("data", [
    as_saved(), as_saved(";", ","), as_saved("\t", ","), as_saved(";", ",", b"\xef\xbb\xbf"), as_saved(mark=b"\xff\xfe", encoding="utf-16-le"),
    as_saved(";", ",", encoding="cp1252"), as_saved(ends="\n"), as_saved() + b"\r\n,,,\r\n",
])  # fmt: skip
def test_a_csv_is_read_as_spreadsheets_save_it(data):
    read = read_csv(data)
    assert told(read) == []
    assert [(one.name, one.height_mm, one.hole_depth_mm, one.checked_on) for one in read.rows] == [
        ("Plåt", 2.5, 12.5, "2026-01-31")
    ]


@pytest.mark.parametrize("first", ["sep=;", "SEP=;", "sep=; "])
def test_the_line_that_names_the_separator_is_no_row_and_keeps_its_place(first):
    """Some spreadsheets write it above the header; lines are counted as an editor counts them."""
    read = read_csv(f"{first}\r\n{HEAD}\r\n{GOOD}\r\n{GOOD.replace('37', 'x')}".replace(",", ";").encode())
    assert [one.id for one in read.rows] == ["plate-2"] and (4, "row_mm") in told(read)


def test_a_cell_of_two_lines_leaves_the_lines_below_it_their_numbers():
    two, wrong = GOOD.replace("plate-2,plate", 'plate-2,"pl\nate"'), GOOD.replace("37", "x")
    read = read_csv(f"{HEAD}\n{two}\n{wrong}".encode())
    assert (2, "name") in told(read) and (4, "row_mm") in told(read)


@pytest.mark.parametrize("stray", ['plate,b,"plate,2,37,32,5,12,a sheet,', 'plate,b,"pl"ate,2,37,32,5,12,a sheet,'])
def test_a_stray_quotation_mark_is_told_by_its_line_and_the_rows_above_it_are_read(stray):
    read = read_csv(f"{HEAD}\n{GOOD}\n{stray}\n{GOOD}".encode())
    assert told(read) == [(3, "")] and "quotation mark" in read.problems[0].wrong
    assert [one.id for one in read.rows] == ["plate-2"]


def test_blanks_that_do_not_break_and_empty_columns_at_the_end_are_left_out():
    read = read_csv(f"{HEAD};;\n{GOOD};;\n;;;;;;;;;;;\n".replace(",", ";").replace("37", "\u00a037\u00a0").encode())
    assert told(read) == [] and read.rows[0].row_mm == 37


@pytest.mark.parametrize("begins", [b"PK\x03\x04\x14\x00", b"\xd0\xcf\x11\xe0\xa1\xb1"])
def test_a_spreadsheets_own_file_is_told_from_a_csv(begins):
    assert "save the sheet as CSV" in read_csv(begins + b"\x00rest").problems[0].wrong


def test_a_quoted_decimal_comma_is_a_decimal_comma_in_a_file_of_commas():
    assert read_csv(f'{HEAD}\nplate,a,plate,"2,5",37,32,5,12,a sheet,'.encode()).rows[0].height_mm == 2.5


def test_a_bare_decimal_comma_in_a_file_of_commas_is_told_by_its_line():
    read = read_csv(f"{HEAD}\n{GOOD}\nplate,b,plate,2,5,37,32,5,12,a sheet,".encode())
    assert told(read) == [(3, "")] and "a decimal comma" in read.problems[0].wrong
    assert [one.id for one in read.rows] == ["plate-2"]


def test_good_rows_are_shown_beside_what_is_wrong():
    read = read_csv(f"{HEAD}\n{GOOD}\nplate,plate-4,plate,four,37,32,5,12,a sheet,".encode())
    assert [one.id for one in read.rows] == ["plate-2"]
    assert told(read) == [(3, "height_mm")] and read.problems[0].row_id == "plate-4"
    assert "four is no figure. Allowed: 0 to 50 mm" in read.problems[0].wrong


def test_every_missing_column_is_told_with_what_it_is():
    read = read_csv(b"kind;id;name;height_mm;hole_mm;hole_depth_mm;source\nplate;a;b;2;5;12;c")
    assert told(read) == [(1, "row_mm"), (1, "spread_mm")] and "behind the front edge" in read.problems[0].wrong


def test_a_column_that_is_misspelt_is_told_with_the_nearest_one():
    read = read_csv(f"{HEAD.replace('spread_mm', 'spred_mm')}\n{GOOD}".encode())
    wrong = {one.column: one.wrong for one in read.problems}
    assert set(wrong) == {"spread_mm", "spred_mm"} and "Is spread_mm meant?" in wrong["spred_mm"]


def test_a_column_given_twice_is_told():
    assert (1, "row_mm") in told(read_csv(f"{HEAD},row_mm\n{GOOD},37".encode()))


def test_a_duplicate_id_names_the_line_of_the_first():
    read = read_csv(f"{HEAD}\n{GOOD}\n{GOOD}".encode())
    assert told(read) == [(3, "id")] and "already that of line 2" in read.problems[0].wrong


@pytest.mark.parametrize(("typed_inches", "mm"), [("1.457", "37.0"), ("1,457", None), ("1.496", "38.0")])
def test_an_inch_figure_is_asked_about_with_what_it_is_in_mm(typed_inches, mm):
    """37 / 25.4 = 1.457; an inch is 25.4 mm by definition."""
    read = typed(row_mm=typed_inches)
    assert told(read) == [(1, "row_mm")]
    assert mm is None or f"In inches? {typed_inches} in is {mm} mm." in read.problems[0].wrong


def test_an_inch_figure_within_the_range_is_asked_about_too():
    """57 / 25.4 = 2.244, which could be a height of 2 mm."""
    read = read_rows(HardwareKind.RUNNER, [runner_texts(up_mm="2.244")])
    assert told(read) == [(1, "up_mm")] and "2.244 in is 57.0 mm" in read.problems[0].wrong
    assert told(read_rows(HardwareKind.RUNNER, [runner_texts(length_mm="19.685")])) == [(1, "length_mm")]


@pytest.mark.parametrize("text", ["-37", "−37", "1e2", "37mm", '1 7/16"', "inf", "nan", "٣٧", "37..5", "1,200"])
def test_what_is_no_length_is_refused_in_words(text):
    read = typed(row_mm=text)
    assert told(read) == [(1, "row_mm")] and read.rows == ()


def test_a_negative_figure_is_named_for_what_it_is():
    assert "It may not be negative." in typed(row_mm="-37").problems[0].wrong


def test_a_figure_that_may_be_read_in_two_ways_is_asked_about():
    assert "write 1200 or 1.2" in typed(row_mm="1,200").problems[0].wrong


def test_swapped_limits_are_told():
    row = next(one for one in shipped_rows() if one.id == "leg-100")
    read = read_rows(HardwareKind.LEG, [{**row_texts(row), "least_mm": "130", "greatest_mm": "90"}])
    assert told(read) == [(1, "least_mm")] and "swapped" in read.problems[0].wrong


def test_lists_that_belong_together_are_as_long_as_each_other():
    row = next(one for one in shipped_rows() if one.id == "leg-100")
    assert told(read_rows(HardwareKind.LEG, [{**row_texts(row), "back_mm": "-20 20"}])) == [(1, "back_mm")]


@pytest.mark.parametrize("screws", ["32 128", "0 128 96", "0 128 128", ";"])
def test_screws_count_from_the_first_and_rise(screws):
    assert told(read_rows(HardwareKind.RUNNER, [runner_texts(screws_mm=screws)])) == [(1, "screws_mm")]


def test_a_screw_beyond_the_end_of_its_runner_is_told():
    """37 + 480 = 517, and the runner ends at 3 + 500."""
    read = read_rows(HardwareKind.RUNNER, [runner_texts(screws_mm="0 480")])
    assert told(read) == [(1, "screws_mm")] and "517" in read.problems[0].wrong and "503" in read.problems[0].wrong


@pytest.mark.parametrize(
    ("day", "fine"), [("2026-02-28", True), ("2026-02-29", False), ("28.2.2026", False), ("", True)]
)
def test_the_day_of_the_check_is_a_day(day, fine):
    assert (typed(checked_on=day).problems == ()) is fine


@pytest.mark.parametrize(
    "cells", [{"id": "Plate 2"}, {"id": ""}, {"name": ""}, {"source": ""}, {"name": "a\x07b"}, {"name": "x" * 201}]
)
def test_words_and_ids_are_held_to_what_they_may_be(cells):
    assert told(typed(**cells)) == [(1, next(iter(cells)))]


def test_a_row_of_another_kind_is_told():
    assert told(read_csv(f"{HEAD}\n{GOOD}\n{GOOD.replace('plate,plate-2', 'hinge,h')}".encode())) == [(3, "kind")]


@pytest.mark.parametrize(
    "data", [b"", b"\n\n", b"\x00\x01\x02", b"%PDF-1.7", b"\x89PNG\r\n\x1a\n\x00", b'kind,id\n"plate', b"id,name\na,b"]
)
def test_what_is_no_chart_is_refused_in_words(data):
    read = read_csv(data)
    assert read.rows == () and len(read.problems) >= 1 and read.problems[0].wrong


def test_a_header_without_a_row_is_told():
    assert "no row below it" in read_csv(HEAD.encode()).problems[0].wrong


def rows_of(count):
    return "\n".join([HEAD, *(GOOD.replace("plate-2", f"plate-{number}") for number in range(count))]).encode()


def test_10_000_rows_are_read_and_one_more_is_refused():
    assert len(read_csv(rows_of(10_000)).rows) == 10_000
    read = read_csv(rows_of(10_001))
    assert read.rows == () and "at most 10000" in read.problems[0].wrong


def test_more_holes_than_any_hardware_has_are_refused():
    read = read_rows(HardwareKind.RUNNER, [runner_texts(length_mm="2000", screws_mm=" ".join(map(str, range(65))))])
    assert told(read) == [(1, "screws_mm")] and "at most 64" in read.problems[0].wrong


@pytest.mark.parametrize("kind", HardwareKind)
def test_the_described_columns_are_those_that_are_read(kind):
    lines = described(kind).splitlines()
    named = [line.strip().split(":")[0] for line in lines if line.startswith("  ") and not line.startswith("    ")]
    assert named == ["kind", *(one.name for one in columns(kind))]
    assert all(f"    allowed: {one.allowed}" in lines for one in columns(kind))


def test_what_is_doubtful_can_still_be_drawn():
    """A row of which something is wrong is no good row, and the reader gives what there is to see of it."""
    assert typed(row_mm="1.457").rows == ()
    row, wrongs = row_read(HardwareKind.PLATE, {**PLATE, "row_mm": "1.457"})
    assert row.row_mm == 1.457 and [one.column for one in wrongs] == ["row_mm"]
    assert row_read(HardwareKind.PLATE, {**PLATE, "row_mm": "x"})[0] is None


def test_checking_a_row_anew_makes_no_other_row_of_it_and_a_moved_hole_does():
    row = typed().rows[0]
    assert typed(checked_on="2026-01-31").rows[0].sha == row.sha == row_sha(HardwareKind.PLATE, row)
    assert typed(row_mm="37.5").rows[0].sha != row.sha


def test_the_code_of_a_row_is_what_it_was_when_it_was_first_made():
    """A job keeps it for years: computed here by hand from kind and figures."""
    import hashlib

    said = {
        "height_mm": 2.0,
        "hole_depth_mm": 12.0,
        "hole_mm": 5.0,
        "id": "plate-2",
        "kind": "plate",
        "name": "plate",
        "row_mm": 37.0,
        "source": "a sheet",
        "spread_mm": 32.0,
    }
    text = json.dumps(said, separators=(",", ":"))
    assert typed().rows[0].sha == hashlib.sha256(text.encode()).hexdigest()[:16]


def test_a_column_that_no_chart_has_is_told_for_typed_rows_too():
    assert told(typed(colour="red")) == [(1, "colour")]


@given(st.dictionaries(st.sampled_from([one.name for one in columns(HardwareKind.PLATE)]), st.text(max_size=12)))
def test_nothing_that_is_typed_raises(cells):
    read = read_rows(HardwareKind.PLATE, [{**PLATE, **cells}])
    assert bool(read.problems) != bool(read.rows)


@given(st.binary(max_size=200))
def test_nothing_in_a_file_raises(data):
    read_csv(data)
    read_csv(HEAD.encode() + b"\n" + data)


@given(
    st.builds(
        Plate, id=st.from_regex(r"\A[a-z0-9][a-z0-9-]{0,20}\Z"), name=st.text("abcÅ, ;\"'", min_size=1, max_size=20).filter(str.strip), height_mm=st.integers(0, 500).map(lambda n: n / 10),
        row_mm=st.integers(50, 2000).map(lambda n: n / 10), spread_mm=st.integers(50, 2000).map(lambda n: n / 10), hole_mm=st.integers(5, 300).map(lambda n: n / 10),
        hole_depth_mm=st.integers(300, 2000).map(lambda n: n / 10), source=st.just("a sheet"),
    )
)  # fmt: skip
def test_any_row_that_is_written_reads_back_the_same(row):
    row = dataclasses.replace(row, name=row.name.strip())
    row = dataclasses.replace(row, sha=row_sha(HardwareKind.PLATE, row))
    read = read_csv(write_csv(HardwareKind.PLATE, [row]).encode())
    assert read.rows == (row,)


def test_a_cup_that_comes_out_of_the_thinnest_door_is_told():
    row = row_texts(next(one for one in shipped_rows() if one.id == "hinge-110"))
    assert told(read_rows(HardwareKind.HINGE, [{**row, "cup_depth_mm": "23", "least_door_mm": "15"}])) == [(1, "cup_depth_mm")]
