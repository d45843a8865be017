"""Fitting charts on the command line: what is right is listed, what is wrong is told by line and column, in plain words."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from oddleg.charts import columns, read_csv, shipped_rows
from oddleg.cli import main
from oddleg.job import HardwareKind

SHIPPED = sorted((Path(__file__).resolve().parents[1] / "server/oddleg/charts/hardware").glob("*.csv"))
HEAD = "kind,id,name,height_mm,row_mm,spread_mm,hole_mm,hole_depth_mm,source,checked_on"
GOOD = "plate,plate-2,Plate 2,2,37,32,5,12,a sheet,"


def run(*words, fails=0):
    result = CliRunner().invoke(main, ["charts", *map(str, words)])
    assert result.exit_code == fails, result.output
    assert result.exception is None or isinstance(result.exception, SystemExit)
    assert "Traceback" not in result.output
    return result


@pytest.fixture
def chart(tmp_path):
    def saved(*lines, data=None):
        file = tmp_path / "plates.csv"
        file.write_bytes("\n".join(lines).encode() if data is None else data)
        return file

    return saved


@pytest.mark.parametrize("file", SHIPPED, ids=lambda one: one.stem)
def test_what_ships_is_right_and_is_listed_row_by_row(file):
    told = run("check", file)
    rows = read_csv(file.read_bytes()).rows
    assert [line.split("\t")[0] for line in told.stdout.splitlines()[:-1]] == [one.id for one in rows]
    assert told.stdout.splitlines()[-1] == f"{len(rows)} row{'s' if len(rows) > 1 else ''} right."
    assert told.stderr == ""


def test_files_that_ship_hold_every_kind():
    assert {one.stem for one in SHIPPED} == set(HardwareKind)
    assert sum(len(read_csv(one.read_bytes()).rows) for one in SHIPPED) == len(shipped_rows())


def test_what_is_wrong_is_told_by_line_and_column_with_what_is_allowed(chart):
    """An inch is 25.4 mm by definition: 1.457 x 25.4 = 37.0."""
    file = chart(
        HEAD, GOOD, GOOD.replace("plate-2", "plate-4").replace(",37,", ",1.457,"), GOOD.replace(",32,", ",-32,")
    )
    told = run("check", file, fails=1)
    assert told.stdout == "plate-2\tPlate 2\n"
    lines = told.stderr.splitlines()
    assert lines[0].startswith("line 3, plate-4, row_mm: 1.457 is out of range; allowed: 5 to 200 mm.")
    assert "1.457 in is 37.0 mm" in lines[0]
    assert lines[1].startswith("line 4, plate-2, spread_mm: -32 is out of range") and "may not be negative" in lines[1]
    assert lines[2].startswith("line 4, plate-2, id: ") and "line 2" in lines[2]
    assert lines[-1] == "Error: 1 row right, 3 things to put right."


@pytest.mark.parametrize(
    "data", [b"", b"%PDF-1.7\n", b"\x89PNG\r\n\x1a\n\x00\x00", b"PK\x03\x04\x14\x00", b"\xff\xfe\x00"]
)
def test_a_file_that_is_no_chart_is_one_plain_sentence(chart, data):
    told = run("check", chart(data=data), fails=1)
    assert told.stdout == ""
    assert len(told.stderr.splitlines()) == 2 and told.stderr.startswith("line 1")
    assert told.stderr.endswith("0 rows right, 1 thing to put right.\n")


def test_a_file_that_is_not_there_is_said_so(tmp_path):
    assert "does not exist" in run("check", tmp_path / "nowhere.csv", fails=2).stderr
    assert "is a directory" in run("check", tmp_path, fails=2).stderr
    assert "'nail'" in run("check", SHIPPED[0], "--kind", "nail", fails=2).stderr


def test_control_characters_in_a_file_do_not_reach_the_terminal(chart):
    file = chart(HEAD, GOOD.replace("plate-2", "pl\x1b[2Jate").replace(",37,", ",3\x1b]0;x\x077,"))
    told = run("check", file, fails=1)
    assert re.findall(r"[\x00-\x09\x0b-\x1f\x7f]", told.stderr) == []
    assert "row_mm" in told.stderr


@pytest.mark.parametrize("kind", HardwareKind)
def test_every_column_is_listed_with_what_is_allowed_in_it(kind):
    lines = run("columns", kind).stdout.splitlines()
    for one in columns(kind):
        place = lines.index(f"  {one.name}: {one.words}")
        assert lines[place + 1] == f"    allowed: {one.allowed}"


def test_columns_of_all_kinds_are_listed_where_none_is_named():
    text = run("columns").stdout
    assert all(re.search(rf"(?m)^{kind}: ", text) for kind in HardwareKind)
    assert "'nail'" in run("columns", "nail", fails=2).stderr
