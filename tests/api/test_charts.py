"""Charts over the wire: looked through, drawn, saved whole or not at all, withdrawn; whatever comes in, never a 5xx."""

import json

import pytest

from oddleg.charts import read_csv, row_texts, shipped_rows
from oddleg.job import HardwareKind

RUNNER = row_texts(next(row for row in shipped_rows() if row.id == "runner-500"))
OWN = {**RUNNER, "id": "our-500", "name": "our runner", "source": "the maker's sheet"}


def check(desk, **body):
    return desk.ask("POST", "/charts/check?kind=runner", json=body)


def save(desk, *rows):
    return desk.ask("POST", "/charts/runner", json={"rows": list(rows)})


def kind(desk, name="runner"):
    return next(one for one in desk.ask("GET", "/charts").json["kinds"] if one["kind"] == name)


def listed(desk, id):
    return next((one for one in kind(desk)["rows"] if one["id"] == id), None)


def test_every_kind_is_listed_with_its_columns_and_what_may_stand_in_them(desk):
    kinds = desk.ask("GET", "/charts").json["kinds"]
    assert [one["kind"] for one in kinds] == list(HardwareKind)
    for one in kinds:
        assert one["rows"] and all(set(row["texts"]) == {c["name"] for c in one["columns"]} for row in one["rows"])
        assert all(column["words"] and column["allowed"] for column in one["columns"])
    assert listed(desk, "runner-500") | {"texts": {}} == {
        "id": "runner-500", "name": RUNNER["name"], "ours": False, "ships": True, "person": None, "at": None,
        "texts": {}, "sha": next(row.sha for row in shipped_rows() if row.id == "runner-500"),
    }  # fmt: skip


def test_a_row_typed_in_is_checked_saved_and_offered_as_ours(desk):
    assert check(desk, rows=[OWN]).json == {"kind": "runner", "problems": [], "more": 0, "rows": [OWN], "count": 1}
    assert listed(desk, "our-500") is None  # a check saves nothing
    answer = save(desk, OWN)
    assert answer.status_code == 200, answer.text
    found = listed(desk, "our-500")
    assert (found["ours"], found["ships"], found["person"], found["texts"]) == (True, False, "Maud Office", OWN)


def test_a_row_of_ours_stands_before_the_one_that_ships_until_it_is_withdrawn(desk):
    shipped = listed(desk, "runner-500")
    save(desk, {**RUNNER, "first_mm": "38"})
    ours = listed(desk, "runner-500")
    assert (ours["ours"], ours["ships"], ours["texts"]["first_mm"]) == (True, True, "38")
    assert ours["sha"] != shipped["sha"]
    assert len(kind(desk)["rows"]) == len({one["id"] for one in kind(desk)["rows"]})
    assert desk.ask("DELETE", "/charts/runner/runner-500").status_code == 204
    assert listed(desk, "runner-500") == shipped


def test_one_wrong_row_saves_none_and_is_told_by_line_and_column(desk):
    answer = save(desk, OWN, {**OWN, "id": "our-600", "first_mm": "1.457"})
    assert answer.status_code == 422
    ((path, texts),) = answer.json["errors"].items()
    assert path == "line 2, first_mm"
    assert "37" in texts[0]  # 1.457 inches, 25.4 mm each, are 37.0 mm
    assert listed(desk, "our-500") is None


def test_the_good_rows_are_shown_beside_what_is_wrong(desk):
    told = check(desk, rows=[OWN, {**OWN, "id": "our-600", "up_mm": "-3"}]).json
    assert [(one["line"], one["column"]) for one in told["problems"]] == [(2, "up_mm")]
    assert [row["id"] for row in told["rows"]] == ["our-500"]


def test_a_csv_is_taken_as_a_spreadsheet_saved_it_as_text_and_as_a_file(desk):
    """Byte order mark, semicolons, decimal commas."""
    row = {**OWN, "up_mm": "45.5"}
    cells = [text.replace(".", ",") if name.endswith("_mm") else text for name, text in row.items()]
    text = "\ufeff" + ";".join(row) + "\r\n" + ";".join(cells) + "\r\n"
    assert check(desk, csv=text).json["problems"] == []
    for data in (text.encode(), text.lstrip("\ufeff").encode("cp1252"), text.lstrip("\ufeff").encode("utf-16")):
        told = desk.ask("POST", "/charts/check?kind=runner", data=data, content_type="text/csv").json
        assert (told["problems"], told["rows"]) == ([], [row])
    answer = desk.ask("POST", "/charts/runner", data=text.encode(), content_type="text/csv; charset=utf-8")
    assert answer.status_code == 200, answer.text
    assert listed(desk, "our-500")["texts"] == row


