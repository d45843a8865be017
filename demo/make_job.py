"""Writes demo/hall.json: an invented village hall's kitchen. Run it again after the job format or a chart changes.

Everything in it is made up: people, places, appliances with their sheets, sizes. It is data for trying the program, no
advice.
"""

import json
from dataclasses import asdict
from pathlib import Path

from hall_fitting import FRIDGE_VENT, HOOD_VENT, LAUNDRY_RELIEF, OVEN, PASSAGES, SERVICES, fitted

from oddleg.charts import pinned, shipped_rows
from oddleg.documents import load_job

LEGS = {"least_mm": 120, "greatest_mm": 180, "reserve_mm": 5}
FRONT = {"fit": "overlay", "thickness_mm": 20, "handle_projection_mm": 35, "opening_angle_deg": 110}
DRAWERS = {**FRONT, "moves": "drawer"}
DEPTH_MM = 560
VOID_MM = 15
BATTEN = {"thickness_mm": 12, "height_mm": 45, "stock_mm": 2400, "spacing_mm": 600, "end_mm": 50, "lies_in": "void"}


def base(id, name, width_mm, handing="none", **more):
    size = {"width_mm": width_mm, "height_mm": 720, "depth_mm": DEPTH_MM}
    return {
        "made_as": "carcass",
        "id": id,
        "name": name,
        **size,
        "handing": handing,
        "legs": LEGS,
        "front": FRONT,
        **more,
    }


def wall_unit(id, name, width_mm, handing, **more):
    size = {"width_mm": width_mm, "height_mm": 720, "depth_mm": 320}
    kind = {"made_as": "carcass", "id": id, "name": name}
    return {**kind, **size, "storey": "wall", "handing": handing, "front": FRONT, **more}


def filler(id, name, width_mm, least_mm, greatest_mm, **more):
    limits = {"width_mm": width_mm, "least_mm": least_mm, "greatest_mm": greatest_mm}
    return {"made_as": "filler", "id": id, "name": name, **limits, **more}


def bay(id, name, width_mm, appliance, **more):
    size = {"width_mm": width_mm, "depth_mm": DEPTH_MM}
    return {"made_as": "bay", "id": id, "name": name, **size, "appliance": appliance, **more}


def panel(id, name, depth_mm, **more):
    size = {"thickness_mm": 18, "depth_mm": depth_mm, "allowance_mm": 1.5, "set_on": "what_is_there"}
    return {"made_as": "panel", "id": id, "name": name, **size, **more}


def feature(id, name, kind, left_mm, right_mm, bottom_mm, top_mm, stands_out_mm=0):
    across = {"left_mm": left_mm, "right_mm": right_mm, "bottom_mm": bottom_mm, "top_mm": top_mm}
    return {"id": id, "name": name, "kind": kind, **across, "stands_out_mm": stands_out_mm}


def overhead(id, name, x_mm, y_mm, serves):
    return {"id": id, "name": name, "x_mm": x_mm, "y_mm": y_mm, "serves": serves, "surface": "overhead"}


def lines_up(item, item_edge, on, on_edge):
    return {"item": item, "item_edge": item_edge, "on": on, "on_edge": on_edge}


DISHWASHER = {
    "id": "washer",
    "name": "dishwasher",
    "seat": "under_top",
    "least_height_mm": 820,
    "greatest_height_mm": 880,
    "least_width_mm": 600,
    "greatest_width_mm": 603,
    "greatest_depth_mm": 570,
    "built_in": True,
    "bracket_reach_mm": 10,
}
WASHING_MACHINE = {
    "id": "laundry",
    "name": "washing machine",
    "seat": "under_top",
    "least_height_mm": 865,
    "least_width_mm": 605,
    "greatest_width_mm": 620,
    "greatest_depth_mm": 600,
    "assumed": ["least_height_mm"],
    **LAUNDRY_RELIEF,
}
COOKER = {
    "id": "cooker",
    "name": "cooker",
    "seat": "beside_top",
    "least_height_mm": 890,
    "greatest_height_mm": 920,
    "least_width_mm": 595,
    "greatest_width_mm": 600,
    "greatest_depth_mm": 590,
    "clear_above_mm": 650,
}
HOOD = {
    "id": "hood",
    "name": "hood",
    "seat": "over_top",
    "least_height_mm": 60,
    "clear_below_mm": 650,
    "vents": [HOOD_VENT],
}
FRIDGE = {
    "id": "fridge",
    "name": "fridge in the larder",
    "seat": "in_carcass",
    "least_height_mm": 880,
    "vents": [FRIDGE_VENT],
}

