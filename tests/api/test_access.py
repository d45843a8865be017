"""Who may do what: without a token nothing, a code works once, and a revoked phone reads nothing."""

import pytest

from oddleg.store import access
from oddleg.store.access import CODE_LENGTH, LETTERS
from oddleg.store.database import database
from oddleg.store.erasure import erase_person
from oddleg.store.tables import Quarantine

OPEN = {("GET", "/api/v1"), ("POST", "/api/v1/claims")}


def api_routes(site):
    for rule in site.app.url_map.iter_rules():
        if rule.rule.startswith("/api"):
            path = rule.rule
            for name in rule.arguments:
                path = path.replace(f"<{name}>", "x")
            yield from ((method, path) for method in sorted(rule.methods - {"OPTIONS", "HEAD"}))


def test_without_a_token_nothing_is_read_or_written(site, desk):
    routes = list(api_routes(site))
    assert len(routes) > 20
    for method, path in routes:
        if (method, path) in OPEN:
            continue
        for headers in ({}, {"Authorization": "Bearer nobody"}, {"Authorization": "Basic eDp5"}):
            answer = site.http.open(path, method=method, json={}, headers=headers)
            assert answer.status_code == 401, (method, path)
            assert answer.headers["WWW-Authenticate"].startswith("Bearer")


def test_a_fitter_reaches_nothing_of_the_office(site, fitter):
    for method, path in (
        ("GET", "/people"),
        ("POST", "/people"),
        ("POST", f"/people/{fitter.person}/codes"),
        ("GET", "/pairings"),
        ("DELETE", f"/pairings/{fitter.pairing}"),
        ("GET", "/jobs/hall/assignments"),
        ("PUT", f"/jobs/barn/assignments/{fitter.person}"),
        ("DELETE", f"/jobs/hall/assignments/{fitter.person}"),
        ("POST", "/jobs"),
        ("PUT", "/jobs/hall"),
        ("GET", "/quarantine"),
        ("POST", "/quarantine/x/release"),
        ("POST", "/quarantine/x/dismissal"),
    ):
        body = {"name": "Eve", "role": "office"} if path == "/people" and method == "POST" else {}
        answer = fitter.ask(method, path, json=body)
        assert answer.status_code == 403, (method, path)


def test_a_code_pairs_one_device_and_is_spent(site):
    code = site.code(site.office())
    claimed = site.http.post("/api/v1/claims", json={"code": code, "device": "desk"})
    assert claimed.status_code == 201
    assert claimed.json["marker"] == "oddleg/1"
    assert claimed.json["person"]["role"] == "office"
    me = site.http.get("/api/v1/me", headers={"Authorization": f"Bearer {claimed.json['token']}"}).json
    assert (me["pairing"], me["device"], me["person"]) == (claimed.json["pairing"], "desk", claimed.json["person"])
    again = site.http.post("/api/v1/claims", json={"code": code, "device": "thief"})
    assert (again.status_code, again.mimetype) == (404, "application/problem+json")


def test_a_code_may_be_typed_in_small_letters_with_a_hyphen(site):
    code = site.code(site.office())
    typed = f" {code[:4].lower()}-{code[4:].lower()} "
    assert site.http.post("/api/v1/claims", json={"code": typed, "device": "desk"}).status_code == 201


def test_opening_the_link_spends_nothing(site):
    code = site.code(site.office())
    for _ in range(3):
        site.http.get("/").close()
        assert site.http.get("/api/v1/claims").status_code == 405
    assert site.http.post("/api/v1/claims", json={"code": code, "device": "desk"}).status_code == 201


def test_a_code_has_its_time(site):
    person = site.office()
    late, early = site.code(person), None
    site.clock.goes_on(minutes=60)
    assert site.http.post("/api/v1/claims", json={"code": late, "device": "a"}).status_code == 404
    early = site.code(person)
    site.clock.goes_on(minutes=59)
    assert site.http.post("/api/v1/claims", json={"code": early, "device": "a"}).status_code == 201


def test_a_new_code_takes_the_place_of_the_last(site):
    person = site.office()
    first, second = site.code(person), site.code(person)
    assert site.http.post("/api/v1/claims", json={"code": first, "device": "a"}).status_code == 404
    assert site.http.post("/api/v1/claims", json={"code": second, "device": "a"}).status_code == 201


def test_codes_cannot_be_guessed_for_long(tmp_path, made):
    site = made.Site(tmp_path / "data", wrong_codes=3, wrong_codes_minutes=10)
    code = site.code(site.office())
    for _ in range(3):
        assert site.http.post("/api/v1/claims", json={"code": "AAAAAAAA", "device": "x"}).status_code == 404
    refused = site.http.post("/api/v1/claims", json={"code": code, "device": "x"})
    assert (refused.status_code, refused.headers["Retry-After"]) == (429, "600")
    site.start()
    assert site.http.post("/api/v1/claims", json={"code": code, "device": "x"}).status_code == 429
    site.clock.goes_on(minutes=11)
    assert site.http.post("/api/v1/claims", json={"code": code, "device": "x"}).status_code == 201