def test_what_is_exported_can_be_brought_in_again(desk):
    save(desk, OWN)
    answer = desk.ask("GET", "/charts/runner.csv")
    assert answer.mimetype == "text/csv"
    assert "our-500" in {row.id for row in read_csv(answer.data, HardwareKind.RUNNER).rows}
    again = desk.ask("POST", "/charts/check?kind=runner", data=answer.data, content_type="text/csv").json
    assert again["problems"] == []
    assert again["count"] == len(kind(desk)["rows"])
    before = kind(desk)["rows"]
    saved = desk.ask("POST", "/charts/runner", data=answer.data, content_type="text/csv")
    assert saved.status_code == 200, saved.text
    assert [(one["id"], one["ours"]) for one in kind(desk)["rows"]] == [(one["id"], one["ours"]) for one in before]


def test_a_row_is_drawn_as_it_is_typed_and_not_once_a_figure_is_missing(desk):
    drawn = desk.ask("POST", "/charts/drawing", json={"kind": "runner", "row": OWN}).json
    assert drawn["problems"] == []
    assert drawn["drawing"]["svg"].startswith("<svg") and drawn["drawing"]["alt"]
    half = desk.ask("POST", "/charts/drawing", json={"kind": "runner", "row": {**OWN, "first_mm": ""}}).json
    assert half["drawing"] is None
    assert [one["column"] for one in half["problems"]] == ["first_mm"]


def test_a_row_is_drawn_before_it_has_its_name_and_with_figures_that_are_at_odds(desk):
    unnamed = desk.ask("POST", "/charts/drawing", json={"kind": "runner", "row": {**OWN, "id": "", "source": ""}}).json
    assert unnamed["drawing"]
    assert {one["column"] for one in unnamed["problems"]} == {"id", "source"}
    beyond = {**OWN, "screws_mm": "0 128 999"}
    at_odds = desk.ask("POST", "/charts/drawing", json={"kind": "runner", "row": beyond}).json
    assert at_odds["drawing"]
    assert [one["column"] for one in at_odds["problems"]] == ["screws_mm"]


@pytest.mark.parametrize("one", list(HardwareKind))
def test_every_row_that_ships_is_drawn(desk, one):
    for row in kind(desk, str(one))["rows"]:
        drawn = desk.ask("POST", "/charts/drawing", json={"kind": str(one), "row": row["texts"]}).json
        assert drawn["drawing"]["svg"], row["id"]
        assert drawn["problems"] == []


def test_a_new_day_of_checking_makes_no_new_version(desk):
    save(desk, OWN)
    before = listed(desk, "our-500")
    save(desk, {**OWN, "checked_on": "2026-02-27"})
    after = listed(desk, "our-500")
    assert (after["sha"], after["texts"]["checked_on"]) == (before["sha"], "2026-02-27")


def test_what_ships_cannot_be_withdrawn_and_what_is_not_there_is_said_to_be_not(desk):
    answer = desk.ask("DELETE", "/charts/runner/runner-500")
    assert (answer.status_code, "ships" in answer.json["errors"]["row"][0]) == (422, True)
    assert desk.ask("DELETE", "/charts/runner/nothing").status_code == 404
    for method, path in (("POST", "/charts/lamp"), ("GET", "/charts/lamp.csv"), ("DELETE", "/charts/lamp/x")):
        answer = desk.ask(method, path, **({"json": {"rows": []}} if method == "POST" else {}))
        assert answer.status_code == 404
        assert "pull_out" in answer.json["detail"]


def test_only_the_office_writes_charts_and_a_fitter_may_read_them(desk, fitter):
    save(desk, OWN)
    assert fitter.ask("GET", "/charts").status_code == 200
    for method, path, more in (
        ("POST", "/charts/check?kind=runner", {"json": {"rows": [OWN]}}),
        ("POST", "/charts/drawing", {"json": {"kind": "runner", "row": OWN}}),
        ("POST", "/charts/runner", {"json": {"rows": [OWN]}}),
        ("DELETE", "/charts/runner/our-500", {}),
    ):
        assert fitter.ask(method, path, **more).status_code == 403
    assert listed(desk, "our-500")


def csv_of(rows):
    return "\n".join([",".join(OWN), *(",".join(f'"{text}"' for text in row.values()) for row in rows)]).encode()