# The row that stands is set out from the window's centre, which is where the bowl comes. To its right the corner base
# goes into the corner behind the side run: what is left over there is hidden, and keeps its door clear of that run.
WINDOW_RUN = [
    filler("window-filler", "filler to the left wall", 50, 30, 80),
    base("drawers-one", "four-drawer base", 800, front=DRAWERS),
    bay(
        "washer-bay",
        "dishwasher bay",
        600,
        DISHWASHER,
        plinth_runs_through=True,
        front={**FRONT, "moves": "flap"},
        plinth_cuts=[
            {
                "kind": "notch",
                "left_mm": 20,
                "width_mm": 560,
                "height_mm": 25,
                "source": "the dishwasher's sheet (invented)",
            }
        ],
    ),
    base("sink", "sink base", 1000, "pair"),
    bay("laundry-bay", "laundry bay", 620, WASHING_MACHINE),
    panel("laundry-panel", "panel at the washing machine", 580),
    base("doors-one", "cups base", 800, "pair"),
    base("bins", "bins base", 450, front=DRAWERS),
    base("corner", "blind corner base", 1000, "left", blind_mm=600, width_within_mm=1),
    filler("corner-space", "space behind the side run", 55, 20, 80, scribed=False),
    filler("cups-filler", "filler left of the wall units", 50, 30, 80, storey="wall"),
    wall_unit("cups-left", "left cups unit", 800, "pair"),
    {"made_as": "gap", "id": "window-gap", "name": "gap for the window", "width_mm": 2239.5, "storey": "wall"},
    wall_unit("cups-right", "right cups unit", 800, "pair"),
    wall_unit("plates", "plates unit", 1000, "pair"),
]

SIDE_RUN = [
    {"made_as": "post", "id": "side-post", "name": "post at the corner", "width_mm": 65},
    base("pans", "pans base", 600, front=DRAWERS),
    bay("cooker-bay", "cooker bay", 600, COOKER),
    base("trays", "trays base", 400, "left"),
    {
        **base("larder", "tall larder", 600, "left"),
        "height_mm": 1970,
        "storey": "tall",
        "appliances": [FRIDGE, OVEN],
        "plinth_cuts": [
            {
                "kind": "grille",
                "left_mm": 100,
                "width_mm": 400,
                "height_mm": 50,
                "source": "the fridge's sheet (invented)",
                "up_mm": 50,
            }
        ],
    },
    panel("larder-panel", "larder end panel", 580, storey="tall"),
    {"made_as": "gap", "id": "pans-gap", "name": "open wall over the post", "width_mm": 65, "storey": "wall"},
    # 600 on the rod, over the pans base: 561 and, on either side, a frame of 18 and its gap of 1.5.
    {
        "made_as": "open_unit",
        "id": "shelves",
        "name": "open shelves",
        "width_mm": 561,
        "height_mm": 720,
        "depth_mm": 320,
        "storey": "wall",
        "frame_thickness_mm": 18,
        "frame_gap_mm": 1.5,
    },
    wall_unit("hood-unit", "hood unit", 600, "none", height_mm=500, front=None, appliances=[HOOD]),
    wall_unit("spices", "spices unit", 400, "left"),
]

COUNTER = [
    base("counter-left", "left counter base", 900, "pair"),
    base("counter-right", "right counter base", 900, "pair"),
]