def test_the_office_makes_a_code_with_its_link_and_picture(desk, fitter):
    made = desk.ask("POST", f"/people/{fitter.person}/codes").json
    assert len(made["code"]) == CODE_LENGTH
    assert set(made["code"]) <= set(LETTERS)
    assert not set(LETTERS) & set("01ILO")
    assert made["url"] == f"/#/join/{made['code']}"
    assert made["qr_svg"].startswith("<svg")
    assert made["expires_at"] == "2026-03-03T08:00:00.000Z"


def test_neither_token_nor_code_is_kept_as_it_is(site, desk, fitter):
    code = desk.ask("POST", f"/people/{fitter.person}/codes").json["code"]
    kept = b"".join(path.read_bytes() for path in site.folder.iterdir())
    assert b"Col Fitter" in kept
    for secret in (code, desk.claimed["token"], fitter.claimed["token"]):
        assert secret.encode() not in kept


def test_a_fitter_sees_the_jobs_assigned_and_no_other(desk, fitter, made):
    assert desk.ask("POST", "/jobs", json=made.hall(id="barn")).status_code == 201
    assert [job["id"] for job in desk.ask("GET", "/jobs").json["jobs"]] == ["barn", "hall"]
    assert [job["id"] for job in fitter.ask("GET", "/jobs").json["jobs"]] == ["hall"]
    for path in ("", "/entries", "/pack", f"/pack/{'0' * 64}", "/sheets/legs-kitchen.pdf"):
        there, nowhere = fitter.ask("GET", f"/jobs/barn{path}"), fitter.ask("GET", f"/jobs/nix{path}")
        assert (there.status_code, nowhere.status_code) == (403, 403), path
        assert there.json["detail"].replace("barn", "nix") == nowhere.json["detail"]
    stations = {"room": "kitchen", "stations": ["x"]}
    answer = fitter.ask("POST", "/jobs/barn/stations", json=stations, headers={"If-Match": '"1"'})
    assert answer.status_code == 403


def test_a_fitter_taken_off_a_job_is_told_so_on_pull(desk, fitter, made):
    assert fitter.pull().status_code == 200
    assert [one["id"] for one in desk.ask("GET", "/jobs/hall/assignments").json["people"]] == [fitter.person]
    assert desk.ask("DELETE", f"/jobs/hall/assignments/{fitter.person}").status_code == 204
    assert (fitter.pull().status_code, fitter.pull().mimetype) == (403, "application/problem+json")


def test_the_office_lists_people_and_phones(desk, fitter):
    people = desk.ask("GET", "/people").json["people"]
    assert [(one["name"], one["role"]) for one in people] == [("Maud Office", "office"), ("Col Fitter", "fitter")]
    phones = desk.ask("GET", "/pairings").json["pairings"]
    assert {one["device"] for one in phones} == {"desk", "phone"}
    assert desk.ask("DELETE", f"/pairings/{fitter.pairing}").status_code == 204
    revoked = {one["device"]: one["revoked_at"] for one in desk.ask("GET", "/pairings").json["pairings"]}
    assert revoked == {"desk": None, "phone": "2026-03-02T08:00:00.000Z"}


@pytest.mark.parametrize("path", ["/people/nix/codes", "/pairings/nix", "/jobs/hall/assignments/nix", "/jobs/nix/assignments/nix"])
def test_what_is_not_here_is_404(desk, path):
    method = {"/people/nix/codes": "POST", "/pairings/nix": "DELETE"}.get(path, "PUT")
    assert desk.ask(method, path).status_code == 404


@pytest.mark.parametrize("body", [{"name": " ", "role": "office"}, {"name": "A\0", "role": "office"}, {"name": "A\ud800", "role": "office"}, {"name": "x" * 201, "role": "fitter"}, {"name": "Ann", "role": "king"}, {"name": "Ann"}, {"name": 3, "role": "office"}, []])
def test_a_bad_person_is_a_field_error(desk, body):
    answer = desk.ask("POST", "/people", json=body)
    assert answer.status_code in (400, 422)
    assert answer.json["errors"]


def test_erasing_a_person_empties_the_entries_and_keeps_the_chain(site, desk, fitter, made):
    fitter.push(fitter.entry(made.set_up()), fitter.entry(made.reading()))
    desk.push(desk.entry(made.note("the office's own")))
    before = desk.log()
    with site.app.app_context():
        assert erase_person(access.console(), fitter.person, site.clock()) == 2
    after = desk.log()
    for old, new in zip(before, after, strict=True):
        assert (new["pos"], new["uid"], new["sha"], new["chain"]) == (old["pos"], old["uid"], old["sha"], old["chain"])
    assert [(row["payload"], row["erased"]) for row in after[:2]] == [(None, True)] * 2
    assert after[2] == before[2]
    assert fitter.ask("GET", "/me").status_code == 403
    assert desk.ask("GET", "/jobs/hall/pack").status_code == 200


def test_erasing_a_person_empties_what_was_put_aside_too(site, desk, fitter, made):
    assert fitter.statuses(fitter.entry(made.note("a private word", job="nowhere"))) == ["quarantined"]
    (case,) = desk.ask("GET", "/quarantine").json["cases"]
    assert "a private word" in case["payload"]
    with site.app.app_context():
        assert erase_person(access.console(), fitter.person, site.clock()) == 0
        kept = database.session.get(Quarantine, case["id"])
        assert (kept.payload, kept.state) == (b"", "dismissed")
    assert desk.ask("GET", "/quarantine").json["cases"] == []
