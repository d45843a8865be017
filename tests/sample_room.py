"""A small room for tests: one run of carcasses along the top wall, everything else as the test says."""

from oddleg.job import BenchMark, Carcass, Instrument, Job, Laser, Legs, Point, Room, Run, Wall, Worktop


def carcass(id, width_mm=600.0, **more):
    values = {"height_mm": 720.0, "depth_mm": 560.0, "legs": Legs(100.0, 180.0, reserve_mm=0.0), **more}
    return Carcass(id, id, width_mm, **values)


def run(*items, id="run-a", **more):
    return Run(
        id,
        "Run A" if id == "run-a" else id,
        more.pop("x_mm", 0.0),
        more.pop("y_mm", 0.0),
        0.0,
        "wall",
        items=items,
        **more,
    )


def room(*runs, **more):
    walls = (Wall("wall", "top wall", (Point(0.0, 0.0), Point(5000.0, 0.0))),)
    marks = more.pop("bench_marks", (BenchMark("mark", "nail"),))
    return Room("room", "Room", "the left corner", walls, more.pop("worktop", Worktop(30.0)), marks, runs=runs, **more)


def job(*rooms, **more):
    return Job(
        "job",
        "Job",
        "Place",
        "Client",
        "UTC",
        720.0,
        (Laser("laser", "laser"),),
        (Instrument("rule", "rule"),),
        rooms,
        **more,
    )