JOB = {
    "format": 1,
    "id": "hollowmere-hall",
    "title": "Hollowmere village hall, kitchen",
    "place": "The Old School, Hollowmere",
    "client": "Hall committee (Mrs Aldous)",
    "time_zone": "Europe/London",
    "base_carcass_height_mm": 720,
    "lasers": [{"id": "green-laser", "name": "green line laser", "slope_mm_per_m": 0.3}],
    "instruments": [
        {"id": "rule", "name": "steel rule", "unit": "mm", "decimals": 1, "resolution_mm": 0.5},
        {"id": "measure", "name": "laser measure that types", "unit": "m", "decimals": 4, "resolution_mm": 0.1},
    ],
    "rooms": [
        {
            "id": "kitchen",
            "name": "Kitchen",
            "corner": "the corner left of the window",
            "walls": [
                {
                    "id": "window-wall",
                    "name": "window wall",
                    "points": [{"x_mm": 0, "y_mm": 0}, {"x_mm": 5410, "y_mm": 0}],
                },
                {
                    "id": "side-wall",
                    "name": "side wall",
                    "points": [{"x_mm": 5410, "y_mm": 0}, {"x_mm": 5402, "y_mm": 4100}],
                },
                {
                    "id": "hall-wall",
                    "name": "hall wall",
                    "points": [{"x_mm": 5402, "y_mm": 4100}, {"x_mm": 0, "y_mm": 4100}],
                },
                {
                    "id": "store-wall",
                    "name": "store wall",
                    "points": [{"x_mm": 0, "y_mm": 4100}, {"x_mm": 0, "y_mm": 0}],
                },
            ],
            "worktop": {
                "thickness_mm": 30,
                "wanted_height_mm": 910,
                "depth_mm": 600,
                "stock_depths_mm": [600, 650, 900],
                "overhang_mm": 20,
                "cover_mm": 12,
                "assumed": ["wanted_height_mm"],
            },
            "plinth": {"height_mm": 150, "fit_mm": 2, "thickness_mm": 16, "greatest_open_mm": 20},
            "wall_units": {"tops_in_line": True, "clear_over_top_mm": 500, "rail_below_top_mm": 60},
            "bench_marks": [
                {"id": "threshold", "name": "cross cut in the threshold", "level_mm": 0, "x_mm": 2100, "y_mm": 4060}
            ],
            "old_coverings": [
                {"id": "old-vinyl", "name": "old vinyl sheet", "thickness_mm": None, "gone_from": "stripped"}
            ],
            "layers": [
                {
                    "id": "sheet",
                    "name": "safety sheet",
                    "manner": "follows",
                    "thickness_mm": 3,
                    "laid_at": "tiled",
                    "under_units": False,
                },
            ],
            "doorways": [
                {
                    "id": "hall-door",
                    "name": "door to the hall",
                    "from_point": {"x_mm": 1700, "y_mm": 4100},
                    "to_point": {"x_mm": 2500, "y_mm": 4100},
                },
            ],
            "height_limits": [
                {
                    "id": "sill-limit",
                    "name": "window sill",
                    "height_of": "worktop_top",
                    "bound": "at_most",
                    "clearance_mm": 5,
                    "level_mm": 1020,
                },
                {
                    "id": "ceiling",
                    "name": "ceiling over the larder",
                    "height_of": "tall_top",
                    "bound": "at_most",
                    "clearance_mm": 15,
                    "stations": ["ceiling-one", "ceiling-two"],
                },
            ],
            "runs": [
                {
                    "id": "window-run",
                    "name": "Window run",
                    "wall": "window-wall",
                    "x_mm": 0,
                    "y_mm": 0,
                    "bearing_deg": 0,
                    "void_mm": VOID_MM,
                    "items": [fitted(one) for one in WINDOW_RUN],
                    "left_end": {"at": "wall"},
                    "right_end": {"at": "other_backs", "run": "side-run"},
                    "opening_mm": 5410,
                    "services": SERVICES["window-run"],
                    "passages": PASSAGES["window-run"],
                    "anchor": {"on": "feature", "feature": "window", "item": "sink", "what": "bowl"},
                    # From the bowl to the dishwasher bay's left edge: 500 of the sink base and 600. So the wall units
                    # line up with what stands, and the window lies off the middle of their gap.
                    "wall_anchor": {
                        "on": "feature",
                        "feature": "window",
                        "item": "window-gap",
                        "item_edge": "left",
                        "item_offset_mm": 1100,
                    },
                    "batten": BATTEN,
                    "features": [
                        feature("window", "window", "window", 1250, 2650, 1040, 2090, -90),
                        feature("sill", "window sill", "sill", 1220, 2680, 1020, 1040, 25),
                        feature("sockets", "double socket", "electric", 3300, 3446, 1060, 1146),
                    ],
                    "line_up": [
                        lines_up("cups-left", "right", "drawers-one", "right"),
                        lines_up("cups-right", "left", "doors-one", "left"),
                        lines_up("window-gap", "centre", "window", "centre"),
                    ],
                    "cornice": {"overhang_mm": 25},
                    "light_rail": {"overhang_mm": 0},
                },
                {
                    "id": "side-run",
                    "name": "Side run",
                    "wall": "side-wall",
                    "x_mm": 5410,
                    "y_mm": VOID_MM + DEPTH_MM,
                    "bearing_deg": 90,
                    "void_mm": VOID_MM,
                    "items": [fitted(one) for one in SIDE_RUN],
                    "services": SERVICES["side-run"],
                    "left_end": {"at": "other_fronts", "run": "window-run"},
                    "right_end": {"at": "open"},
                    "batten": {**BATTEN, "supports_mm": [150, 550, 950, 1350, 1750, 2150]},
                    "features": [
                        feature("cooker-outlet", "cooker outlet", "electric", 900, 986, 400, 486),
                        feature("yard-lining", "lining of the yard door", "lining", 2375, 2450, 0, 2080, 15),
                        feature("yard-door", "yard door", "door", 2450, 3250, 0, 2080),
                    ],
                    "line_up": [lines_up("hood-unit", "centre", "cooker-bay", "centre")],
                },
                {
                    "id": "counter",
                    "name": "Counter",
                    "wall": None,
                    "x_mm": 1500,
                    "y_mm": 2000,
                    "bearing_deg": 0,
                    "items": [fitted(one) for one in COUNTER],
                    "services": SERVICES["counter"],
                },
            ],
            "stations": [
                overhead("ceiling-one", "ceiling one", 5120, 2350, "top of the larder"),
                overhead("ceiling-two", "ceiling two", 5120, 2750, "top of the larder"),
                overhead("ceiling-three", "ceiling three", 4300, 2500, "standing the larder up"),
                overhead("ceiling-four", "ceiling four", 600, 250, "top of the left cups unit"),
                overhead("ceiling-five", "ceiling five", 3700, 250, "top of the right cups unit"),
                overhead("ceiling-six", "ceiling six", 5150, 1450, "top of the hood unit"),
            ],
        }
    ],
}

if __name__ == "__main__":
    JOB["hardware"] = [asdict(pin) for pin in pinned(load_job(JOB), shipped_rows()).hardware]
    Path(__file__).with_name("hall.json").write_text(
        json.dumps(JOB, indent=1, ensure_ascii=False) + "\n", encoding="utf-8"
    )
