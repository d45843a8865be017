"""What is wrong between what a room's carcasses are fitted out with, its services, and what these name."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import Appliance, ApplianceBay, Carcass, OpenUnit, Room, Run

from .setting_out_checks import allowed, stranger


def fitting_out_ids(item: Carcass | OpenUnit) -> Iterator[tuple[str, str]]:
    """Path from the item on, and value, of every id in what it is fitted out with."""
    if item.fitting_out is None:
        return
    for place, one in enumerate(item.fitting_out.compartments):
        path = f"fitting_out.compartments.{place}"
        yield f"{path}.id", one.id
        members = one.stack.members if one.stack is not None else ()
        yield from ((f"{path}.stack.members.{k}.id", member.id) for k, member in enumerate(members))
        for kind in ("inner_drawers", "pull_outs", "shelves"):
            yield from ((f"{path}.{kind}.{k}.id", each.id) for k, each in enumerate(getattr(one, kind)))


def service_ids(run: Run) -> Iterator[tuple[str, str]]:
    for kind in ("services", "passages"):
        yield from ((f"{kind}.{place}.id", one.id) for place, one in enumerate(getattr(run, kind)))


def appliances_in(room: Room) -> Iterator[tuple[str, Appliance]]:
    """Path from the room on, and every appliance."""
    for run_place, run in enumerate(room.runs):
        for item_place, item in enumerate(run.items):
            path = f"runs.{run_place}.items.{item_place}"
            if isinstance(item, ApplianceBay):
                yield f"{path}.appliance", item.appliance
            elif isinstance(item, Carcass):
                yield from ((f"{path}.appliances.{k}", one) for k, one in enumerate(item.appliances))


def fitting_out_clashes(room: Room) -> Iterator[tuple[str, str]]:
    """Path from the room on, and what is wrong there."""
    appliances = list(appliances_in(room))
    served = {item.id for run in room.runs for item in run.items} | {one.id for _, one in appliances}
    for place, run in enumerate(room.runs):
        path = f"runs.{place}"
        items = {item.id for item in run.items}
        for k, passage in enumerate(run.passages):
            yield from stranger(f"{path}.passages.{k}.from_item", passage.from_item, items, "item")
            yield from stranger(f"{path}.passages.{k}.to_item", passage.to_item, items, "item")
        for k, service in enumerate(run.services):
            if service.serves is not None and service.serves not in served:
                yield (
                    f"{path}.services.{k}.serves",
                    f"There is no item or appliance {service.serves} in this room; {allowed(served)}.",
                )
    services = {service.id for run in room.runs for service in run.services}
    for path, appliance in appliances:
        for k, vent in enumerate(appliance.vents):
            if vent.service is not None and vent.service not in services:
                yield (
                    f"{path}.vents.{k}.service",
                    f"There is no service {vent.service} in this room; {allowed(services)}.",
                )