def send(desk, path, data):
    return desk.ask("POST", path, data=data, content_type="text/csv")


def test_ten_thousand_rows_are_saved_and_one_more_is_refused(desk):
    many = [{**OWN, "id": f"our-{place}"} for place in range(10_000)]
    told = send(desk, "/charts/check?kind=runner", csv_of(many))
    assert (told.status_code, told.json["count"], len(told.json["rows"])) == (200, 10_000, 200)
    assert send(desk, "/charts/runner", csv_of(many)).status_code == 200
    answer = send(desk, "/charts/runner", csv_of([*many, OWN]))
    assert answer.status_code == 422
    assert "10000" in json.dumps(answer.json["errors"])
    assert len(kind(desk)["rows"]) == 10_000 + sum(one.id.startswith("runner-") for one in shipped_rows())


def test_ten_thousand_wrong_rows_are_told_the_first_and_how_many_more(desk):
    many = [{**OWN, "id": f"our-{place}", "first_mm": "-1"} for place in range(10_000)]
    told = send(desk, "/charts/check?kind=runner", csv_of(many)).json
    assert (len(told["problems"]), told["more"], told["count"]) == (200, 9_800, 0)


def test_more_typed_rows_than_are_read_at_once_are_refused_in_words(desk):
    many = [{**OWN, "id": f"our-{place}"} for place in range(10_000)]
    assert check(desk, rows=many).status_code == 400  # over 4 MB
    answer = check(desk, rows=[{"id": "a"}] * 10_001)
    assert (answer.status_code, list(answer.json["errors"])) == (422, ["rows"])


ODD_BODIES = [
    b"", b"{", b"null", b"[]", b"7", b'{"rows": 7}', b'{"rows": [7]}', b'{"rows": [{"id": 7}]}', b'{"rows": [null]}',
    b'{"rows": [{"id": null}]}', b'{"rows": []}', b'{"csv": 7}', b'{"csv": ""}', b'{"csv": "a\\u0000b"}',
    b'{"csv": "\\ud800"}', b'{"rows": [], "csv": ""}', b"{}", b'{"rows": [{"": ""}]}', b'{"other": 1}',
    b'{"rows": [{"id": "' + b"9" * 10_000 + b'"}]}', b'{"rows": [{"first_mm": "' + b"9" * 5_000 + b'"}]}',
    b'{"rows": [{"first_mm": "1e999"}]}', b'{"rows": [{"first_mm": "NaN"}]}', b'{"rows": [{"screws_mm": " "}]}',
    b'{"rows": [{"screws_mm": ";"}]}', b"[" * 5_000, b"\xff\xfe\x00",
]  # fmt: skip


@pytest.mark.parametrize("body", ODD_BODIES)
def test_whatever_is_sent_as_json_is_answered_in_words(desk, body):
    for path in ("/charts/check?kind=runner", "/charts/runner", "/charts/drawing"):
        answer = desk.ask("POST", path, data=body, content_type="application/json")
        assert answer.status_code in (200, 400, 422), (path, answer.text)
        assert answer.status_code != 200 or answer.json["problems"], (path, answer.text)


ODD_FILES = [
    b"", b"\x00" * 50, b"\xff\xfe", b"\xff\xfe\x00", b"\xef\xbb\xbf", b"id", b"id\n", b"\n\n\n", b'"', b"a,b\n1,2,3,4",
    b"kind\nlamp", b"\x89PNG\r\n\x1a\n\x00", b"x" * 200_000, b"id," * 5_000, b'id,name\n"' + b"x" * 200_000, b"\x81\x8d",
    b"kind,id\nrunner,a\nrunner,a\n",
]  # fmt: skip


@pytest.mark.parametrize("data", ODD_FILES)
def test_whatever_is_sent_as_a_file_is_answered_in_words(desk, data):
    told = desk.ask("POST", "/charts/check?kind=runner", data=data, content_type="text/csv")
    assert told.status_code == 200, told.text
    assert told.json["problems"]
    assert desk.ask("POST", "/charts/runner", data=data, content_type="text/csv").status_code == 422


@pytest.mark.parametrize("query", ["", "?kind=", "?kind=lamp", "?kind=runner&kind=hinge", "?kind=%00"])
def test_a_check_of_no_kind_is_refused_by_name(desk, query):
    answer = desk.ask("POST", f"/charts/check{query}", json={"rows": [OWN]})
    assert answer.status_code == 422 if "runner" not in query else answer.status_code in (200, 422)
