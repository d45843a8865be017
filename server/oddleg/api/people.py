"""People, their phones, and the codes that pair them."""

from __future__ import annotations

from typing import Any

import segno
from flask import request

from oddleg.store import access
from oddleg.store.tables import Pairing, Person

from . import shapes
from .request_body import Resource
from .services import BASE, caller, services
from .signing_in import office_only, open_to_all

people = Resource(
    "people", __name__, url_prefix=BASE, description="People, their phones, and the codes that pair them."
)


def who(person: Person) -> dict[str, str]:
    return {"id": person.id, "name": person.name, "role": person.role}


def caller_shape() -> dict[str, Any]:
    one = caller()
    return {
        "pairing": one.pairing,
        "device": one.device,
        "person": {"id": one.person, "name": one.name, "role": one.role},
    }


@people.post("/claims")
@people.arguments(shapes.AskClaim)
@people.response(201, shapes.Claimed)
@open_to_all
def make_claim(asked: dict[str, str]) -> dict[str, Any]:
    """Spends a code and pairs the device that calls."""
    with_us = services()
    config = with_us.config
    made = access.claim(
        asked["code"], asked["device"], with_us.now(), with_us.random, config.wrong_codes, config.wrong_codes_minutes
    )
    one = made.caller
    return {
        "token": made.token,
        "pairing": one.pairing,
        "person": {"id": one.person, "name": one.name, "role": one.role},
    }


@people.get("/me")
@people.response(200, shapes.Me)
def me() -> dict[str, Any]:
    """The caller and the device it calls from."""
    return caller_shape()


@people.get("/people")
@people.response(200, shapes.People)
@office_only
def list_people() -> dict[str, Any]:
    return {"people": [who(person) for person in access.people()]}


@people.post("/people")
@people.arguments(shapes.AskPerson)
@people.response(201, shapes.WhoIs)
@office_only
def add_person(asked: dict[str, str]) -> dict[str, str]:
    return who(access.add_person(asked["name"], asked["role"], services().now(), services().random))


@people.post("/people/<person>/codes")
@people.response(201, shapes.NewCode)
@office_only
def add_code(person: str) -> dict[str, str]:
    """A code that pairs one device of this person, once. The QR code holds the link; opening it spends nothing."""
    with_us = services()
    made = access.add_code(person, with_us.now(), with_us.random, with_us.config.code_minutes)
    path = f"/#/join/{made.code}"
    origin = with_us.config.origin or request.host_url.rstrip("/")
    return {
        "code": made.code,
        "expires_at": made.expires_at,
        "url": path,
        "qr_svg": segno.make(origin + path, error="m").svg_inline(scale=4, border=4),
    }


@people.get("/pairings")
@people.response(200, shapes.Pairings)
@office_only
def list_pairings() -> dict[str, Any]:
    return {"pairings": [_pairing(pairing, person) for pairing, person in access.pairings()]}


def _pairing(pairing: Pairing, person: Person) -> dict[str, Any]:
    return {
        "id": pairing.id,
        "device": pairing.device,
        "person": who(person),
        "at": pairing.at,
        "seen_at": pairing.seen_at,
        "revoked_at": pairing.revoked_at,
    }


@people.delete("/pairings/<pairing>")
@people.response(204)
@office_only
def revoke(pairing: str) -> None:
    access.revoke(pairing, services().now())


@people.get("/jobs/<job>/assignments")
@people.response(200, shapes.People)
@office_only
def list_assigned(job: str) -> dict[str, Any]:
    """Who is assigned to the job."""
    return {"people": [who(person) for person in access.assigned(caller(), job)]}


@people.put("/jobs/<job>/assignments/<person>")
@people.response(204)
@office_only
def assign(job: str, person: str) -> None:
    access.assign(caller(), job, person, services().now())


@people.delete("/jobs/<job>/assignments/<person>")
@people.response(204)
@office_only
def unassign(job: str, person: str) -> None:
    access.unassign(caller(), job, person)
