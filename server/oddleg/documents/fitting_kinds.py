"""The kinds of entry of services found on site and of holes drilled."""

from __future__ import annotations

from decimal import Decimal

from marshmallow import ValidationError

from oddleg.job import ComesFrom, Drilled, MeasuredService, Service, ServiceKind, UpFrom

from .entry_fields import Data, EntryKind, Typed, of_field
from .fields import Choice, Slug, Strict, Text, YesNo
from .numbers import NumberError, parsed
from .services_record import service_clashes


class ServiceData(Strict):
    run = Slug()
    name = Text(greatest=80)
    what = Choice(ServiceKind)
    comes_from = Choice(ComesFrom)
    x = Typed(-50_000, 50_000)
    width = Typed(1, 20_000)
    height = Typed(1, 20_000)
    up = Typed(-20_000, 20_000, allow_none=True)
    y = Typed(0, 5_000, allow_none=True)
    stands_out = Typed(0, 5_000, allow_none=True)
    up_from = Choice(UpFrom)
    round = YesNo()
    live = YesNo(allow_none=True)
    reach = YesNo()


class DrilledData(Strict):
    panel = Text(greatest=200)
    hole = Text(greatest=200)
    u = Text(greatest=64)
    v = Text(greatest=64)


FIELDS = {"y_mm": "y", "up_mm": "up", "height_mm": "height"}


def service(outer: Data, data: Data, value: Decimal | None) -> MeasuredService:
    measured = Service(
        id=outer["target"],
        name=data["name"],
        kind=data["what"],
        x_mm=data["x"],
        up_mm=data["up"],
        width_mm=data["width"],
        height_mm=data["height"],
        up_from=data["up_from"],
        comes_from=data["comes_from"],
        y_mm=data["y"],
        round=data["round"],
        stands_out_mm=data["stands_out"] or 0.0,
        live=data["live"],
        reach=data["reach"],
        found=True,
    )
    if clashes := service_clashes(measured):
        raise ValidationError({FIELDS[name]: [text] for name, text in clashes.items()})
    return MeasuredService(data["run"], measured)


def drilled(outer: Data, data: Data, value: Decimal | None) -> Drilled:
    u_mm, v_mm = (_shown(name, data[name]) for name in ("u", "v"))
    return Drilled(outer["target"], data["panel"], data["hole"], u_mm, v_mm, outer["shown"]["part_mark"] or "")


def _shown(name: str, text: str) -> float:
    """A distance on a panel, mm, as it was shown."""
    try:
        return of_field(name, parsed(text, "mm"), -50_000, 50_000)
    except NumberError as error:
        raise ValidationError({name: [str(error)]}) from None


FITTING_KINDS = {
    "service": EntryKind(ServiceData(), service),
    "drilled": EntryKind(DrilledData(), drilled),
}
