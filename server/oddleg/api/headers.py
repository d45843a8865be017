"""What every answer carries, and gzip for those that ask for it."""

from __future__ import annotations

import gzip

from flask import Flask, Response, request

from .services import BASE

ALWAYS = {
    "Content-Security-Policy": "default-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; "
    "form-action 'self'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
}
WORTH_ZIPPING_BYTES = 1000
ZIPPED_WELL = ("text/", "application/json", "application/javascript", "application/manifest+json", "image/svg+xml")


def finish(answer: Response) -> Response:
    for name, value in ALWAYS.items():
        answer.headers.setdefault(name, value)
    if request.path.startswith(BASE):
        answer.headers.setdefault("Cache-Control", "no-store")
    if answer.mimetype.startswith(ZIPPED_WELL):
        answer.vary.add("Accept-Encoding")
        if answer.status_code == 200 and request.method == "GET" and request.accept_encodings["gzip"] > 0:
            zip_body(answer)
    return answer


def zip_body(answer: Response) -> None:
    if answer.headers.get("Content-Encoding") or answer.headers.get("Content-Range"):
        return
    answer.direct_passthrough = False
    plain = answer.get_data()
    if len(plain) >= WORTH_ZIPPING_BYTES:
        answer.set_data(gzip.compress(plain, 6, mtime=0))
        answer.headers["Content-Encoding"] = "gzip"


def finish_answers(app: Flask) -> None:
    app.after_request(finish)
