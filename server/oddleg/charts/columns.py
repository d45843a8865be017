"""The columns of a fitting chart, kind by kind: what each says, and what is allowed in it. The format is the program's
own: a CSV with one row a variant; a test compares these columns with the dataclasses in `job/hardware.py`."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from oddleg.job import FixedTo, HardwareKind, RebateFace


class Holds(StrEnum):
    NUMBER = "number"
    NUMBERS = "numbers"
    WORDS = "words"
    CHOICE = "choice"
    CHOICES = "choices"
    ID = "id"
    DAY = "day"


@dataclass(frozen=True)
class Column:
    """`least`, `greatest`: of a figure, or of each in a list. `choices`: the words allowed. `needed`: it may not be
    empty. `rises`: a list's figures rise; `from_nought`: its first is 0. `pair`: the column that this one, a least, may
    not exceed; `along_with`: the list that this one is as long as."""

    name: str
    words: str
    holds: Holds = Holds.NUMBER
    least: float = 0.0
    greatest: float = 5_000.0
    choices: tuple[str, ...] = ()
    needed: bool = True
    rises: bool = False
    from_nought: bool = False
    pair: str | None = None
    along_with: str | None = None

    @property
    def unit(self) -> str:
        ending = self.name.rsplit("_", 1)[-1]
        return {"mm": "mm", "kg": "kg", "deg": "degrees"}.get(ending, "")

    @property
    def allowed(self) -> str:
        """What may stand in it, in words."""
        span = f"{self.least:g} to {self.greatest:g} {self.unit}".rstrip()
        empty = "" if self.needed else ", or nothing"
        match self.holds:
            case Holds.NUMBER:
                return span + empty
            case Holds.NUMBERS:
                order = ", rising" if self.rises else ""
                first = ", the first 0" if self.from_nought else ""
                return f"figures with blanks between them{order}{first}, each {span}{empty}"
            case Holds.CHOICE:
                return f"one of {', '.join(self.choices)}{empty}"
            case Holds.CHOICES:
                return f"any of {', '.join(self.choices)}, with blanks between them{empty}"
            case Holds.ID:
                return "small letters, digits and hyphens, 64 at most; each row its own"
            case Holds.DAY:
                return "a day as 2026-11-25, or nothing: nobody has checked it yet"
            case Holds.WORDS:
                return f"words, 200 letters at most{empty}"


HEAD = (
    Column("id", "what jobs call this row", Holds.ID),
    Column("name", "what people call it", Holds.WORDS),
)
TAIL = (
    Column("source", "whose sheet the figures were read off", Holds.WORDS),
    Column("checked_on", "the day on which the row was held against that sheet", Holds.DAY, needed=False),
)
HOLE = (
    Column("hole_mm", "bore of each hole", least=0.5, greatest=100),
    Column("hole_depth_mm", "depth of each hole", least=0.5, greatest=200),
)
KINDS = {
    HardwareKind.RUNNER: "a pair of drawer runners",
    HardwareKind.HINGE: "a hinge with a cup",
    HardwareKind.PLATE: "a mounting plate for such a hinge",
    HardwareKind.LEG: "an adjustable leg",
    HardwareKind.BRACKET: "a hanging bracket of a wall unit",
    HardwareKind.CONNECTOR: "a screw that joins the sides of two neighbours",
    HardwareKind.PIN: "a shelf pin",
    HardwareKind.PULL_OUT: "a frame that comes out as a whole, such as one for bins",
}
FORMAT = """A fitting chart is a CSV: one row a variant, one kind of hardware a file. All lengths in mm.
Figures alone: no unit, no fraction. Several figures in one cell have blanks between them.
Commas, semicolons or tabs part the cells. Where commas do, a figure with a decimal comma stands in quotation marks."""
BASE_EDGES, BACK_EDGES = ("left", "right", "front", "back"), ("left", "right", "top", "bottom")


def mm(name: str, words: str, least: float = 0.0, greatest: float = 5_000.0, pair: str | None = None) -> Column:
    return Column(name, words, least=least, greatest=greatest, pair=pair)


def several(name: str, words: str, least: float = 0.0, greatest: float = 5_000.0, **more: object) -> Column:
    return Column(name, words, Holds.NUMBERS, least, greatest, **more)  # type: ignore[arg-type]


OWN: dict[HardwareKind, tuple[Column, ...]] = {
    HardwareKind.RUNNER: (
        mm("length_mm", "nominal length of the runner", 100, 2_000),
        mm("front_mm", "its front end behind the carcass's front edge", 0, 100),
        mm("rear_void_mm", "free depth that it needs behind its rear end", 0, 200),
        mm("up_mm", "line of its screws over the front's lower edge", 0, 500),
        mm("least_up_mm", "least height of that line over the board below", 0, 500),
        mm("first_mm", "first screw behind the carcass's front edge, overlay front", 5, 300),
        several("screws_mm", "each screw behind the first", 0, 2_000, rises=True, from_nought=True),
        *HOLE,
        mm("below_mm", "how far runner and drawer reach below the line of screws", 0, 500),
        mm("above_mm", "how far runner and drawer reach above it", 0, 1_000),
        mm("least_front_mm", "least height of a front for it", 0, 1_000),
        mm("side_mm", "what runner and drawer side take of the inside width, each side", 0, 200),
        Column("load_kg", "what a pair carries", least=1, greatest=500),
        mm("board_mm", "thickness of base and back that the chart is made for", 3, 50),
        mm("base_less_mm", "base across: inside width less this", 0, 500),
        mm("base_shorter_mm", "base front to back: length less this", 0, 500),
        mm("back_less_mm", "back across: inside width less this", 0, 500),
        mm("back_height_mm", "height of the back", 10, 1_000),
        mm("base_lip_mm", "width of the rebate that a thicker base needs", 0, 100),
        Column("base_edges", "edges of the base that it lies on", Holds.CHOICES, choices=BASE_EDGES, needed=False),
        Column("base_face", "face of the base that it lies on", Holds.CHOICE, choices=tuple(RebateFace)),
        mm("base_clear_mm", "what is free under the base's lip, over the runner", 0, 100),
        mm("back_lip_mm", "width of the rebate that a thicker back needs", 0, 100),
        Column("back_edges", "edges of the back that it lies on", Holds.CHOICES, choices=BACK_EDGES, needed=False),
    ),
    HardwareKind.HINGE: (
        Column("opening_deg", "how far it opens", least=30, greatest=270),
        mm("cup_mm", "bore of the cup in the door", 20, 60),
        mm("cup_depth_mm", "depth of the cup", 3, 40),
        mm("least_edge_mm", "least distance from the door's edge to the cup's rim", 0, 60, "greatest_edge_mm"),
        mm("greatest_edge_mm", "greatest distance from the door's edge to the cup's rim", 0, 60),
        mm("screws_back_mm", "line of the cup's screws beyond the cup's middle", 0, 60),
        mm("screws_apart_mm", "between the cup's two screws", 10, 200),
        mm("screw_mm", "bore for the cup's screws", 0.5, 20),
        mm("screw_depth_mm", "depth for the cup's screws", 0.5, 60),
        mm("constant_mm", "overlay = this + edge distance - plate height; below 0 where the door lies inside", -60, 60),
        mm("end_mm", "first and last cup from the door's ends", 30, 500),
        mm("intrusion_mm", "how far open door and hinge stand into the opening, from the side's inside face", 0, 200),
        mm("least_door_mm", "least thickness of the door", 5, 60, "greatest_door_mm"),
        mm("greatest_door_mm", "greatest thickness of the door", 5, 60),
        several("up_to_mm", "greatest height of a door with 2, 3, 4 ... hinges", 100, 5_000, rises=True),
        several(
            "up_to_kg", "greatest weight of a door with 2, 3, 4 ... hinges", 0.5, 500, rises=True, along_with="up_to_mm"
        ),
    ),
    HardwareKind.PLATE: (
        mm("height_mm", "height between side and hinge arm", 0, 50),
        mm("row_mm", "line of its screws behind the front edge, overlay door", 5, 200),
        mm("spread_mm", "between its two screws, one above the other", 5, 200),
        *HOLE,
    ),
    HardwareKind.LEG: (
        mm("least_mm", "least height", 10, 1_000, "greatest_mm"),
        mm("greatest_mm", "greatest height", 10, 1_000),
        several("right_mm", "each hole to the right of the leg's middle; to the left is below 0", -200, 200),
        several(
            "back_mm",
            "each hole to the back from the leg's middle; forward is below 0",
            -200,
            200,
            along_with="right_mm",
        ),
        *HOLE,
        Column("load_kg", "what one leg carries", least=1, greatest=2_000),
    ),
    HardwareKind.BRACKET: (
        several("down_mm", "each hole below the side's top edge", 0, 500),
        several("in_mm", "each hole in from the side's rear edge", 0, 500, along_with="down_mm"),
        *HOLE,
        mm("rail_down_mm", "top edge of the rail below the unit's top", 0, 500),
        mm("least_recess_mm", "least set-in of the back", 0, 200),
        Column("load_kg", "what a pair carries into the rail", least=1, greatest=2_000),
    ),
    HardwareKind.CONNECTOR: (
        mm("hole_mm", "bore, right through both sides", 1, 50),
        mm("front_mm", "line of screws behind the front edge", 5, 500),
        mm("back_mm", "line of screws before the back edge", 5, 500),
        mm("top_mm", "upper screw below the top", 5, 1_000),
        mm("bottom_mm", "lower screw over the bottom", 5, 1_000),
        mm("clear_mm", "kept from the rim of any other hole", 0, 200),
        mm("least_boards_mm", "least thickness of both sides together", 5, 200, "greatest_boards_mm"),
        mm("greatest_boards_mm", "greatest thickness of both sides together", 5, 200),
    ),
    HardwareKind.PIN: (
        *HOLE,
        mm("row_mm", "front row behind the front edge", 5, 500),
        mm("pitch_mm", "between one hole and the next", 5, 200),
        mm("least_back_mm", "rear row before the side's rear edge, at least", 0, 500),
        Column("load_kg", "what four of them carry", least=1, greatest=500),
    ),
    HardwareKind.PULL_OUT: (
        Column("fixed_to", "what it is fixed to", Holds.CHOICE, choices=tuple(FixedTo)),
        mm("least_width_mm", "least inside width", 50, 3_000, "greatest_width_mm"),
        mm("greatest_width_mm", "greatest inside width", 50, 3_000),
        mm("least_depth_mm", "least inside depth", 50, 3_000),
        mm("least_height_mm", "least inside height", 50, 3_000),
        several("holes_u_mm", "each hole behind the carcass's front edge", 0, 2_000),
        several(
            "holes_across_mm",
            "each hole from the compartment's middle to the right (bottom), or up from the bottom (sides)",
            -2_000,
            2_000,
            along_with="holes_u_mm",
        ),
        *HOLE,
        several(
            "door_up_mm",
            "each hole in its front, over the front's lower edge; nothing: it has no front",
            0,
            3_000,
            needed=False,
        ),
        several(
            "door_across_mm",
            "each hole in its front, from the front's middle to the right",
            -2_000,
            2_000,
            needed=False,
            along_with="door_up_mm",
        ),
        Column("door_hole_mm", "bore in its front", least=0, greatest=100),
        Column("door_hole_depth_mm", "depth in its front", least=0, greatest=200),
        Column("load_kg", "what it carries", least=1, greatest=500),
    ),
}


def columns(kind: HardwareKind) -> tuple[Column, ...]:
    """The columns of a chart of this kind, in the order in which they are written."""
    return (*HEAD, *OWN[kind], *TAIL)


def described(kind: HardwareKind) -> str:
    """The columns of this kind in plain lines: name, what it says, what is allowed in it."""
    lines = [f"{kind}: {KINDS[kind]}", "  kind: the same word in every row", f"    allowed: {kind}"]
    for one in columns(kind):
        lines += [f"  {one.name}: {one.words}", f"    allowed: {one.allowed}"]
    return "\n".join(lines)
