"""Records of services, passages through sides, what appliances ask of the air, and how backs are cut out."""

from __future__ import annotations

from oddleg.job import ComesFrom, CutOutRule, Passage, Service, ServiceKind, UpFrom, Vent, VentBy

from .fields import Choice, Number, Record, Slug, Text, YesNo
from .sizes import along, level, play, size

GREATEST_SERVICES = 200


class ServiceRecord(Record):
    makes = Service
    id = Slug()
    name = Text(greatest=80)
    kind = Choice(ServiceKind)
    x_mm = along()
    up_mm = level(allow_none=True)
    width_mm = size()
    height_mm = size()
    up_from = Choice(UpFrom)
    comes_from = Choice(ComesFrom)
    y_mm = play(allow_none=True)
    round = YesNo()
    stands_out_mm = play()
    live = YesNo(allow_none=True)
    serves = Slug(allow_none=True)
    reach = YesNo()
    found = YesNo()

    def clashes(self, made: Service) -> dict[str, str]:
        return service_clashes(made)


def service_clashes(made: Service) -> dict[str, str]:
    """What is wrong between the fields of one service, by field."""
    found = {}
    if made.comes_from is ComesFrom.WALL and made.y_mm is not None:
        found["y_mm"] = "What comes out of the wall has no place of its own out of it; give null here."
    if made.comes_from is ComesFrom.FLOOR and made.up_mm is not None:
        found["up_mm"] = "What comes out of the floor has no height of its own; give null here."
    if made.round and made.height_mm != made.width_mm:
        found["height_mm"] = f"It is round, so both sizes are its diameter, {made.width_mm:g}."
    return found


class PassageRecord(Record):
    makes = Passage
    id = Slug()
    name = Text(greatest=80)
    kind = Choice(ServiceKind)
    from_item = Slug()
    to_item = Slug()
    diameter_mm = size()
    from_back_mm = play()
    below_top_mm = play()

    def clashes(self, made: Passage) -> dict[str, str]:
        if made.from_item == made.to_item:
            return {"to_item": "It leads from an item to itself; name the other one."}
        return {}


class VentRecord(Record):
    makes = Vent
    by = Choice(VentBy)
    area_cm2 = Number(0.1, 10_000, "cm2", allow_none=True)
    depth_mm = play(allow_none=True)
    bore_mm = size(allow_none=True)
    service = Slug(allow_none=True)
    source = Text(0)

    def clashes(self, made: Vent) -> dict[str, str]:
        own = {VentBy.GRILLE: "area_cm2", VentBy.CHIMNEY: "depth_mm", VentBy.DUCT: "bore_mm"}[made.by]
        found = {
            name: f"A {made.by.value} is asked for by {own}; give null here."
            for name in ("area_cm2", "depth_mm", "bore_mm")
            if name != own and getattr(made, name) is not None
        }
        if made.by is not VentBy.DUCT and made.service is not None:
            found["service"] = "Only a duct has a service point; give null here."
        return found


class CutOutRuleRecord(Record):
    makes = CutOutRule
    clearance_mm = Number(0, 200)
    corner_radius_mm = Number(0, 200)
    apart_mm = Number(0, 500)
    least_edge_mm = Number(0, 500)
