"""The pack: a manifest, parts by hash, and only what changed travels."""

import gzip
import hashlib
import importlib
import json

import demo_hall


def pack(phone):
    answer = phone.ask("GET", "/jobs/hall/pack")
    assert answer.status_code == 200, answer.text
    return answer


def test_every_part_of_the_manifest_is_there_with_its_hash_and_size(fitter):
    manifest = pack(fitter).json
    names = [one["name"] for one in manifest["parts"]]
    assert {"job", "survey/kitchen", "floor/kitchen", "datum/kitchen", "findings", "sheets"} <= set(names)
    for one in manifest["parts"]:
        answer = fitter.ask("GET", f"/jobs/hall/pack/{one['sha']}")
        assert hashlib.sha256(answer.data).hexdigest() == one["sha"]
        assert (len(answer.data), len(one["mark"])) == (one["bytes"], 6)
        assert "immutable" in answer.headers["Cache-Control"]
        body = answer.json
        kind = one["name"].split("/")[0]
        for field in {"survey": ["drawing"], "floor": ["drawing"], "datum": ["drawing"]}.get(kind, []):
            assert set(body[field]) == {"title", "alt", "svg"}
            assert body[field]["svg"].startswith("<svg")


def test_the_source_is_the_etag_and_the_pull_tells_it(fitter):
    answer = pack(fitter)
    source = answer.json["source"]
    assert answer.headers["ETag"] == f'"{source["text"]}"'
    assert fitter.pull().json["pack"] == source["text"]
    assert (source["job"], source["revision"], source["position"], source["chain"]) == ("hall", 1, 0, "0" * 64)
    again = fitter.ask("GET", "/jobs/hall/pack", headers={"If-None-Match": answer.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")


def test_a_note_makes_no_new_plan_and_a_reading_does(fitter, made):
    first = pack(fitter)
    fitter.push(fitter.entry(made.note()))
    assert pack(fitter).headers["ETag"] == first.headers["ETag"]
    fitter.push(fitter.entry(made.set_up()), fitter.entry(made.reading()))
    source = pack(fitter).json["source"]
    row = fitter.log()[-1]
    assert (source["position"], source["chain"]) == (row["pos"], row["chain"])


def test_only_parts_that_changed_have_a_new_hash(desk, fitter, made):
    before = {one["name"]: one["sha"] for one in pack(fitter).json["parts"]}
    job = json.loads(desk.ask("GET", "/jobs/hall").text) | {"client": "Parish council"}
    assert desk.ask("PUT", "/jobs/hall", json=job, headers={"If-Match": '"1"'}).status_code == 200
    after = {one["name"]: one["sha"] for one in pack(fitter).json["parts"]}
    assert {name for name in before if before[name] != after[name]} == {"job"}


def test_the_same_source_gives_the_same_pack_after_a_restart(site, fitter, made):
    fitter.push(fitter.entry(made.set_up()), fitter.entry(made.reading()))
    first = pack(fitter).data
    site.start()
    assert pack(fitter).data == first


def test_a_part_of_an_older_plan_is_still_there_as_a_record(fitter, made):
    old = pack(fitter).json["parts"]
    fitter.push(fitter.entry(made.set_up()), fitter.entry(made.reading()))
    pack(fitter)
    assert all(fitter.ask("GET", f"/jobs/hall/pack/{one['sha']}").status_code == 200 for one in old)


def test_an_unknown_part_is_404_and_says_what_to_do(fitter):
    answer = fitter.ask("GET", f"/jobs/hall/pack/{'0' * 64}")
    assert (answer.status_code, answer.mimetype) == (404, "application/problem+json")
    assert "manifest" in answer.json["detail"]


def test_a_part_is_zipped_for_those_that_ask(fitter):
    sha = next(one["sha"] for one in pack(fitter).json["parts"] if one["name"] == "survey/kitchen")
    plain = fitter.ask("GET", f"/jobs/hall/pack/{sha}")
    zipped = fitter.ask("GET", f"/jobs/hall/pack/{sha}", headers={"Accept-Encoding": "gzip"})
    assert zipped.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(zipped.data) == plain.data
    assert "Accept-Encoding" in zipped.headers["Vary"]


def test_a_push_makes_no_plan(fitter, made, monkeypatch):
    """Were a plan made in a push, this broken planner would be met there as it is by the pack."""

    def broken(*_):
        raise RuntimeError("planned")

    monkeypatch.setattr(importlib.import_module("oddleg.api.pack"), "plan", broken)
    assert fitter.statuses(fitter.entry(made.set_up())) == ["stored"]
    assert fitter.pull().status_code == 200
    assert fitter.ask("GET", "/jobs/hall/pack").status_code == 500


def test_sheets_come_as_pdf_and_are_kept_word_for_word(site, fitter):
    sheets = next(one for one in pack(fitter).json["parts"] if one["name"] == "sheets")
    for one in fitter.ask("GET", f"/jobs/hall/pack/{sheets['sha']}").json["sheets"]:
        answer = fitter.ask("GET", f"/jobs/hall/sheets/{one['name']}.pdf")
        assert (answer.status_code, answer.mimetype) == (200, "application/pdf"), answer.text
        assert answer.data.startswith(b"%PDF-")
        with site.app.app_context():
            from oddleg.store.database import database
            from oddleg.store.tables import Record

            kept = database.session.get(Record, ("hall", hashlib.sha256(answer.data).hexdigest()))
            assert (kept.body, kept.name) == (answer.data, f"sheets/{one['name']}")


def test_an_unknown_sheet_is_404_and_names_those_there_are(fitter):
    answer = fitter.ask("GET", "/jobs/hall/sheets/nix.pdf")
    assert answer.status_code == 404
    assert "legs-kitchen" in answer.json["detail"]


def test_the_manifest_is_canonical_json(fitter):
    data = pack(fitter).data
    assert json.dumps(json.loads(data), ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode() == data


def test_the_demos_whole_pack_travels_in_less_than_300_kb(desk):
    """The bound is the project's own (a slow village signal): manifest and every part with its drawings, gzipped."""
    job = json.loads((demo_hall.DEMO / "hall.json").read_text(encoding="utf-8"))
    book = json.loads((demo_hall.DEMO / "hall-entries.json").read_text(encoding="utf-8"))
    assert desk.ask("POST", "/jobs", json=job).status_code == 201
    assert set(desk.statuses(*book["entries"])) == {"stored"}

    def travels(path):
        answer = desk.ask("GET", f"/jobs/{job['id']}/{path}", headers={"Accept-Encoding": "gzip"})
        assert answer.status_code == 200, path
        # What is too small to gain by it is not zipped.
        zipped = answer.headers.get("Content-Encoding") == "gzip"
        return json.loads(gzip.decompress(answer.data) if zipped else answer.data), len(answer.data)

    manifest, size = travels("pack")
    names = [one["name"] for one in manifest["parts"]]
    assert sum(name.startswith("unit/") for name in names) == len(demo_hall.hall_plan().rooms[0].units) > 0
    size += sum(travels(f"pack/{one['sha']}")[1] for one in manifest["parts"])
    assert size < 300_000, size
