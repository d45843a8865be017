"""Rooms and floors for the tests of datum, legs and plinth gaps: a floor is a formula, so every figure can be checked."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from oddleg.job import (
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    BenchMark,
    Carcass,
    DatumDecision,
    Entry,
    Item,
    Job,
    Legs,
    LegsSet,
    PlinthBoard,
    Point,
    Reading,
    Room,
    Run,
    Wall,
    Way,
    Worktop,
)
from oddleg.plan.datum import Choice, ChoiceName, Datum, datum
from oddleg.plan.finished_floor import Floor
from oddleg.plan.rod import Placed, placed_items
from oddleg.plan.surfaces import Spot, SurfaceLevel

Level = Callable[[float, float], float | None]


@dataclass(frozen=True)
class FormulaSurface:
    """Stands in for a Surface: its level is a formula of X, Y; spots are given at some of its places."""

    level: Level
    spots: tuple[Spot, ...]

    def at(self, x_mm: float, y_mm: float) -> SurfaceLevel | None:
        level_mm = self.level(x_mm, y_mm)
        if level_mm is None or not self.spots:
            return None
        near = min(self.spots, key=lambda spot: (spot.x_mm - x_mm) ** 2 + (spot.y_mm - y_mm) ** 2)
        distance_mm = ((near.x_mm - x_mm) ** 2 + (near.y_mm - y_mm) ** 2) ** 0.5
        return SurfaceLevel(level_mm, 0.8, ((near.id, 1.0),), "read there", distance_mm)


def surface(level: Level, places: Sequence[tuple[float, float]] = ((0, 0), (3000, 0))) -> FormulaSurface:
    spots = []
    for i, (x_mm, y_mm) in enumerate(places, 1):
        level_mm = level(x_mm, y_mm)
        assert level_mm is not None
        spots.append(Spot(f"s{i}", f"back {i}", x_mm, y_mm, level_mm))
    return FormulaSurface(level, tuple(spots))


NOTHING_READ = FormulaSurface(lambda x, y: None, ())


def falling(fall_mm: float, over_mm: float) -> Level:
    """0 at the left, falling evenly to the right by `fall_mm` over `over_mm`."""
    return lambda x, y: -fall_mm * x / over_mm


def floor_of(under_legs: FormulaSurface, finished: FormulaSurface | None = None, **bays: FormulaSurface) -> Floor:
    """The three floors; finished and bays are as under the legs unless given."""
    open_floor = finished or under_legs
    return Floor(under_legs, under_legs, open_floor, _Bays(bays, open_floor), ())  # type: ignore[arg-type]


class _Bays(dict):  # type: ignore[type-arg]
    def __init__(self, bays: dict[str, FormulaSurface], otherwise: FormulaSurface) -> None:
        super().__init__({key.replace("_", "-"): value for key, value in bays.items()})
        self.otherwise = otherwise

    def get(self, key: str, default: object = None) -> object:
        return super().get(key, self.otherwise)


def unit(name: str = "a", width_mm: float = 600, legs: Legs | None = None, **other: object) -> Carcass:
    values: dict[str, object] = {"height_mm": 720.0, "depth_mm": 560.0, "legs": legs or LEGS, **other}
    return Carcass(name, f"Unit {name}", width_mm, **values)  # type: ignore[arg-type]


LEGS = Legs(100, 180, reserve_mm=0)


def machine(least_mm: float, seat: ApplianceSeat = ApplianceSeat.UNDER_TOP, **other: object) -> Appliance:
    return Appliance("machine", "machine", seat, least_mm, **other)  # type: ignore[arg-type]


def bay(appliance: Appliance, name: str = "bay", width_mm: float = 600, **other: object) -> ApplianceBay:
    return ApplianceBay(name, f"Bay {name}", width_mm, 560.0, appliance, **other)  # type: ignore[arg-type]


def run_of(*items: Item, name: str = "run", **other: object) -> Run:
    values: dict[str, object] = {"x_mm": 0.0, "y_mm": 0.0, "bearing_deg": 0.0, "wall": "wall", **other}
    return Run(name, "Sink run", items=items, **values)  # type: ignore[arg-type]


def room_of(*runs: Run, worktop: Worktop | None = None, board: PlinthBoard | None = None, **other: object) -> Room:
    return Room(
        "kitchen",
        "Kitchen",
        "left of the window",
        (Wall("wall", "window wall", (Point(0, 0), Point(5000, 0))),),
        worktop or Worktop(30),
        (BenchMark("mark", "door frame"),),
        plinth=board or PlinthBoard(150, 2, 16, 20),
        runs=runs,
        **other,  # type: ignore[arg-type]
    )


def job_of(room: Room, **other: object) -> Job:
    return Job("job", "A job", "", "", "Europe/London", 720.0, (), (), (room,), **other)  # type: ignore[arg-type]


def all_placed(room: Room) -> tuple[Placed, ...]:
    return tuple(placed for run in room.runs for placed in placed_items(run))


def datum_of(
    room: Room,
    floor: Floor,
    decisions: Sequence[Entry] = (),
    legs_set: Sequence[Entry] = (),
    readings: Sequence[Entry] = (),
    **job: object,
) -> Datum:
    levels = job.pop("station_levels", {})
    return datum(
        job_of(room, **job),
        room,
        all_placed(room),
        floor,
        levels,  # type: ignore[arg-type]
        decisions,
        legs_set,
        readings,
    )


def choice(of: Datum, name: ChoiceName) -> Choice:
    return next(one for one in of.choices if one.name is name)


def decision(datum_mm: float, uid: str = "d1", position: int = 10) -> Entry:
    return Entry(
        uid, position, "Nell", "2026-03-02T09:00:00Z", DatumDecision("kitchen", "wanted_height", datum_mm, "abc")
    )


def legs_set(item: str, uid: str = "l1", position: int = 20, **heights_mm: float) -> Entry:
    return Entry(uid, position, "Nell", "2026-03-02T10:00:00Z", LegsSet(item, tuple(heights_mm.items()), "abc"))


def reading(station: str, value_mm: float, position: int) -> Entry:
    name = station.replace("s", "back ")
    read = Reading("setup", station, Way.DOWN, value_mm, name, 0.0, 0.0)
    return Entry(f"r{position}", position, "Nell", "2026-03-02T08:00:00Z", read)


def rules(findings: Sequence[object]) -> list[str]:
    return [one.rule for one in findings]  # type: ignore[attr-defined]
