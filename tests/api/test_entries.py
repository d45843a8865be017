"""Site entries over the wire: nothing is lost, nothing doubled, nothing altered, whatever goes wrong on the way."""

import json
import shutil

import pytest


def test_a_saved_entry_comes_back_byte_for_byte_with_its_place_and_chain(desk, fitter, made):
    entry = fitter.entry('{"raw": 1}  ')
    good = fitter.entry(json.dumps(made.set_up(), indent=3, ensure_ascii=False))
    assert fitter.statuses(entry, good) == ["quarantined", "stored"]
    (row,) = desk.log()
    assert (row["uid"], row["sha"], row["payload"]) == (good["uid"], good["sha"], good["payload"])
    assert (row["pos"], row["chain"]) == (1, made.link(made.START, good["uid"], good["sha"]))
    assert (row["person"], row["erased"]) == ("Col Fitter", False)


def test_a_lost_answer_doubles_nothing(desk, fitter, made):
    entries = [fitter.entry(made.set_up()), fitter.entry(made.reading())]
    first = fitter.push(*entries).json
    again = fitter.push(*entries).json
    assert [one["status"] for one in first["results"]] == ["stored", "stored"]
    assert [one["status"] for one in again["results"]] == ["duplicate", "duplicate"]
    assert again["have"] == first["have"]
    assert [row["uid"] for row in desk.log()] == [one["uid"] for one in entries]


def test_one_entry_twice_in_one_batch_is_stored_once(desk, fitter, made):
    entry = fitter.entry(made.set_up())
    assert fitter.statuses(entry, entry) == ["stored", "duplicate"]
    assert len(desk.log()) == 1


def test_have_is_the_chain_over_the_phones_own_numbering(fitter, made):
    one, two = fitter.entry(made.set_up()), fitter.entry(made.note())
    have = fitter.push(one, two).json["have"]
    chain = made.link(made.link(made.START, one["uid"], one["sha"]), two["uid"], two["sha"])
    assert have == {"seq": 2, "chain": chain}
    assert fitter.pull().json["have"] == have


def test_entries_that_come_out_of_order_move_have_only_once_the_gap_is_filled(fitter, made):
    one, two, three = (fitter.entry(made.note(text)) for text in ("one", "two", "three"))
    assert fitter.push(three).json["have"]["seq"] == 0
    assert fitter.push(one).json["have"]["seq"] == 1
    have = fitter.push(two).json["have"]
    chain = made.START
    for entry in (one, two, three):
        chain = made.link(chain, entry["uid"], entry["sha"])
    assert have == {"seq": 3, "chain": chain}


def test_a_late_duplicate_after_newer_entries_changes_nothing(desk, fitter, made):
    one = fitter.entry(made.set_up())
    fitter.push(one)
    two = fitter.entry(made.reading())
    have = fitter.push(two).json["have"]
    assert fitter.statuses(one) == ["duplicate"]
    assert fitter.push().json["have"] == have
    assert [row["uid"] for row in desk.log()] == [one["uid"], two["uid"]]


def test_the_same_entry_under_a_new_writer_takes_its_new_slot_as_well(desk, fitter, made):
    entry = fitter.entry(made.set_up())
    fitter.push(entry)
    fitter.writer, fitter.seq = "w-2", 0
    again = fitter.entry(entry["payload"], uid=entry["uid"])
    answer = fitter.push(again).json
    assert answer["results"][0]["status"] == "duplicate"
    assert answer["have"] == {"seq": 1, "chain": made.link(made.START, entry["uid"], entry["sha"])}
    assert len(desk.log()) == 1


def test_other_content_under_a_known_id_is_a_conflict_and_both_are_kept(desk, fitter, made):
    entry = fitter.entry(made.reading(value="1204.5"))
    other = fitter.entry(made.reading(value="1240.5"), uid=entry["uid"])
    fitter.push(entry)
    answer = fitter.push(other).json
    assert [one["status"] for one in answer["results"]] == ["conflict"]
    # the phone's own sha counts in its chain, also for a conflict
    chain = made.link(made.link(made.START, entry["uid"], entry["sha"]), other["uid"], other["sha"])
    assert answer["have"] == {"seq": 2, "chain": chain}
    assert [row["payload"] for row in desk.log()] == [entry["payload"]]
    (case,) = desk.ask("GET", "/quarantine").json["cases"]
    assert (case["reason"], case["payload"]) == ("conflict", other["payload"])
    assert answer["attention"] == [{"uid": entry["uid"], "problem": case["problem"], "state": "open"}]
    assert fitter.statuses(other) == ["conflict"]
    assert len(desk.ask("GET", "/quarantine").json["cases"]) == 1


