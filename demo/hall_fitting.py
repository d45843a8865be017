"""What the units of demo/hall.json are fitted out with, and the services behind them. All of it made up.

Rows of charts are those that ship with the program, which are invented too: real hardware is drilled by its own sheet.
"""

RECESSED = {"back_recess_mm": 20}


def drawer(id, name, height_mm=None, share=None, runner="runner-500"):
    return {"id": id, "name": name, "front": "drawer", "height_mm": height_mm, "share": share, "runner": runner}


def door(id, name, hung, height_mm=None, hinge="hinge-110", plate="plate-2", **more):
    return {"id": id, "name": name, "hung": hung, "height_mm": height_mm, "hinge": hinge, "plate": plate, **more}


def space(id, name, height_mm):
    return {"id": id, "name": name, "front": "space", "height_mm": height_mm}


def shelf(id, name, up_mm, **more):
    return {"id": id, "name": name, "up_mm": up_mm, **({"pins": "pin-5"} | more)}


def fixed(id, name, up_mm):
    return {"id": id, "name": name, "up_mm": up_mm, "fixed": True}


def inner_drawer(id, name, up_mm):
    return {"id": id, "name": name, "up_mm": up_mm, "height_mm": 180, "runner": "runner-500", "spacer_mm": 22}


def part(id, *members, name="inside", snap=False, **more):
    stack = {"members": list(members), "snap": snap} if members else None
    return {"id": id, "name": name, "stack": stack, **more}


def standing(*parts, **more):
    return {"compartments": list(parts), "leg": "leg-150", "connector": "connector-5", **more}


def hanging(*parts, **more):
    return {"compartments": list(parts), "bracket": "bracket-70", "connector": "connector-5", **more}


BOWL = {
    "id": "bowl",
    "name": "bowl",
    "seat": "in_top",
    "least_height_mm": 200,
    "greatest_width_mm": 560,
    "drop_mm": 190,
    "air_gap_mm": 0,
    "cooks": False,
}
HOB = {
    "id": "hob",
    "name": "two-ring hob",
    "seat": "in_top",
    "least_height_mm": 52,
    "greatest_width_mm": 300,
    "drop_mm": 52,
    "air_gap_mm": 20,
    "at_mm": 300,
}
OVEN = {
    "id": "oven",
    "name": "compact oven",
    "seat": "in_carcass",
    "least_height_mm": 450,
    "greatest_height_mm": 455,
    "least_width_mm": 560,
    "least_depth_mm": 550,
    "built_in": True,
}
FRIDGE_VENT = {"by": "grille", "area_cm2": 200, "source": "the fridge's sheet (invented)"}
HOOD_VENT = {"by": "duct", "bore_mm": 150, "service": "hood-duct", "source": "the hood's sheet (invented)"}
# Up to its relief height the machine stands back, and there is room for the socket and the hoses.
LAUNDRY_RELIEF = {"relief_height_mm": 400, "relief_depth_mm": 60}

# By id of the unit: what is added to it.
FITTED = {
    "drawers-one": {
        "fitting_out": standing(
            part(
                "drawers-one-all",
                *(
                    drawer(f"drawers-one-{k}", f"{which} drawer")
                    for k, which in enumerate(("top", "second", "third", "bottom"), 1)
                ),
            )
        )
    },
    "sink": {
        "box": {"top": "rails"},
        "appliances": [BOWL],
        "fitting_out": standing(part("sink-all", door("sink-doors", "doors", "pair"))),
    },
    "doors-one": {
        # The doors of 110 degrees stand into the opening when they are open, so the drawers behind them need spacers; the
        # cups stand where their plates meet no runner.
        "fitting_out": standing(
            part(
                "doors-one-all",
                door("doors-one-doors", "doors", "pair", cups_mm=[170, 570]),
                inner_drawers=[
                    inner_drawer("cups-inner-low", "lower inner drawer", 0),
                    inner_drawer("cups-inner-high", "upper inner drawer", 230),
                ],
            )
        )
    },
    "bins": {
        "fitting_out": standing(
            part("bins-all", {"id": "bins-front", "name": "bin front", "front": "pull_out", "pull_out": "bin-450"})
        )
    },
    "corner": {"fitting_out": standing(part("corner-all", shelves=[fixed("corner-shelf", "fixed shelf", 340)]))},
    "pans": {
        "fitting_out": standing(
            part(
                "pans-all",
                drawer("pans-top", "cutlery drawer", height_mm=180),
                drawer("pans-middle", "pans drawer", share=1, runner="runner-500-high"),
                drawer("pans-bottom", "deep pans drawer", share=1, runner="runner-500-high"),
                snap=True,
            )
        )
    },
    "trays": {
        "fitting_out": standing(
            part("trays-all", door("trays-door", "door", "left"), shelves=[shelf("trays-shelf", "shelf", 330)])
        )
    },
    "larder": {
        # From the bottom up: the fridge behind its door, a drawer, the oven at the height of the eyes, a cupboard.
        "fitting_out": standing(
            part(
                "larder-all",
                door("larder-top", "top door", "left"),
                space("larder-oven", "oven space", 450),
                drawer("larder-drawer", "drawer", height_mm=156),
                door("larder-fridge", "fridge door", "left", height_mm=906),
                shelves=[
                    fixed("over-fridge", "shelf over the fridge", 880),
                    fixed("under-oven", "shelf under the oven", 1032),
                    fixed("over-oven", "shelf over the oven", 1500),
                    shelf("larder-shelf", "shelf", 1830),
                ],
            )
        )
    },
    "counter-left": {
        "fitting_out": standing(
            part(
                "counter-left-a",
                door("counter-left-a-door", "left door", "left"),
                name="left half",
                shelves=[shelf("counter-left-a-shelf", "left shelf", 330)],
            ),
            part(
                "counter-left-b",
                door("counter-left-b-door", "right door", "right"),
                name="right half",
                shelves=[shelf("counter-left-b-shelf", "right shelf", 330)],
            ),
        )
    },
    "counter-right": {
        "appliances": [HOB],
        "fitting_out": standing(
            part(
                "counter-right-all",
                door("counter-right-doors", "doors", "pair"),
                shelves=[shelf("counter-right-shelf", "shelf", 330)],
            )
        ),
    },
    "cups-left": {
        "box": RECESSED,
        "fitting_out": hanging(
            part(
                "cups-left-all",
                door("cups-left-doors", "doors", "pair"),
                shelves=[
                    shelf("cups-left-shelf-1", "lower shelf", 220),
                    shelf("cups-left-shelf-2", "upper shelf", 440),
                ],
            )
        ),
    },
    "cups-right": {
        "box": RECESSED,
        "fitting_out": hanging(
            part(
                "cups-right-all",
                door("cups-right-doors", "doors", "pair"),
                shelves=[
                    shelf("cups-right-shelf-1", "lower shelf", 220),
                    shelf("cups-right-shelf-2", "upper shelf", 440),
                ],
            )
        ),
    },
    "plates": {
        "box": RECESSED,
        "fitting_out": hanging(
            part(
                "plates-a",
                door("plates-a-door", "left door", "left"),
                name="left half",
                shelves=[shelf("plates-a-shelf", "left shelf", 320)],
            ),
            part(
                "plates-b",
                door("plates-b-door", "right door", "right"),
                name="right half",
                shelves=[shelf("plates-b-shelf", "right shelf", 320)],
            ),
        ),
    },
    "shelves": {
        "box": RECESSED,
        "fitting_out": hanging(
            part(
                "shelves-all",
                shelves=[fixed("shelves-low", "lower shelf", 220), fixed("shelves-high", "upper shelf", 450)],
            )
        ),
    },
    "hood-unit": {"box": RECESSED, "fitting_out": hanging(part("hood-unit-all"))},
    "spices": {
        "box": RECESSED,
        "fitting_out": hanging(
            part(
                "spices-all",
                door("spices-door", "door", "left"),
                shelves=[shelf(f"spices-shelf-{k}", f"shelf {k}", 170 * k) for k in (1, 2, 3)],
            )
        ),
    },
}


