"""The phone app: its built files, and its page for every address outside the API, since it finds its own way there."""

from __future__ import annotations

from pathlib import Path

from flask import Flask, Response, send_from_directory
from werkzeug.exceptions import NotFound
from werkzeug.routing import PathConverter

NONE_BUILT = (
    "Oddleg is serving, but the phone app has not been built here: run `npm ci && npm run build` in pwa/, "
    "or install the wheel, which carries it.\n"
)


class OutsideApi(PathConverter):
    """Any path but those of the API, so that a wrong method or address there is never taken for a page."""

    regex = r"(?!api(?:/|$)).*?"


def serve_shell(app: Flask, built: Path | None) -> None:
    app.url_map.converters["outside_api"] = OutsideApi

    @app.get("/")
    @app.get("/<outside_api:path>")
    def shell(path: str = "index.html") -> Response:
        if built is None:
            return Response(NONE_BUILT, 503, mimetype="text/plain")
        try:
            answer = send_from_directory(built, path)
        except NotFound:
            if "." in path.rsplit("/", 1)[-1]:
                raise
            answer = send_from_directory(built, "index.html")
        answer.headers["Cache-Control"] = "no-cache"
        return answer
