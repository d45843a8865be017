"""What goes into a plan: the job and its entries, as frozen values without rules."""

from .entries import (
    AddedStation,
    Blocked,
    Body,
    DatumDecision,
    Entry,
    GoodEnough,
    LegsSet,
    Note,
    Reading,
    SetUp,
    TwoPeg,
    TwoWall,
    Way,
)
from .job import Flatness, Instrument, Job, Laser, Tolerances
from .room import (
    BenchMark,
    Bound,
    BreakLine,
    Doorway,
    HeightLimit,
    HeightOf,
    Layer,
    Manner,
    OldCovering,
    PlinthBoard,
    Point,
    Room,
    Stage,
    Station,
    Wall,
    WallUnits,
    Worktop,
)
from .run import (
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    BottomFit,
    Box,
    Carcass,
    CornerPost,
    EndPanel,
    Filler,
    Front,
    FrontFit,
    Gap,
    Handing,
    Item,
    Legs,
    OpenUnit,
    Run,
    Storey,
)

__all__ = [name for name in dir() if name[0].isupper()]