def test_a_conflict_within_one_batch_keeps_the_first(desk, fitter, made):
    entry = fitter.entry(made.note("first"))
    other = fitter.entry(made.note("second"), uid=entry["uid"])
    assert fitter.statuses(entry, other) == ["stored", "conflict"]
    assert [row["payload"] for row in desk.log()] == [entry["payload"]]


def test_a_taken_slot_is_a_fork_and_the_entry_is_kept(desk, fitter, made):
    one = fitter.entry(made.set_up())
    have = fitter.push(one).json["have"]
    clone = fitter.entry(made.note("from the copied phone"), seq=1)
    answer = fitter.push(clone).json
    assert answer["results"][0]["status"] == "fork"
    assert "new writer" in answer["results"][0]["problem"]
    assert answer["have"] == have
    assert [row["uid"] for row in desk.log()] == [one["uid"], clone["uid"]]
    fitter.writer = "w-2"
    assert fitter.statuses(clone) == ["duplicate"]


UNUSABLE = {
    "not json": "1204,5",
    "nan": '{"schema": 1, "job": "hall", "value": NaN}',
    "doubled key": '{"schema": 1, "schema": 1, "job": "hall"}',
    "nul": '{"schema": 1, "job": "hall", "kind": "\\u0000"}',
    "half a pair, escaped": '{"schema": 1, "job": "hall", "kind": "\\ud800"}',
    "half a pair, raw": '{"schema": 1, "job": "\ud800"}',
    "too deep": '{"schema":' + "[" * 200_000 + "]" * 200_000 + "}",
    "too long": json.dumps({"schema": 1, "job": "hall", "data": "x" * 70_000}),
    "a list": "[]",
    "empty": "",
    "huge number": '{"schema": 1, "job": "hall", "value": 1e999}',
}


@pytest.mark.parametrize("name", UNUSABLE)
def test_an_unusable_entry_is_kept_word_for_word_and_does_not_hold_up_the_rest(desk, fitter, made, name):
    bad, good = fitter.entry(UNUSABLE[name]), fitter.entry(made.set_up())
    assert fitter.statuses(bad, good) == ["quarantined", "stored"]
    answer = fitter.push(bad).json
    assert answer["results"][0]["status"] == "duplicate"
    assert answer["have"]["seq"] == 2
    assert [one["uid"] for one in answer["attention"]] == [bad["uid"]]
    (case,) = desk.ask("GET", "/quarantine").json["cases"]
    assert case["uid"] == bad["uid"]
    assert case["problem"]
    assert case["cure"]
    assert [row["uid"] for row in desk.log()] == [good["uid"]]


WRONG = {
    "unknown schema": lambda made: made.note(schema=2),
    "unknown kind": lambda made: made.note(kind="song"),
    "unknown job": lambda made: made.note(job="barn"),
    "value is not what was typed": lambda made: made.reading(value="12.5") | {"value": "125"},
    "no number": lambda made: made.reading(value="12..5"),
    "infinite": lambda made: made.reading(value="1e300"),
    "a field too many": lambda made: made.note(colour="red"),
}


@pytest.mark.parametrize("name", WRONG)
def test_a_wrong_entry_is_put_aside_with_its_reason_and_shown_to_both_ends(desk, fitter, made, name):
    entry = fitter.entry(WRONG[name](made))
    answer = fitter.push(entry).json
    (result,) = answer["results"]
    assert (result["status"], result["sha"]) == ("quarantined", entry["sha"])
    assert answer["attention"] == [{"uid": entry["uid"], "problem": result["problem"], "state": "open"}]
    (case,) = desk.ask("GET", "/quarantine").json["cases"]
    assert (case["problem"], case["payload"]) == (result["problem"], entry["payload"])
    assert desk.log() == []


def test_a_damaged_entry_is_answered_with_the_phones_hash_and_taken_once_it_comes_whole(desk, fitter, made):
    entry = fitter.entry(made.set_up())
    damaged = {**entry, "payload": entry["payload"].replace("middle", "mid")}
    assert fitter.statuses(damaged) == ["quarantined"]
    assert fitter.statuses(damaged) == ["duplicate"]
    assert fitter.statuses(entry) == ["stored"]
    assert [row["payload"] for row in desk.log()] == [entry["payload"]]
    assert desk.ask("GET", "/quarantine").json["cases"] == []


