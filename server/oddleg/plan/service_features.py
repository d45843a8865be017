"""The services of a run that are live, and how they count where cables and pipes are kept clear of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from oddleg.job import ComesFrom, Feature, FeatureKind, MeasuredService, Run, Service, ServiceKind, UpFrom

from .site import Site, body

COUNTS_AS: Mapping[ServiceKind, FeatureKind] = {
    ServiceKind.SOCKET: FeatureKind.ELECTRIC,
    ServiceKind.SWITCH: FeatureKind.ELECTRIC,
    ServiceKind.CABLE: FeatureKind.ELECTRIC,
    ServiceKind.WASTE: FeatureKind.PIPE,
    ServiceKind.COLD: FeatureKind.PIPE,
    ServiceKind.HOT: FeatureKind.PIPE,
    ServiceKind.GAS: FeatureKind.PIPE,
    ServiceKind.DUCT: FeatureKind.OTHER,
}


def live_services(run: Run, here: Site) -> tuple[tuple[Service, Service | None], ...]:
    """Every service of a run as it is found, else as it is wanted; second: the job's own where another was found. Of
    what was found, the job says what it serves."""
    measured = (body(entry, MeasuredService) for entry in here.services)
    found = {of.service.id: of.service for of in measured if of.run == run.id}
    of_job = {one.id: one for one in run.services}
    pairs: list[tuple[Service, Service | None]] = []
    for one in run.services:
        there = found.get(one.id)
        if there is None:
            pairs.append((one, None))
        else:
            pairs.append((_there(there, one), one))
    pairs += [(_there(one), None) for id, one in found.items() if id not in of_job]
    return tuple(pairs)


def _there(there: Service, wanted: Service | None = None) -> Service:
    """A measured service: it is there, and serves what the job's own is for."""
    serves = there.serves or (wanted.serves if wanted is not None else None)
    return replace(there, found=True, serves=serves)


def service_features(run: Run, here: Site, datum_mm: float | None) -> tuple[Feature, ...]:
    """Services in the wall as features of it: a batten is fixed clear of them, and packed over what stands out. Levels
    are left open where the floor would be needed for them."""
    found = []
    for one, _ in live_services(run, here):
        if one.comes_from is not ComesFrom.WALL:
            continue
        zero_mm = 0.0 if one.up_from is UpFrom.BENCH_MARK else None
        if one.up_from is UpFrom.DATUM and datum_mm is not None:
            zero_mm = datum_mm + run.datum_offset_mm
        half_mm = (one.width_mm if one.round else one.height_mm) / 2
        middle_mm = None if zero_mm is None or one.up_mm is None else zero_mm + one.up_mm
        found.append(
            Feature(
                one.id,
                one.name,
                COUNTS_AS[one.kind],
                one.x_mm - one.width_mm / 2,
                one.x_mm + one.width_mm / 2,
                None if middle_mm is None else middle_mm - half_mm,
                None if middle_mm is None else middle_mm + half_mm,
                one.stands_out_mm,
            )
        )
    return tuple(found)
