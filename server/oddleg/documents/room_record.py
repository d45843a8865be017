"""Records of a room: walls, marks, floor build-up, openings, limits, stations, and its runs."""

from __future__ import annotations

from itertools import pairwise

from oddleg.job import (
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

from .fields import Choice, Listing, Number, Part, Record, Slug, Text, YesNo
from .run_record import RunRecord
from .sizes import WithAssumed, board, level, place, play, size

GREATEST_STATIONS = 2000


class PointRecord(Record):
    makes = Point
    x_mm = place()
    y_mm = place()


class LineRecord(Record):
    """A record whose `points` make a line."""

    def clashes(self, made: Wall | BreakLine) -> dict[str, str]:
        if any(before == after for before, after in pairwise(made.points)):
            return {"points": "Two points that follow one another are the same; take one out."}
        return {}


class WallRecord(LineRecord):
    makes = Wall
    id = Slug()
    name = Text()
    points = Listing(Part(PointRecord), 2, 200)


class BenchMarkRecord(Record):
    makes = BenchMark
    id = Slug()
    name = Text()
    level_mm = level()
    x_mm = place(allow_none=True)
    y_mm = place(allow_none=True)

    def clashes(self, made: BenchMark) -> dict[str, str]:
        if (made.x_mm is None) != (made.y_mm is None):
            return {"x_mm" if made.x_mm is None else "y_mm": "Give both x_mm and y_mm, or null for both."}
        return {}


class LayerRecord(Record):
    makes = Layer
    id = Slug()
    name = Text()
    manner = Choice(Manner)
    thickness_mm = Number(0, 500)
    laid_at = Choice(Stage)
    under_units = YesNo()
    bays = Listing(Slug(), allow_none=True)


class OldCoveringRecord(Record):
    makes = OldCovering
    id = Slug()
    name = Text()
    thickness_mm = Number(0, 500, allow_none=True)
    gone_from = Choice(Stage)


class BreakLineRecord(LineRecord):
    makes = BreakLine
    id = Slug()
    name = Text()
    points = Listing(Part(PointRecord), 2, 200)


class DoorwayRecord(Record):
    makes = Doorway
    id = Slug()
    name = Text()
    from_point = Part(PointRecord)
    to_point = Part(PointRecord)

    def clashes(self, made: Doorway) -> dict[str, str]:
        if made.from_point == made.to_point:
            return {"to_point": "Both jambs are at the same point; give the two sides of the opening."}
        return {}


class HeightLimitRecord(Record):
    makes = HeightLimit
    id = Slug()
    name = Text()
    height_of = Choice(HeightOf)
    bound = Choice(Bound)
    clearance_mm = play()
    level_mm = level(allow_none=True)
    stations = Listing(Slug(), greatest=200)

    def clashes(self, made: HeightLimit) -> dict[str, str]:
        if (made.level_mm is None) == (not made.stations):
            return {"level_mm": "Give either a level or the stations where it is measured: one of the two."}
        return {}


class StationRecord(Record):
    makes = Station
    id = Slug()
    name = Text(greatest=80)
    x_mm = place()
    y_mm = place()
    serves = Text(0)
    surface = Choice(("floor", "overhead"))


class WorktopRecord(WithAssumed):
    makes = Worktop
    thickness_mm = board()
    build_up_mm = board(0)
    wanted_height_mm = size(allow_none=True)
    depth_mm = size()
    stock_depths_mm = Listing(size(), least=1, greatest=50)
    overhang_mm = Number(0, 1_000)
    cover_mm = Number(0, 300)
    assumed = Listing(Text(greatest=64), greatest=50)


class PlinthBoardRecord(WithAssumed):
    makes = PlinthBoard
    height_mm = size()
    fit_mm = Number(0, 50)
    thickness_mm = board()
    greatest_open_mm = Number(0, 500)
    length_mm = Number(300, 20_000)
    kerf_mm = Number(0, 20)
    assumed = Listing(Text(greatest=64), greatest=50)


class WallUnitsRecord(WithAssumed):
    makes = WallUnits
    tops_in_line = YesNo()
    clear_over_top_mm = play()
    rail_below_top_mm = play(allow_none=True)
    assumed = Listing(Text(greatest=64), greatest=50)


class RoomRecord(Record):
    makes = Room
    id = Slug()
    name = Text()
    corner = Text()
    walls = Listing(Part(WallRecord), greatest=200)
    worktop = Part(WorktopRecord)
    bench_marks = Listing(Part(BenchMarkRecord), greatest=50)
    plinth = Part(PlinthBoardRecord)
    wall_units = Part(WallUnitsRecord)
    layers = Listing(Part(LayerRecord), greatest=50)
    old_coverings = Listing(Part(OldCoveringRecord), greatest=50)
    break_lines = Listing(Part(BreakLineRecord), greatest=50)
    doorways = Listing(Part(DoorwayRecord), greatest=50)
    height_limits = Listing(Part(HeightLimitRecord), greatest=100)
    runs = Listing(Part(RunRecord), greatest=200)
    stations = Listing(Part(StationRecord), greatest=GREATEST_STATIONS)

    def clashes(self, made: Room) -> dict[str, str]:
        for below, above in pairwise(made.layers):
            if above.laid_at.rank < below.laid_at.rank:
                return {"layers": f"{above.name} lies on {below.name} but is laid before it; list from below upwards."}
        return {}
