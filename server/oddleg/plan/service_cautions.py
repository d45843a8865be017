"""Cautions on electricity, gas and water. They name the hazard and leave it to local code and the licensed trade."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Room, Service, ServiceKind

from .finding import Finding, Severity
from .sightings import named

ELECTRIC = (ServiceKind.SOCKET, ServiceKind.SWITCH, ServiceKind.CABLE)
WATER = (ServiceKind.WASTE, ServiceKind.COLD, ServiceKind.HOT)
ELECTRIC_WORDS = (
    "Electricity: whatever nobody has tested counts as live. A licensed electrician makes it dead, tests it, and moves "
    "and connects it, as the local code says."
)
GAS_WORDS = (
    "Gas: only the licensed gas trade moves, caps, connects or tests it, as the local code says; it may also say what "
    "air and what way to the valve must stay. Cut nothing near it before they have been."
)
WATER_WORDS = (
    "Water: have it shut off and drained before you cut or drill near it. Pipes, wastes and valves are moved and "
    "connected by the trade that the local code names."
)
HIDDEN_WORDS = "Only what was entered is known here. What is not marked is not clear: look for cables and pipes first."


def caution_texts(services: Sequence[Service]) -> tuple[str, ...]:
    """The cautions for the kinds of services that there are."""
    kinds = {one.kind for one in services}
    found = []
    if kinds & set(ELECTRIC):
        found.append(ELECTRIC_WORDS)
    if ServiceKind.GAS in kinds:
        found.append(GAS_WORDS)
    if kinds & set(WATER):
        found.append(WATER_WORDS)
    return (*found, HIDDEN_WORDS) if kinds else ()


def caution_findings(room: Room, services: Sequence[Service]) -> Iterator[Finding]:
    """Of what is there: electric points that are live or not tested, and gas."""
    there = [one for one in services if one.found]
    for rule, live, wrong in (
        ("service.live", True, "was found live"),
        ("service.not_tested", None, "was not tested: take it as live"),
    ):
        of = [one for one in there if one.kind in ELECTRIC and one.live is live]
        if of:
            yield Finding(
                rule,
                Severity.WARN,
                room.name,
                f"{named([one.name for one in of])} {wrong if len(of) == 1 else wrong.replace('was', 'were', 1)}.",
                "Have a licensed electrician make it dead and test it before anything is cut, drilled or fixed there.",
                "what nobody has tested counts as live; the local code rules",
                concerns=(room.id, *(one.id for one in of)),
                caution=True,
            )
    gas = [one for one in there if one.kind is ServiceKind.GAS]
    if gas:
        yield Finding(
            "service.gas",
            Severity.WARN,
            room.name,
            f"Gas is there: {named([one.name for one in gas])}.",
            "Ask the licensed gas trade before anything is cut, fixed or closed in near it, and what must stay within "
            "reach.",
            "gas belongs to its licensed trade; the local code rules",
            concerns=(room.id, *(one.id for one in gas)),
            caution=True,
        )