def test_an_entry_may_name_what_is_not_here_yet(desk, fitter, made):
    orphan = fitter.entry(made.reading(replaces="0192f0aa-1111-7000-8000-000000000001"))
    assert fitter.statuses(orphan) == ["stored"]


def test_replacing_across_jobs_or_in_a_circle_is_put_aside(desk, fitter, made):
    assert desk.ask("POST", "/jobs", json=made.hall(id="barn")).status_code == 201
    assert desk.ask("PUT", f"/jobs/barn/assignments/{fitter.person}").status_code == 204
    first = fitter.entry(made.note("one"))
    across = fitter.entry(made.note("two", job="barn", replaces=first["uid"]))
    assert fitter.statuses(first, across) == ["stored", "quarantined"]
    one, two, three = (made.new_uid(fitter.chance) for _ in range(3))
    ring = [
        fitter.entry(made.note("a", replaces=two), uid=one),
        fitter.entry(made.note("b", replaces=three), uid=two),
        fitter.entry(made.note("c", replaces=one), uid=three),
    ]
    assert fitter.statuses(ring[0]) == ["stored"]
    assert fitter.statuses(*ring[1:]) == ["stored", "quarantined"]
    self_replacing = made.new_uid(fitter.chance)
    assert fitter.statuses(fitter.entry(made.note(replaces=self_replacing), uid=self_replacing)) == ["quarantined"]


def test_an_entry_for_a_removed_unit_is_put_aside_and_the_office_may_let_it_in(desk, fitter, made):
    job = json.loads(desk.ask("GET", "/jobs/hall").text)
    job["rooms"][0]["runs"][0]["items"].pop()
    assert desk.ask("PUT", "/jobs/hall", json=job, headers={"If-Match": '"1"'}).status_code == 200
    entry = fitter.entry(made.note(target="unit-2"))
    answer = fitter.push(entry).json
    assert answer["results"][0]["status"] == "quarantined"
    assert "unit-2" in answer["results"][0]["problem"]
    (case,) = desk.ask("GET", "/quarantine").json["cases"]
    assert desk.ask("POST", f"/quarantine/{case['id']}/release").status_code == 204
    assert desk.log()[0]["uid"] == entry["uid"]
    assert fitter.push().json["attention"] == []


def test_a_released_and_a_dismissed_entry_leave_a_note_in_the_log(desk, fitter, made):
    barn, lost = fitter.entry(made.set_up(job="barn")), fitter.entry(made.note(job="hall", kind="song"))
    fitter.push(barn, lost)
    cases = {case["uid"]: case["id"] for case in desk.ask("GET", "/quarantine").json["cases"]}
    refused = desk.ask("POST", f"/quarantine/{cases[barn['uid']]}/release")
    assert (refused.status_code, refused.mimetype) == (409, "application/problem+json")
    assert desk.ask("POST", "/jobs", json=made.hall(id="barn")).status_code == 201
    assert desk.ask("POST", f"/quarantine/{cases[barn['uid']]}/release").status_code == 204
    entry, said = desk.log("barn")
    assert (entry["uid"], entry["person"]) == (barn["uid"], "Col Fitter")
    assert "let in by Maud Office" in json.loads(said["payload"])["data"]["text"]
    assert desk.ask("POST", f"/quarantine/{cases[lost['uid']]}/dismissal").status_code == 204
    (said,) = desk.log("hall")
    assert lost["uid"] in json.loads(said["payload"])["data"]["text"]
    assert desk.ask("POST", f"/quarantine/{cases[lost['uid']]}/dismissal").status_code == 409
    assert fitter.statuses(lost) == ["duplicate"]
    assert fitter.push().json["attention"] == []


def test_a_fitter_reaches_no_job_that_is_not_theirs_by_pushing(desk, fitter, made):
    assert desk.ask("POST", "/jobs", json=made.hall(id="barn")).status_code == 201
    assert fitter.statuses(fitter.entry(made.set_up(job="barn"))) == ["quarantined"]
    assert desk.log("barn") == []


