"""Every error leaves as `application/problem+json` (RFC 9457), made here and nowhere else; no stack trace ever does."""

from __future__ import annotations

from typing import Any

from flask import Flask, Response, current_app, json
from flask_smorest import Api
from marshmallow import Schema, fields
from sqlalchemy.exc import OperationalError
from werkzeug.exceptions import HTTPException

from oddleg.documents.strict_json import DocumentError
from oddleg.store import refusals

from .services import services

STATUS: dict[type[refusals.Refusal], int] = {
    refusals.NotSignedIn: 401,
    refusals.NotYours: 403,
    refusals.NotHere: 404,
    refusals.AlreadyHere: 409,
    refusals.NotLetIn: 409,
    refusals.Stale: 412,
    refusals.BadDocument: 422,
    refusals.TooMany: 429,
}

WHAT_TO_DO = {
    404: "There is nothing at this address. The addresses are listed in /api/v1/openapi.json.",
    405: "This address does not take that method; the header Allow lists those it takes.",
    413: "The request is too large. Send it in smaller pieces.",
    428: 'Send the revision that you started from in the header If-Match, for example If-Match: "3".',
}


class Problem(Schema):
    """RFC 9457. `errors`: texts by path, for bad input."""

    type = fields.String()
    title = fields.String(required=True)
    status = fields.Integer(required=True)
    detail = fields.String(required=True)
    errors = fields.Dict(keys=fields.String(), values=fields.List(fields.String()))


class ProblemApi(Api):
    ERROR_SCHEMA = Problem

    def handle_http_exception(self, error: HTTPException) -> Response:
        return http_problem(error)


def problem(status: int, title: str, detail: str, errors: dict[str, list[str]] | None = None) -> Response:
    body: dict[str, Any] = {"type": "about:blank", "title": title, "status": status, "detail": detail}
    if errors:
        body["errors"] = errors
    return Response(json.dumps(body), status, mimetype="application/problem+json")


def http_problem(error: HTTPException) -> Response:
    """Of an error that Flask or Werkzeug raised. Its own headers stay (Allow, Retry-After, WWW-Authenticate)."""
    status = error.code or 500
    if error.response is not None and status < 400:
        return Response.force_type(error.get_response())
    if status >= 500:
        return _broken(getattr(error, "original_exception", None) or error)
    answer = problem(status, error.name, WHAT_TO_DO.get(status, error.description or error.name))
    for name, value in error.get_headers():
        if name.lower() not in ("content-type", "content-length"):
            answer.headers[name] = value
    return answer


def _broken(error: BaseException) -> Response:
    """A fault of ours: logged under a number that the answer tells, so that both can be brought together."""
    number = services().random(4).hex()
    current_app.logger.error("fault %s", number, exc_info=error)
    return problem(
        500, "A fault in the program", f"Nothing was changed. Try again; if it stays, tell the office: fault {number}."
    )


def _refused(error: refusals.Refusal) -> Response:
    errors = error.errors if isinstance(error, refusals.BadDocument) else None
    answer = problem(STATUS[type(error)], error.title, error.detail, errors)
    if isinstance(error, refusals.NotSignedIn):
        answer.headers["WWW-Authenticate"] = 'Bearer realm="oddleg"'
    if isinstance(error, refusals.TooMany) and error.after_seconds:
        answer.headers["Retry-After"] = str(error.after_seconds)
    return answer


def _unreadable(error: DocumentError) -> Response:
    return problem(400, "The request cannot be read", "Put right what is listed and send it again.", error.errors)


def _busy(error: OperationalError) -> Response:
    current_app.logger.error("the database did not answer: %s", error.orig)
    answer = problem(503, "The database did not answer", "Nothing was changed. Try again in a few seconds.")
    answer.headers["Retry-After"] = "5"
    return answer


def handle_errors(app: Flask) -> None:
    app.register_error_handler(HTTPException, http_problem)
    app.register_error_handler(Exception, _broken)
    app.register_error_handler(refusals.Refusal, _refused)
    app.register_error_handler(DocumentError, _unreadable)
    app.register_error_handler(OperationalError, _busy)
