"""Writes demo/hall.json: an invented village hall's kitchen. Run it again after the job format changes.

Everything in it is made up: people, places, appliances, sizes. It is data for trying the program, no advice.
"""

import json
from pathlib import Path

LEGS = {"least_mm": 120, "greatest_mm": 180, "reserve_mm": 5}
FRONT = {"fit": "overlay", "thickness_mm": 20, "handle_projection_mm": 35, "opening_angle_deg": 110}
DEPTH_MM = 560


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


def wall_unit(id, name, width_mm, handing):
    size = {"width_mm": width_mm, "height_mm": 720, "depth_mm": 320}
    return {"made_as": "carcass", "id": id, "name": name, **size, "storey": "wall", "handing": handing, "front": FRONT}


WINDOW_RUN = [
    {
        "made_as": "filler",
        "id": "window-filler",
        "name": "filler to the left wall",
        "width_mm": 50,
        "least_mm": 30,
        "greatest_mm": 80,
    },
    base("drawers-one", "four-drawer base", 800),
    {
        "made_as": "bay",
        "id": "washer-bay",
        "name": "dishwasher bay",
        "width_mm": 600,
        "depth_mm": DEPTH_MM,
        "appliance": {
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
        },
    },
    base("sink", "sink base", 1000, "pair"),
    {
        "made_as": "bay",
        "id": "laundry-bay",
        "name": "laundry bay",
        "width_mm": 620,
        "depth_mm": DEPTH_MM,
        "appliance": {
            "id": "laundry",
            "name": "washing machine",
            "seat": "under_top",
            "least_height_mm": 865,
            "least_width_mm": 605,
            "greatest_width_mm": 620,
            "greatest_depth_mm": 600,
            "assumed": ["least_height_mm"],
        },
    },
    base("doors-one", "cups base", 800, "pair"),
    {"made_as": "post", "id": "corner-post", "name": "corner post", "width_mm": 60},
    base("corner", "corner base", 900, "left"),
    wall_unit("cups-left", "left cups unit", 800, "left"),
    {"made_as": "gap", "id": "window-gap", "name": "window", "width_mm": 2420, "storey": "wall"},
    wall_unit("cups-right", "right cups unit", 800, "right"),
]

SIDE_RUN = [
    {"made_as": "post", "id": "side-post", "name": "post at the corner", "width_mm": 60},
    base("pans", "pans base", 600, "right"),
    {
        "made_as": "bay",
        "id": "cooker-bay",
        "name": "cooker bay",
        "width_mm": 600,
        "depth_mm": DEPTH_MM,
        "appliance": {
            "id": "cooker",
            "name": "cooker",
            "seat": "beside_top",
            "least_height_mm": 890,
            "greatest_height_mm": 920,
            "least_width_mm": 595,
            "greatest_width_mm": 600,
            "greatest_depth_mm": 600,
        },
    },
    base("trays", "trays base", 400, "left"),
    {
        **base("larder", "tall larder", 600, "left"),
        "height_mm": 1970,
        "storey": "tall",
    },
    {
        "made_as": "panel",
        "id": "larder-panel",
        "name": "larder end panel",
        "thickness_mm": 18,
        "depth_mm": 580,
        "allowance_mm": 1.5,
        "storey": "tall",
        "set_on": "what_is_there",
    },
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
            "worktop": {"thickness_mm": 30, "wanted_height_mm": 910, "assumed": ["wanted_height_mm"]},
            "plinth": {"height_mm": 150, "fit_mm": 2, "thickness_mm": 16, "greatest_open_mm": 20},
            "wall_units": {"tops_in_line": True, "clear_over_top_mm": 500},
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
                    "id": "sill",
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
                    "void_mm": 15,
                    "items": WINDOW_RUN,
                },
                {
                    "id": "side-run",
                    "name": "Side run",
                    "wall": "side-wall",
                    "x_mm": 5410,
                    "y_mm": 595,
                    "bearing_deg": 90,
                    "void_mm": 15,
                    "items": SIDE_RUN,
                },
                {
                    "id": "counter",
                    "name": "Counter",
                    "wall": None,
                    "x_mm": 1500,
                    "y_mm": 2000,
                    "bearing_deg": 0,
                    "items": COUNTER,
                },
            ],
            "stations": [
                {
                    "id": "ceiling-one",
                    "name": "ceiling one",
                    "x_mm": 5120,
                    "y_mm": 2350,
                    "serves": "top of the larder",
                    "surface": "overhead",
                },
                {
                    "id": "ceiling-two",
                    "name": "ceiling two",
                    "x_mm": 5120,
                    "y_mm": 2750,
                    "serves": "top of the larder",
                    "surface": "overhead",
                },
            ],
        }
    ],
}

if __name__ == "__main__":
    Path(__file__).with_name("hall.json").write_text(
        json.dumps(JOB, indent=1, ensure_ascii=False) + "\n", encoding="utf-8"
    )
