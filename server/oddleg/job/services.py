"""Services: sockets, cables, wastes, water, gas, ducts; as wanted for the trades before plaster, and as found."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class ServiceKind(StrEnum):
    """SOCKET: an outlet to plug into; SWITCH: a switch or isolator; CABLE: a cable that comes out of the wall; DUCT:
    air in or out."""

    SOCKET = "socket"
    SWITCH = "switch"
    CABLE = "cable"
    WASTE = "waste"
    COLD = "cold"
    HOT = "hot"
    GAS = "gas"
    DUCT = "duct"


class ComesFrom(StrEnum):
    WALL = "wall"
    FLOOR = "floor"


class UpFrom(StrEnum):
    """What a height is measured from. FLOOR: the finished floor; DATUM: the run's datum line (below it is negative)."""

    FLOOR = "finished_floor"
    DATUM = "datum"
    BENCH_MARK = "bench_mark"


@dataclass(frozen=True)
class Service:
    """One service point of a run: as the job has it, where it is wanted; an entry with the same id says where it is.

    `x_mm`: its middle, from the run's zero; `up_mm`: its middle over `up_from`, None: not known (and for what comes out
    of the floor); `y_mm`: its middle out of the wall, for what comes out of the floor. `round`: width_mm is a diameter.
    `stands_out_mm`: of the wall or floor. `live`: None: nobody has tested. `serves`: id of the item or appliance that
    it is for. `reach`: it must stay within reach (a valve, a joint, a socket). `found`: it is there, not only wanted.
    """

    id: str
    name: str
    kind: ServiceKind
    x_mm: float
    up_mm: float | None
    width_mm: float
    height_mm: float
    up_from: UpFrom = UpFrom.FLOOR
    comes_from: ComesFrom = ComesFrom.WALL
    y_mm: float | None = None
    round: bool = False
    stands_out_mm: float = 0.0
    live: bool | None = None
    serves: str | None = None
    reach: bool = True
    found: bool = False


@dataclass(frozen=True)
class Passage:
    """A hole through the sides between two items of a run, for a waste, a supply, a plug with its lead, a duct.

    `diameter_mm` of the hole; `from_back_mm`: its middle before the outside of the units' backs; `below_top_mm`: its
    middle below the run's datum.
    """

    id: str
    name: str
    kind: ServiceKind
    from_item: str
    to_item: str
    diameter_mm: float
    from_back_mm: float
    below_top_mm: float


class VentBy(StrEnum):
    """GRILLE: free area in the plinth; CHIMNEY: free depth behind the unit; DUCT: a duct of a bore to the outside."""

    GRILLE = "grille"
    CHIMNEY = "chimney"
    DUCT = "duct"


@dataclass(frozen=True)
class Vent:
    """What an appliance's sheet asks for ventilation. `area_cm2` for a grille, `depth_mm` for a chimney, `bore_mm` for
    a duct; None: nobody has read it yet. `service`: id of the duct's service point."""

    by: VentBy
    area_cm2: float | None = None
    depth_mm: float | None = None
    bore_mm: float | None = None
    service: str | None = None
    source: str = ""


@dataclass(frozen=True)
class CutOutRule:
    """How a back panel is cut out for what lies behind it. clearance_mm: on every side; corner_radius_mm; apart_mm: two
    cut-outs nearer to each other than this are made one; least_edge_mm: what stays of the panel at its edge, else the
    cut-out is open to that edge."""

    clearance_mm: float = 10.0
    corner_radius_mm: float = 10.0
    apart_mm: float = 30.0
    least_edge_mm: float = 30.0
