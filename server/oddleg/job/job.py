"""The job: what the office decided. No rule and no formula here; defaults are proposals that a job document carries."""

from __future__ import annotations

from dataclasses import dataclass

from .fitting_out import HoleLimits
from .hardware import PinnedRow
from .room import Room
from .services import CutOutRule


@dataclass(frozen=True)
class Laser:
    """`slope_mm_per_m`: the maker's stated accuracy, the beam's rise or fall in mm over each metre."""

    id: str
    name: str
    slope_mm_per_m: float = 0.3


@dataclass(frozen=True)
class Instrument:
    """What reads the number: a rule, a tape, a laser measure that types. `unit` is mm, cm or m."""

    id: str
    name: str
    unit: str = "mm"
    decimals: int = 1
    resolution_mm: float = 0.5


@dataclass(frozen=True)
class Tolerances:
    """Figures that the job is held to. Rules of thumb unless a source is named in DEVELOPERS.md; all mm but one factor.

    reading_noise_mm: standard deviation of one reading. repeat_mm: greatest difference between two readings of one
    station in one set-up. misclosure_mm: times the root of the number of set-ups. off_line_mm: greatest distance of one
    reading from the line of its neighbours before a repeat is asked for. unevenness_mm: what the floor may do between
    two stations (95 %); good_enough_mm: the same where the fitter went on without the stations in between. between_mm:
    difference of neighbours that asks for a station between them. spacing_mm: greatest distance of stations of the
    first pass. leg_reach_mm: greatest distance of a leg from a station. line_reach_mm: how near a leg must be to a line
    of stations to be read off that line. profile_reach_mm: how far a profile serves beside its line. leg_set_mm: what a
    leg already set may be out. knock_mm: greatest difference of the first and last reading of a bench mark in one
    set-up. unseen_knock_mm: what a knock that nobody could see may have done (95 %) to the readings of a set-up that
    nothing closes. unchecked_slope_times: by how many times its stated slope a laser may tilt that no check on site
    found within it, a factor. six_legs_from_mm: carcass width from which two middle legs are set. plinth_bow_mm: how
    far the floor may leave the straight line between a plinth's ends before it is scribed. wall_spacing_mm: greatest
    distance of wall stations. wall_repeat_mm: greatest difference of two readings of a wall at one spot from one line.
    wall_off_line_mm: distance of one wall reading from the line of its neighbours from which a repeat is asked for.
    scribe_mm: what a scribed filler or panel is cut wider than it shows. play_mm: beside a front that opens.
    bay_over_mm: how much wider than drawn an appliance bay may be whose appliance's sheet gives no greatest width.
    unit_size_mm: how far a unit may be off its width; greatest_joint_mm: what a joint may open. tape_mm: give or take
    (95 %) of a length by tape or rule. least_reading_mm, greatest_reading_mm: what a staff can read. step_mm: largest
    difference from the reading before that is not asked about.
    """

    reading_noise_mm: float = 0.5
    repeat_mm: float = 2.0
    misclosure_mm: float = 1.0
    off_line_mm: float = 4.0
    unevenness_mm: float = 1.0
    good_enough_mm: float = 2.0
    between_mm: float = 3.0
    spacing_mm: float = 1200.0
    leg_reach_mm: float = 900.0
    line_reach_mm: float = 60.0
    profile_reach_mm: float = 300.0
    leg_set_mm: float = 1.0
    knock_mm: float = 1.5
    unseen_knock_mm: float = 1.5
    unchecked_slope_times: float = 1.5
    six_legs_from_mm: float = 900.0
    least_reading_mm: float = 50.0
    greatest_reading_mm: float = 3500.0
    step_mm: float = 60.0
    plinth_bow_mm: float = 1.0
    wall_spacing_mm: float = 600.0
    wall_repeat_mm: float = 2.0
    wall_off_line_mm: float = 8.0
    scribe_mm: float = 5.0
    play_mm: float = 5.0
    bay_over_mm: float = 3.0
    unit_size_mm: float = 0.5
    greatest_joint_mm: float = 0.5
    tape_mm: float = 1.0


@dataclass(frozen=True)
class Flatness:
    """A named class to hold the floor against: a table of `charts/flatness.csv`, by name, and the straightedge."""

    name: str = "DIN 18202 row 3"
    straightedge_mm: float = 2000.0


@dataclass(frozen=True)
class Job:
    """`removed_ids` are tombstones: ids of items, stations and the like that a later revision took out. `packs_mm`: the
    packers that are at hand. `hardware`: the rows of charts that its items name, as this job uses them."""

    id: str
    title: str
    place: str
    client: str
    time_zone: str
    base_carcass_height_mm: float
    lasers: tuple[Laser, ...]
    instruments: tuple[Instrument, ...]
    rooms: tuple[Room, ...]
    rounding_mm: float = 0.5
    tolerances: Tolerances = Tolerances()
    flatness: Flatness = Flatness()
    packs_mm: tuple[float, ...] = (1.0, 2.0, 3.0, 5.0, 6.0, 10.0)
    removed_ids: tuple[str, ...] = ()
    hardware: tuple[PinnedRow, ...] = ()
    holes: HoleLimits = HoleLimits()
    cut_outs: CutOutRule = CutOutRule()