def test_two_phones_write_one_log_without_gaps_and_both_read_all_of_it(site, desk, fitter, made):
    mate = site.phone(fitter.person, "second phone")
    for count in range(4):
        phone = (fitter, mate)[count % 2]
        assert phone.statuses(phone.entry(made.note(f"note {count}"))) == ["stored"]
    rows = fitter.log()
    assert rows == mate.log() == desk.log()
    assert [row["pos"] for row in rows] == [1, 2, 3, 4]
    chain = made.START
    for row in rows:
        chain = made.link(chain, row["uid"], row["sha"])
        assert row["chain"] == chain


def test_two_phones_may_use_the_same_writer_name(site, fitter, made):
    mate = site.phone(fitter.person)
    assert fitter.statuses(fitter.entry(made.note("mine"))) == ["stored"]
    assert mate.statuses(mate.entry(made.note("yours"))) == ["stored"]


def test_the_log_is_pulled_page_by_page_and_the_cursor_carries_its_chain(fitter, made):
    fitter.push(*(fitter.entry(made.note(str(count))) for count in range(5)))
    after, seen, pages = None, [], 0
    more = True
    while more:
        page = fitter.pull(after=after, limit=2).json
        assert page["reset"] is False
        seen += page["rows"]
        after, more, pages = page["next"], page["more"], pages + 1
    assert pages == 3
    assert seen == fitter.log()
    assert after == f"5.{seen[-1]['chain']}"
    quiet = fitter.pull(after=after).json
    assert (quiet["rows"], quiet["next"], quiet["more"]) == ([], after, False)


@pytest.mark.parametrize("after", ["0." + "1" * 64, "1." + "a" * 64, "9." + "0" * 64])
def test_a_cursor_of_another_log_is_told_to_start_again(fitter, made, after):
    fitter.push(fitter.entry(made.note()))
    page = fitter.pull(after=after).json
    assert (page["reset"], page["rows"], page["next"]) == (True, [], f"0.{made.START}")


@pytest.mark.parametrize("query", [{"after": "x"}, {"after": "1.zz"}, {"limit": "0"}, {"limit": "many"}])
def test_a_cursor_that_is_none_is_refused_by_field(fitter, query):
    answer = fitter.ask("GET", "/jobs/hall/entries", query_string=query)
    assert (answer.status_code, set(answer.json["errors"])) == (422, set(query))


def test_after_an_older_backup_is_restored_have_is_lower_and_cursors_are_reset(site, desk, fitter, made, tmp_path):
    early = fitter.entry(made.set_up())
    fitter.push(early)
    backup = tmp_path / "backup"
    close(site)
    shutil.copytree(site.folder, backup)
    site.start()
    late = [fitter.entry(made.reading()), fitter.entry(made.note())]
    assert fitter.push(*late).json["have"]["seq"] == 3
    cursor = fitter.pull().json["next"]
    close(site)
    shutil.rmtree(site.folder)
    shutil.copytree(backup, site.folder)
    site.start()
    have = fitter.push().json["have"]
    assert have == {"seq": 1, "chain": made.link(made.START, early["uid"], early["sha"])}
    assert fitter.pull(after=cursor).json["reset"] is True
    assert fitter.statuses(*late) == ["stored", "stored"]
    assert [row["uid"] for row in desk.log()] == [early["uid"], *(one["uid"] for one in late)]


def close(site):
    from oddleg.store.database import database

    with site.app.app_context():
        database.session.remove()
        database.engine.dispose()


def test_what_a_phone_saved_and_never_sent_is_counted_for_the_office(desk, fitter, made):
    one, _, three = (fitter.entry(made.note(text)) for text in "abc")
    fitter.push(one, three, saved_seq=5)
    (gap,) = desk.ask("GET", "/quarantine").json["missing"]
    assert (gap["person"], gap["writer"], gap["count"]) == ("Col Fitter", "w-1", 3)


def test_a_revoked_phone_reads_nothing_but_hands_its_entries_into_quarantine(desk, fitter, made):
    before = fitter.entry(made.set_up())
    fitter.push(before)
    assert desk.ask("DELETE", f"/pairings/{fitter.pairing}").status_code == 204
    for path in ("/me", "/jobs", "/jobs/hall", "/jobs/hall/entries", "/openapi.json"):
        assert fitter.ask("GET", path).status_code == 403, path
    after = fitter.entry(made.reading())
    fitter.writer = "w-2"
    answer = fitter.push(before, after).json
    assert [one["status"] for one in answer["results"]] == ["duplicate", "quarantined"]
    assert [row["uid"] for row in desk.log()] == [before["uid"]]
    (case,) = desk.ask("GET", "/quarantine").json["cases"]
    assert case["reason"] == "revoked"
    assert desk.ask("POST", f"/quarantine/{case['id']}/release").status_code == 204
    assert desk.log()[1]["uid"] == after["uid"]


