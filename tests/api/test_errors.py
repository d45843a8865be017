"""Errors: one shape for all, a status that fits, and never a stack trace."""

import gzip
import importlib
import json
import logging

import pytest

from oddleg.api.shell import OutsideApi


def assert_problem(answer, status):
    assert answer.status_code == status, answer.text
    assert answer.mimetype == "application/problem+json"
    body = json.loads(answer.text)
    assert body["status"] == status
    assert body["title"]
    assert body["detail"]
    assert "Traceback" not in answer.text
    return body


@pytest.mark.parametrize("path", ["/api", "/api/", "/api/v1/nix", "/api/v2", "/api/v1/jobs/hall/nix"])
def test_an_unknown_api_path_is_a_problem_and_no_page(site, path):
    assert_problem(site.http.get(path), 404)
    assert_problem(site.http.post(path), 404)


@pytest.mark.parametrize(
    ("method", "path", "allowed"),
    [("GET", "/api/v1/claims", {"POST"}), ("DELETE", "/api/v1/jobs", {"GET", "POST"}), ("POST", "/api/v1/jobs/hall/pack", {"GET"})],
)
def test_a_wrong_method_is_405_and_names_the_right_ones(desk, method, path, allowed):
    answer = desk.site.http.open(path, method=method)
    assert_problem(answer, 405)
    assert set(answer.headers["Allow"].split(", ")) - {"HEAD", "OPTIONS"} == allowed


def test_what_is_outside_the_api_is_never_taken_for_it(site):
    assert OutsideApi(site.app.url_map).regex.startswith("(?!api")


@pytest.mark.parametrize("data", [b"", b"{", b"\xff", b"{} {}", b'{"code": Infinity}', b"[" * 100_000])
def test_a_body_that_is_not_json_is_400(site, data):
    assert_problem(site.http.post("/api/v1/claims", data=data, content_type="application/json"), 400)


@pytest.mark.parametrize("data", [b"", b"{", b"\xff", b"{} {}", b'{"entries": NaN}', b"[" * 100_000, b'{"saved_seq": ' + b"9" * 5000 + b"}"])
def test_a_push_that_is_not_json_is_400(fitter, data):
    assert_problem(fitter.ask("POST", "/entries", data=data), 400)


@pytest.mark.parametrize("body", [{}, [], "x", {"writer": "w", "app": "a", "saved_seq": 0, "entries": {}}, {"writer": "a b", "app": "a", "saved_seq": 0, "entries": []}, {"writer": "w", "app": "a", "saved_seq": -1, "entries": []}, {"writer": "w", "app": "\ud800", "saved_seq": 0, "entries": []}])
def test_a_push_of_another_shape_is_422_by_path(fitter, body):
    assert assert_problem(fitter.ask("POST", "/entries", json=body), 422)["errors"]


def test_the_writer_in_body_and_header_must_agree(fitter):
    body = {"writer": "other", "app": "test", "saved_seq": 0, "entries": []}
    assert list(assert_problem(fitter.ask("POST", "/entries", json=body), 422)["errors"]) == ["writer"]


def test_a_zipped_push_is_read(fitter, made):
    entry = fitter.entry(made.set_up())
    body = json.dumps({"writer": fitter.writer, "app": "test", "saved_seq": 1, "entries": [entry]}).encode()
    answer = fitter.ask("POST", "/entries", data=gzip.compress(body), headers={"Content-Encoding": "gzip"})
    assert answer.json["results"][0]["status"] == "stored"


@pytest.mark.parametrize("damage", [lambda data: data[:-9], lambda data: b"x" + data, lambda data: data + b"x", lambda data: b"{}"])
def test_a_broken_gzip_is_400(fitter, damage):
    answer = fitter.ask("POST", "/entries", data=damage(gzip.compress(b"{}")), headers={"Content-Encoding": "gzip"})
    assert_problem(answer, 400)


def test_an_unknown_coding_is_415(fitter):
    assert_problem(fitter.ask("POST", "/entries", data=b"{}", headers={"Content-Encoding": "br"}), 415)


def test_too_large_is_413_before_and_after_unzipping(tmp_path, made):
    site = made.Site(tmp_path / "data", greatest_body_bytes=2000)
    phone = site.phone(site.office())
    assert_problem(phone.ask("POST", "/entries", data=b" " * 2001), 413)
    bomb = gzip.compress(b" " * 1_000_000)
    assert len(bomb) < 2000
    assert_problem(phone.ask("POST", "/entries", data=bomb, headers={"Content-Encoding": "gzip"}), 413)


def test_a_fault_of_ours_is_logged_under_the_number_that_the_answer_tells(site, desk, monkeypatch, caplog):
    def broken(*_):
        raise RuntimeError("inner secret")

    monkeypatch.setattr(importlib.import_module("oddleg.api.pack"), "plan", broken)
    with caplog.at_level(logging.ERROR):
        answer = desk.ask("GET", "/jobs/hall/pack")
    body = assert_problem(answer, 500)
    assert "inner secret" not in answer.text
    number = body["detail"].split()[-1].rstrip(".")
    (record,) = [one for one in caplog.records if number in one.getMessage()]
    assert "inner secret" in str(record.exc_info[1])


def test_a_database_that_is_busy_is_503_and_says_when_to_come_back(site, desk, fitter, made, monkeypatch):
    import sqlite3

    monkeypatch.setattr("oddleg.store.database.BUSY_TIMEOUT_MS", 1)
    site.start()
    other = sqlite3.connect(site.folder / "oddleg.sqlite3", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    answer = fitter.push(fitter.entry(made.set_up()))
    assert_problem(answer, 503)
    assert answer.headers["Retry-After"] == "5"
    other.execute("ROLLBACK")
    other.close()
    assert fitter.push().status_code == 200


def test_answers_carry_security_headers(site, desk):
    for answer in (site.http.get("/api/v1"), site.http.get("/api/v1/me"), desk.ask("GET", "/jobs")):
        assert answer.headers["Content-Security-Policy"].startswith("default-src 'self'")
        assert "unsafe" not in answer.headers["Content-Security-Policy"]
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Referrer-Policy"] == "no-referrer"
        assert answer.headers["Cache-Control"] == "no-store"


def test_the_server_tells_what_it_is_without_a_token(site):
    answer = site.http.get("/api/v1").json
    assert answer["marker"] == "oddleg/1"
    assert set(answer) == {"marker", "version", "name", "folder"}
    assert str(site.folder) not in str(answer)
    assert answer["folder"] == site.app.extensions["oddleg"].config.folder


def test_the_openapi_document_is_valid_and_names_every_route(site, desk):
    from openapi_spec_validator import validate

    document = desk.ask("GET", "/openapi.json").json
    validate(document)
    routes = {
        rule.rule.replace("<", "{").replace(">", "}")
        for rule in site.app.url_map.iter_rules()
        if rule.rule.startswith("/api/v1") and not rule.rule.endswith("openapi.json")
    }
    assert set(document["paths"]) == routes


def test_the_openapi_documents_job_is_what_the_server_takes(desk, made):
    """jsonschema, a general-purpose library, as the oracle: what is exported fits the published schema."""
    from jsonschema import Draft202012Validator

    document = desk.ask("GET", "/openapi.json").json
    checker = Draft202012Validator({"$ref": "#/components/schemas/Job", "components": document["components"]})
    exported = json.loads(desk.ask("GET", "/jobs/hall").text)
    checker.validate(exported)
    assert list(checker.iter_errors({**exported, "colour": "red"}))