def service(id, name, kind, x_mm, up_mm, width_mm=86, height_mm=86, **more):
    size = {"width_mm": width_mm, "height_mm": height_mm}
    return {"id": id, "name": name, "kind": kind, "x_mm": x_mm, "up_mm": up_mm, **size, **more}


def pipe(id, name, kind, x_mm, up_mm, bore_mm, **more):
    return service(id, name, kind, x_mm, up_mm, bore_mm, bore_mm, round=True, **more)


def passage(id, name, kind, from_item, to_item, diameter_mm, below_top_mm):
    ends = {"from_item": from_item, "to_item": to_item}
    place = {"diameter_mm": diameter_mm, "from_back_mm": 70, "below_top_mm": below_top_mm}
    return {"id": id, "name": name, "kind": kind, **ends, **place}


WINDOW_SERVICES = [
    pipe("bowl-waste", "waste of the bowl", "waste", 1725, 400, 50, stands_out_mm=60, serves="bowl"),
    pipe("bowl-cold", "cold to the bowl", "cold", 1880, 500, 60, stands_out_mm=50, serves="bowl"),
    pipe("bowl-hot", "hot to the bowl", "hot", 2030, 500, 60, stands_out_mm=50, serves="bowl"),
    service(
        "washer-socket", "switched socket of the dishwasher", "socket", 1600, 640, stands_out_mm=10, serves="washer"
    ),
    service("laundry-socket", "socket of the washing machine", "socket", 2780, 300, stands_out_mm=10, serves="laundry"),
    service("worktop-socket", "double socket over the worktop", "socket", 4400, 1140, 146, 86, stands_out_mm=10),
]
WINDOW_PASSAGES = [
    passage("washer-plug", "plug of the dishwasher", "socket", "washer-bay", "sink", 60, 200),
    passage("washer-supply", "supply of the dishwasher", "cold", "washer-bay", "sink", 35, 300),
    passage("washer-waste", "waste of the dishwasher", "waste", "washer-bay", "sink", 45, 400),
    passage("laundry-supply", "supply of the washing machine", "cold", "sink", "laundry-bay", 35, 300),
    passage("laundry-waste", "waste of the washing machine", "waste", "sink", "laundry-bay", 45, 400),
]
SIDE_SERVICES = [
    service("cooker-switch", "cooker switch", "switch", 1550, 1140, stands_out_mm=10, serves="cooker"),
    service(
        "oven-supply",
        "socket of the oven and the fridge",
        "socket",
        1970,
        1900,
        146,
        86,
        stands_out_mm=10,
        serves="oven",
    ),
    pipe("hood-duct", "duct of the hood", "duct", 965, 1980, 150, serves="hood", reach=False),
]
COUNTER_SERVICES = [
    {
        **service("hob-cable", "cable of the hob", "cable", 1350, None, 60, 60, serves="hob"),
        "comes_from": "floor",
        "y_mm": 120,
        "stands_out_mm": 300,
    }
]
SERVICES = {"window-run": WINDOW_SERVICES, "side-run": SIDE_SERVICES, "counter": COUNTER_SERVICES}
PASSAGES = {"window-run": WINDOW_PASSAGES}


def fitted(item):
    """The item with what it is fitted out with."""
    more = FITTED.get(item["id"], {})
    appliances = [*item.get("appliances", []), *more.get("appliances", [])]
    return {**item, **more, **({"appliances": appliances} if appliances else {})}