def test_a_revoked_phone_hands_over_so_much_and_no_more(tmp_path, made):
    site = made.Site(tmp_path / "data", greatest_from_revoked_bytes=1500)
    office = site.office()
    desk, phone = site.phone(office), site.phone(office)
    assert desk.ask("DELETE", f"/pairings/{phone.pairing}").status_code == 204
    first, second, third = (phone.entry(made.note(text * 200)) for text in "abc")
    assert phone.statuses(first, second) == ["quarantined", "quarantined"]
    refused = phone.push(third)
    assert (refused.status_code, refused.mimetype) == (429, "application/problem+json")
    assert phone.statuses(first, second) == ["duplicate", "duplicate"]


def test_ten_megabytes_is_what_a_revoked_phone_may_hand_over(site):
    assert site.app.extensions["oddleg"].config.greatest_from_revoked_bytes == 10_000_000


def test_after_an_upgrade_what_was_of_a_newer_schema_is_tried_again_by_itself(site, desk, fitter, made):
    """The upgrade is played by a case that an older program could not read and this one can."""
    from sqlalchemy import update

    from oddleg.store.database import writing
    from oddleg.store.tables import Quarantine

    entry = fitter.entry(made.note(job="barn"))
    fitter.push(entry)
    assert desk.ask("POST", "/jobs", json=made.hall(id="barn")).status_code == 201
    site.start()
    assert desk.log("barn") == []
    with site.app.app_context(), writing() as session:
        session.execute(update(Quarantine).values(reason="schema"))
    site.start()
    assert [row["uid"] for row in desk.log("barn")] == [entry["uid"]]
    assert fitter.push().json["attention"] == []


ENVELOPES = {
    "entries.0.uid": {"uid": "UPPER"},
    "entries.0.seq": {"seq": "1"},
    "entries.0.sha": {"sha": "abc"},
    "entries.0.payload": {"payload": {"schema": 1}},
    "entries.0.more": {"more": 1},
}


@pytest.mark.parametrize("path", ENVELOPES)
def test_an_envelope_that_is_none_is_refused_by_path(fitter, made, path):
    answer = fitter.push({**fitter.entry(made.note()), **ENVELOPES[path]}, saved_seq=1)
    assert (answer.status_code, set(answer.json["errors"])) == (422, {path})


def test_the_log_survives_a_restart(site, desk, fitter, made):
    fitter.push(fitter.entry(made.set_up()))
    rows = desk.log()
    site.start()
    assert desk.log() == rows


def test_every_answer_to_entries_carries_the_marker(fitter):
    assert fitter.push().json["marker"] == fitter.pull().json["marker"] == "oddleg/1"
    assert fitter.push().json["backed_up"] == {"seq": 0}  # no backup was ever finished


def test_phones_that_push_at_the_same_time_lose_and_double_nothing(site, desk, fitter, made):
    """Four phones at once, two of them offering the same entries: the log has each once, without a gap."""
    import threading

    phones = [fitter, *(site.phone(fitter.person) for _ in range(3))]
    shared = [phones[0].entry(made.note(f"shared {count}")) for count in range(10)]
    own = {2: [phones[2].entry(made.note(f"two {count}")) for count in range(10)]}
    own[3] = [phones[3].entry(made.note(f"three {count}")) for count in range(10)]
    answers = []

    def push_all(phone, entries):
        client = site.app.test_client()
        for entry in entries:
            body = {"writer": phone.writer, "app": "test", "saved_seq": 10, "entries": [entry]}
            answer = client.post("/api/v1/entries", json=body, headers=phone.headers)
            answers.append((answer.status_code, answer.json["results"][0]["status"]))

    plans = [(phones[0], shared), (phones[1], shared), (phones[2], own[2]), (phones[3], own[3])]
    threads = [threading.Thread(target=push_all, args=plan) for plan in plans]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(answers) == [(200, "duplicate")] * 10 + [(200, "stored")] * 30
    rows = desk.log()
    assert [row["pos"] for row in rows] == list(range(1, 31))
    assert {row["uid"] for row in rows} == {one["uid"] for entries in (shared, *own.values()) for one in entries}
    for phone in phones:
        assert phone.pull().json["have"]["seq"] == 10
