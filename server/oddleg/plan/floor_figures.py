"""The floor in a few figures: high and low spot, range, worst slope."""

from __future__ import annotations

from oddleg.job import Job

from .figure import Figure, figure
from .finished_floor import Floor


def floor_figures(job: Job, floor: Floor) -> tuple[tuple[str, Figure], ...]:
    """Label and figure of what a fitter wants to know of the floor first, as it was read; none without readings."""
    read, step_mm = floor.as_read, job.rounding_mm
    if not read.spots:
        return ()
    highest, lowest = read.highest, read.lowest
    rows = [
        ("High spot", figure(highest.level_mm, step_mm, f"The highest station as read, {highest.name}.", signed=True)),
        ("Low spot", figure(lowest.level_mm, step_mm, f"The lowest station as read, {lowest.name}.", signed=True)),
        ("Range", figure(read.range_mm, step_mm, f"From {lowest.name} up to {highest.name}.")),
    ]
    slope = read.worst_slope()
    if slope is not None:
        mm_per_m, upper, lower = slope
        why = f"From {upper.name} down to {lower.name}, in mm over each metre, between neighbouring stations."
        rows.append(("Steepest, mm per m", figure(mm_per_m, 0.1, why)))
    if floor.finished.spots:
        top = floor.finished.highest
        why = f"The finished floor at {top.name}, layers still to be laid included."
        rows.append(("Finished floor, high spot", figure(top.level_mm, step_mm, why, signed=True)))
    return tuple(rows)
