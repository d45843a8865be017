"""The invented walls of demo/hall.json, and what the fitter measures at them: hollow in the middle, leaning, not square.

`measured` goes by the stations that the plan proposes; a line, or a width, that is not there is not read.
"""

import math

# Level over the bench mark at which each height is read.
LEVELS_MM = {"floor": 40.0, "batten": 850.0, "worktop": 905.0, "wall_units": 2080.0}
OPENING_MM = 5410.0
SIDE_RUN_FROM_MM = 575.0
WINDOW_LINE_MM = 100.0
# Set up again from here on: a little further out, and 3 mm a metre nearer to the wall as it goes on.
MOVED_AT_STATION = 7
MOVED_LINE_MM, MOVED_LINE_SLOPE = 142.0, -0.003
SIDE_LINE_MM = 120.0
# Left, right; bottom and top over the datum line; how far it stands out.
WINDOW_MM = (1252.0, 2655.0, 167.0, 1217.0, -92.0)
SILL_MM = (1224.0, 2683.0, 146.0, 167.0, 25.0)
# As delivered: this batch runs a little wide.
DELIVERED_MM = {"drawers-one": 800.5, "sink": 1000.5, "doors-one": 800.5, "bins": 450.0}


def window_wall_mm(x_mm, level_mm):
    """How far the window wall stands out at x of the window run: leans out at the foot, hollow, a lump at 4300."""
    lean = 6.0 * (1 - level_mm / 2100)
    lump = 3.0 * math.exp(-(((x_mm - 4300) / 350) ** 2))
    return lean - 7.0 * math.sin(math.pi * x_mm / OPENING_MM) + lump + 2.0 * x_mm / OPENING_MM


def side_wall_mm(y_mm, level_mm):
    """The same of the side wall at Y of the room: it closes by 8 over its length."""
    return 4.0 * (1 - level_mm / 2100) + 8.0 * y_mm / 4100 - 4.0 * math.sin(math.pi * y_mm / 4100)


def store_wall_mm(y_mm, level_mm):
    """How far the store wall lies beyond the window run's zero mark, which is plumbed at its narrowest."""
    return 2.0 * level_mm / 900 + 1.5 * y_mm / SIDE_RUN_FROM_MM


def corner_triangle_mm(along_mm, other_along_mm):
    """The third side of a triangle with these legs from where the two walls meet, at the worktop."""
    level = LEVELS_MM["worktop"]
    corner = (OPENING_MM - side_wall_mm(0, level), window_wall_mm(OPENING_MM, level))
    on_window = (corner[0] - along_mm, window_wall_mm(corner[0] - along_mm, level))
    on_side = (OPENING_MM - side_wall_mm(other_along_mm, level), corner[1] + other_along_mm)
    return math.dist(on_window, on_side)


def line(survey, id, name, run, square_to=None, stands_off=None):
    typed = None if stands_off is None else mm(stands_off)
    return survey.add("wall_line", id, {"name": name, "run": run, "square_to": square_to, "stands_off": typed})


def mm(value):
    return {"raw": f"{value:g}", "unit": "mm", "value": f"{value:g}"}


def read(survey, line_id, station, height, distance_mm, slip_mm=0.0, replaces=None):
    """One reading to the half millimetre, with the noise of a careful hand."""
    value = round((distance_mm + survey.chance.gauss(0, 0.4)) * 2) / 2 + slip_mm
    data = {"line": line_id, "height": height, "side": None, "name": station.name, "x_mm": station.x_mm}
    return survey.add("wall_reading", station.id, data, f"{value:g}", f"{value:g}", "mm", replaces=replaces)


def read_walls(survey, walls):
    """Both walls from a vertical laser plane each, the second square to the first. `walls`: run id to its wall in the
    plan. One spot was read 10 out and again. The laser at the window wall had to be moved: the station read last and
    the first one were read from its new place too, which joins the two lines."""
    line(survey, "window-line", "line at the window wall", "window-run")
    stations = walls["window-run"].stations
    for i, station in enumerate(stations[:MOVED_AT_STATION]):
        for height in station.heights:
            distance = WINDOW_LINE_MM - window_wall_mm(station.x_mm, LEVELS_MM[height])
            slipped = i == 3 and height == "batten"
            uid = read(survey, "window-line", station, height, distance, slip_mm=10.0 if slipped else 0.0)
            if slipped:
                read(survey, "window-line", station, height, distance, replaces=uid)
    line(survey, "window-line-two", "second line at the window wall", "window-run")
    for station in (stations[MOVED_AT_STATION - 1], stations[0], *stations[MOVED_AT_STATION:]):
        for height in station.heights:
            out = window_wall_mm(station.x_mm, LEVELS_MM[height])
            read(survey, "window-line-two", station, height, MOVED_LINE_MM + MOVED_LINE_SLOPE * station.x_mm - out)
    line(survey, "side-line", "line at the side wall", "side-run", "window-line", SIDE_LINE_MM)
    for station in walls["side-run"].stations:
        for height in station.heights:
            out = side_wall_mm(SIDE_RUN_FROM_MM + station.x_mm, LEVELS_MM[height])
            read(survey, "side-line", station, height, SIDE_LINE_MM - out)


def measure_corner_and_opening(survey):
    for depth, y_mm in (("back", 0.0), ("front", SIDE_RUN_FROM_MM)):
        for height in ("floor", "batten", "worktop"):
            level = LEVELS_MM[height]
            left = store_wall_mm(y_mm, level)
            width = round((OPENING_MM + left - side_wall_mm(y_mm, level)) * 2) / 2
            survey.add("opening", "window-run", {"height": height, "depth": depth}, f"{width:g}", f"{width:g}", "mm")
            gap = f"{round(left * 2) / 2:g}"
            survey.add("end_gap", "window-run", {"side": "left", "height": height, "depth": depth}, gap, gap, "mm")
    across = round(corner_triangle_mm(4000, 3000) * 2) / 2
    sides = {"along": mm(4000), "other_along": mm(3000), "across": mm(across)}
    survey.add("corner_triangle", "window-run", {"other_run": "side-run", **sides})


def measure_window(survey):
    """Window and sill as found, 3.5 to the right of where they were drawn."""
    for id, name, what, found in (
        ("window", "window", "window", WINDOW_MM),
        ("sill", "window sill", "sill", SILL_MM),
    ):
        sides = dict(zip(("left", "right", "bottom", "top", "stands_out"), map(mm, found), strict=True))
        data = {"run": "window-run", "name": name, "what": what, **sides, "above": "datum"}
        survey.add("feature", id, data)


def measure_units(survey):
    """The units that were delivered so far."""
    for item, width_mm in DELIVERED_MM.items():
        survey.add("unit_width", item, {}, f"{width_mm:g}", f"{width_mm:g}", "mm")
