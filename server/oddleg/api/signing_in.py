"""Who calls. Without a token nothing is read or written; what needs none says so with `open_to_all`."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar

from flask import Flask, current_app, g, request

from oddleg.store.access import caller_by_token
from oddleg.store.refusals import NotSignedIn, NotYours

from .services import BASE, caller

View = TypeVar("View", bound=Callable[..., Any])


def open_to_all(view: View) -> View:
    """No token is needed here."""
    view.open_to_all = True  # type: ignore[attr-defined]
    return view


def for_revoked_too(view: View) -> View:
    """A revoked phone may still call this: it hands over its entries."""
    view.for_revoked_too = True  # type: ignore[attr-defined]
    return view


def office_only(view: View) -> View:
    @wraps(view)
    def checked(*given: Any, **named: Any) -> Any:
        if not caller().office:
            raise NotYours("Only the office may do this. Ask them, or sign in as someone of the office.")
        return view(*given, **named)

    return checked  # type: ignore[return-value]


def sign_in() -> None:
    """Before every request to the API: the caller of its token. Raises NotSignedIn, and NotYours for a revoked one."""
    if request.endpoint is None or not (request.path == BASE or request.path.startswith(BASE + "/")):
        return
    view = current_app.view_functions[request.endpoint]
    if getattr(view, "open_to_all", False):
        return
    kind, _, token = request.headers.get("Authorization", "").partition(" ")
    if kind.lower() != "bearer" or not token.strip():
        raise NotSignedIn(
            "Send the token of this phone: Authorization: Bearer TOKEN. A code from the office gives one."
        )
    g.caller = caller_by_token(token.strip())
    if g.caller.revoked and not getattr(view, "for_revoked_too", False):
        raise NotYours(
            "The office has revoked this phone, so it may read nothing. Its entries may still be handed over."
        )


def sign_in_first(app: Flask) -> None:
    app.before_request(sign_in)
