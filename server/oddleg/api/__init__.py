"""The wire: one blueprint a resource, all under /api/v1."""

from __future__ import annotations

from importlib.metadata import version
from typing import Any

from flask import Flask, Response, jsonify

from oddleg.documents.job_schema import job_schema

from . import shapes
from .charts import charts
from .entries import entries
from .errors import ProblemApi, handle_errors
from .hardware import hardware
from .headers import finish_answers
from .jobs import jobs
from .pack import pack
from .people import people
from .request_body import Resource
from .services import BASE, MARKER, Services, services
from .sheets import sheets
from .signing_in import open_to_all, sign_in_first

about = Resource("about", __name__, url_prefix=BASE, description="What this server is.")


@about.get("", strict_slashes=False)
@about.response(200, shapes.About)
@open_to_all
def what_this_is() -> dict[str, str]:
    """Tells that this is an Oddleg server, and which."""
    config = services().config
    return {"version": version("oddleg"), "name": config.name, "folder": config.folder}


def serve_api(app: Flask, given: Services) -> None:
    app.extensions["oddleg"] = given
    app.config.update(
        API_TITLE="Oddleg",
        API_VERSION="v1",
        OPENAPI_VERSION="3.1.0",
        MAX_CONTENT_LENGTH=given.config.greatest_body_bytes,
    )
    api = ProblemApi(app)
    handle_errors(app)
    sign_in_first(app)
    finish_answers(app)
    _describe(api)
    for resource in (about, people, jobs, hardware, charts, entries, pack, sheets):
        api.register_blueprint(resource)

    @app.get(f"{BASE}/openapi.json")
    def openapi() -> Response:
        answer: Response = jsonify(api.spec.to_dict())
        return answer


def _describe(api: ProblemApi) -> None:
    """The token, and the job file's own schema, whose inner references point into this document."""
    api.spec.components.security_scheme("token", {"type": "http", "scheme": "bearer"})
    api.spec.options["security"] = [{"token": []}]
    whole = job_schema()
    inner = whole.pop("$defs")
    whole.pop("$schema")
    for name, schema in {**{f"Job{name}": one for name, one in inner.items()}, "Job": whole}.items():
        api.spec.components.schema(name, _moved(schema))


def _moved(schema: Any) -> Any:
    if isinstance(schema, dict):
        return {
            key: value.replace("#/$defs/", "#/components/schemas/Job") if key == "$ref" else _moved(value)
            for key, value in schema.items()
        }
    return [_moved(one) for one in schema] if isinstance(schema, list) else schema


__all__ = ["BASE", "MARKER", "Services", "serve_api"]
