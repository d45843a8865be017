"""Reading request bodies: bounded, unzipped where they came zipped (Flask does not), and parsed strictly."""

from __future__ import annotations

import json
import zlib
from typing import Any, NoReturn

from flask import Request, request
from flask_smorest import Blueprint
from marshmallow import Schema, ValidationError
from webargs.flaskparser import FlaskParser
from werkzeug.exceptions import RequestEntityTooLarge, UnsupportedMediaType

from oddleg.documents.fields import by_path
from oddleg.documents.strict_json import GREATEST_DEPTH, parse_json, refused
from oddleg.store.refusals import BadDocument

from .services import services


def body() -> bytes:
    """The request's bytes, unzipped. Raises 413 past the bound, before or after unzipping, 415 for another coding."""
    most = services().config.greatest_body_bytes
    data = request.get_data(cache=True)
    coding = request.headers.get("Content-Encoding", "identity").strip().lower()
    if coding == "identity":
        return data
    if coding != "gzip":
        raise UnsupportedMediaType(f"Content-Encoding {coding!r} is not read here; send gzip, or none.")
    unzip = zlib.decompressobj(wbits=31)
    try:
        plain = unzip.decompress(data, most + 1)
    except zlib.error:
        refused("The body says that it is gzip and is not; send it again.")
    if len(plain) > most:
        raise RequestEntityTooLarge
    if not unzip.eof or unzip.unused_data:
        refused("The gzip of this body is cut off or has more after its end; send it again.")
    return plain


def envelope_json(data: bytes) -> Any:
    """The value of a push. Texts within are taken as they are: what cannot be kept is put aside entry by entry, so one
    bad text must not refuse the whole. Raises DocumentError."""
    try:
        return json.loads(data.decode("utf-8"), parse_constant=_no_number)
    except UnicodeDecodeError as error:
        refused(f"Byte {error.start} is not UTF-8; send the body as UTF-8.")
    except json.JSONDecodeError as error:
        refused(f"This is not JSON: line {error.lineno}, column {error.colno}: {error.msg}.")
    except RecursionError:
        refused(f"Nested too deep: {GREATEST_DEPTH} levels at most.")
    except ValueError:
        refused("A number in it has too many digits.")


def _no_number(name: str) -> NoReturn:
    refused(f"{name} is no number in JSON; write a number or null.")


class StrictParser(FlaskParser):
    """Checks bodies and queries against their schemas; errors by path, without the word for where they were read."""

    def load_json(self, req: Request, schema: Schema) -> Any:
        read = envelope_json if getattr(schema, "texts_as_they_are", False) else parse_json
        return read(body())

    def handle_error(
        self, error: ValidationError, req: Request, schema: Schema, *, error_status_code: Any, error_headers: Any
    ) -> NoReturn:
        errors: dict[str, list[str]] = {}
        for messages in error.normalized_messages().values():
            errors |= by_path(messages)
        raise BadDocument(errors)


class Resource(Blueprint):
    """One resource of the wire."""

    ARGUMENTS_PARSER = StrictParser()
