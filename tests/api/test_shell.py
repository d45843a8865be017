"""The phone app's files, and its page for every address of its own."""

import pytest


@pytest.fixture
def built(tmp_path):
    folder = tmp_path / "pwa"
    folder.mkdir()
    (folder / "index.html").write_text("<title>shell</title>")
    (folder / "app.js").write_text("export const a = 1;" * 200)
    (folder / "sw.js").write_text("self")
    (tmp_path / "secret.txt").write_text("secret")
    return folder


def got(site, path, **headers):
    with site.http.get(path, headers=headers) as answer:
        return answer.status_code, answer.get_data(), answer.headers


def test_files_are_served_and_asked_about_each_time(tmp_path, built, made):
    site = made.Site(tmp_path / "data", pwa_folder=built)
    for path in ("/", "/app.js", "/sw.js", "/index.html"):
        status, _, headers = got(site, path)
        assert (status, headers["Cache-Control"]) == (200, "no-cache")
        assert got(site, path, **{"If-None-Match": headers["ETag"]})[0] == 304
    assert got(site, "/app.js", **{"Accept-Encoding": "gzip"})[2]["Content-Encoding"] == "gzip"
    assert "javascript" in got(site, "/app.js")[2]["Content-Type"]


def test_a_scanned_deep_link_gets_the_page_and_a_missing_file_does_not(tmp_path, built, made):
    site = made.Site(tmp_path / "data", pwa_folder=built)
    assert got(site, "/jobs/hall/legs")[1] == b"<title>shell</title>"
    assert got(site, "/nix.js")[0] == 404


@pytest.mark.parametrize("path", ["/../secret.txt", "/..%2fsecret.txt", "/%2e%2e/secret.txt", "//etc/passwd"])
def test_nothing_outside_the_folder_is_served(tmp_path, built, made, path):
    site = made.Site(tmp_path / "data", pwa_folder=built)
    status, body, _ = got(site, path)
    assert b"secret" not in body
    assert b"root:" not in body
    assert status in (200, 308, 404)


def test_without_a_built_app_the_page_says_what_to_do(tmp_path, made):
    site = made.Site(tmp_path / "data", pwa_folder=tmp_path / "nothing")
    status, body, _ = got(site, "/")
    assert status == 503
    assert b"npm run build" in body
