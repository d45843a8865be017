"""The part of a plan that the survey screen shows."""

from __future__ import annotations

from oddleg.job import Stage

from . import Plan, RoomPlan
from .figure import figure
from .part_values import Part, figure_part, finding_part
from .skipped import skipped
from .survey import next_words, quality, reading_limits, stage_words

STAGE_NAMES = {
    Stage.AS_FOUND: "as found",
    Stage.STRIPPED: "stripped, old covering lifted",
    Stage.LEVELLED: "levelled",
    Stage.TILED: "tiled or covered",
}


def survey_part(plan: Plan, room: RoomPlan) -> Part:
    job, levels, step_mm = plan.job, room.levels, plan.job.rounding_mm
    planes = {one.set_up: one for one in levels.planes}
    closed, called = levels.misclosure, {one.id: one.name for one, _ in room.set_ups}
    names = {one.id: one.name for one in room.room.bench_marks}
    names |= {one.station.id: one.station.name for one in room.station_list.stations}
    return {
        "room": room.room.id,
        "name": room.room.name,
        "corner": room.room.corner,
        "bench_marks": [
            {"id": one.id, "name": one.name, "x_mm": one.x_mm, "y_mm": one.y_mm}
            | {"level": figure_part(figure(one.level_mm, step_mm, "Given with the job.", signed=True))}
            for one in room.room.bench_marks
        ],
        "stations": [
            {
                "id": one.station.id,
                "name": one.station.name,
                "x_mm": one.station.x_mm,
                "y_mm": one.station.y_mm,
                "serves": one.station.serves,
                "surface": one.station.surface,
                "pass": one.pass_number,
                "accepted": one.accepted,
                "added": one.added,
                "state": one.state,
                "level": figure_part(one.level),
                "readings": one.readings,
            }
            for one in room.station_list.stations
        ],
        "set_ups": [
            {
                "id": one.id,
                "name": one.name,
                "stage": one.stage.value,
                "plane": None
                if one.id not in planes
                else figure_part(
                    figure(
                        planes[one.id].level_mm,
                        0.1,
                        "Level of the beam over the bench mark, found with all set-ups together; give or take "
                        f"{figure(planes[one.id].half_width_mm, 0.1).text} mm (95 %).",
                        signed=True,
                    )
                ),
                "readings": count,
            }
            for one, count in room.set_ups
        ],
        "limits": {
            "ways": reading_limits(job),
            "repeat_mm": job.tolerances.repeat_mm,
            "step_mm": job.tolerances.step_mm,
        },
        "checks": [
            {
                "laser": one.laser,
                "axis": one.axis,
                "method": one.method,
                "verdict": one.verdict.value,
                "words": one.words,
            }
            for one in room.checks
        ],
        "misclosure": None
        if closed is None
        else figure_part(
            figure(
                closed.mm,
                0.1,
                f"The way through {' and '.join(called[id] for id in closed.set_ups)} comes back to where it began "
                f"by this much; the job lets it be {figure(closed.limit_mm, 0.1).text} mm.",
            )
        ),
        "quality": list(quality(levels, room.site, names)),
        "next_words": next_words(room.site, room.station_list, room.room, room.datum.decided is not None),
        "stage_words": stage_words(room.room),
        "skipped": list(skipped(job, room.room, room.site, levels, room.checks)),
        "findings": [finding_part(one) for one in (*levels.findings, *room.findings)],
    }
