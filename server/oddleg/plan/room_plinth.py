"""What closes the leg space of a room at the decided datum: plinth pieces, boards to cut them from, panels to floor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import Entry, Job, Room

from .figure import Figure, figure
from .finding import Finding, Severity
from .finished_floor import Floor
from .floor_panels import PanelHeight, floor_panels
from .plinth_ends import plinth_wall_ends
from .plinth_layout import EndKind
from .plinth_line import PlinthPiece, plinth_pieces
from .plinth_nesting import PlinthNesting, nesting_findings, plinth_nesting
from .rod import Placed
from .setting_out import RunSetOut
from .sources import station_names


@dataclass(frozen=True)
class RoomPlinth:
    """`nesting` None where there is nothing to cut."""

    datum: Figure
    board_height: Figure
    board_thickness: Figure
    pieces: tuple[PlinthPiece, ...]
    nesting: PlinthNesting | None
    panels: tuple[PanelHeight, ...]
    findings: tuple[Finding, ...]


def room_plinth(
    job: Job,
    room: Room,
    placed: Sequence[Placed],
    floor: Floor,
    datum_mm: float | None,
    readings: Sequence[Entry],
    set_out: Sequence[RunSetOut] = (),
) -> RoomPlinth | None:
    """Plinths, boards and panels at the decided datum; None without one, since nothing is cut before it is chosen.
    `placed`: as the rods have it; `set_out`: the runs set out, for where they end at walls."""
    if datum_mm is None:
        return None
    names = station_names(room, floor, readings)
    pieces, wrong = plinth_pieces(job, room, placed, floor, datum_mm, names, plinth_wall_ends(set_out))
    nesting = plinth_nesting(pieces, room.plinth, job.rounding_mm)
    panels, unknown = floor_panels(job, placed, floor, datum_mm, names)
    step_mm = job.rounding_mm
    return RoomPlinth(
        figure(datum_mm, step_mm, "The datum as chosen."),
        figure(room.plinth.height_mm, step_mm, "The stock board's height, as the job says."),
        figure(room.plinth.thickness_mm, step_mm, "The stock board's thickness, as the job says."),
        pieces,
        nesting,
        panels,
        (*wrong, *unknown, *nesting_findings(nesting, room.name, room.id), *_notes(room, pieces, panels)),
    )


def _notes(room: Room, pieces: Sequence[PlinthPiece], panels: Sequence[PanelHeight]) -> list[Finding]:
    notes = []
    backs = sorted({one.run for one in pieces if EndKind.OPEN in (one.left_end.kind, one.right_end.kind)})
    for run in backs:
        notes.append(
            Finding(
                "plinth.back_open",
                Severity.NOTE,
                run,
                "It stands free, and nothing in the job closes the leg space at a part of its back.",
                "Say in the order what closes it: a back panel to the floor, or a plinth of its own.",
                "first principles",
                concerns=(room.id,),
            )
        )
    if pieces or panels:
        notes.append(
            Finding(
                "plinth.dust",
                Severity.NOTE,
                room.name,
                "Sawing and scribing boards makes fine dust, and a saw cuts more than wood.",
                "Use guard, extraction and mask as the saw's manual and the local code ask.",
                "common practice; the local code decides",
                concerns=(room.id,),
                caution=True,
            )
        )
    return notes
