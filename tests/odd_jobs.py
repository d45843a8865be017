"""Odd but valid jobs, and what phones send of them: sizes at their limits, runs that name each other, walls read at one
spot or from lines that nothing ties. All of it passes the door, so a plan has to come out of it."""

import json
from itertools import pairwise

from hypothesis import strategies as st
from odd_fitting import BOX, RULES, behind_run, fitting_out, mm, one_of, perhaps, sheets

from oddleg.charts import pinned, shipped_rows
from oddleg.documents import load_job
from oddleg.documents.numbers import decimal_text, parsed
from oddleg.documents.payload import PayloadError, entry_of, read_payload
from oddleg.documents.strict_json import DocumentError
from oddleg.plan.wall_stations import wall_station_id

HEIGHTS = ("floor", "batten", "worktop", "wall_units")
BEARINGS = [0, 90, 180, 270, -90, 45, 88.5, 91.3, 0.4, 137]


LEGS = st.fixed_dictionaries({
    "least_mm": one_of(60, 100, 150), "greatest_mm": one_of(180, 220), "reserve_mm": one_of(0, 5, 15),
    "inset_side_mm": mm(0, 5000, 40), "inset_front_mm": mm(0, 5000, 60), "inset_back_mm": mm(0, 5000, 40), "count": one_of(None, 4, 5, 6, 8),
})  # fmt: skip
FRONT = st.fixed_dictionaries({
    "fit": one_of("overlay", "inset", "frame"), "thickness_mm": mm(1, 300, 20), "handle_projection_mm": mm(0, 5000, 0, 35),
    "opening_angle_deg": mm(1, 270, 90, 110, 170), "frame_thickness_mm": mm(0, 300, 0, 20), "set_back_mm": mm(0, 5000, 0, 2),
    "moves": one_of("door", "drawer", "flap"), "density_kg_m3": mm(50, 5000, 750),
})  # fmt: skip
STOREY = one_of("base", "base", "base", "tall", "wall")


@st.composite
def appliances(draw, id):
    made = {"id": id, "name": "machine", "seat": draw(one_of("under_top", "beside_top", "in_carcass", "in_top", "over_top")),
            "least_height_mm": draw(mm(1, 20000, 820)), "built_in": draw(st.booleans())}  # fmt: skip
    for name, of in (("width", mm(1, 20000, 600)), ("depth", mm(1, 20000, 550, 650))):
        made[f"least_{name}_mm"], made[f"greatest_{name}_mm"] = draw(st.tuples(of, of).map(sorted)) if draw(st.booleans()) else (None, None)
    made["clear_above_mm"], made["clear_below_mm"] = draw(perhaps(mm(0, 5000, 650))), draw(perhaps(mm(0, 5000, 700)))
    return made | draw(sheets(made["seat"]))


@st.composite
def plinth_cuts(draw, width_mm):
    if draw(st.integers(0, 3)):
        return []
    left_mm = draw(mm(0, min(width_mm - 1, 4999))) if width_mm > 1 else 0
    kind = draw(one_of("notch", "grille"))
    up_mm = None if kind == "notch" else draw(perhaps(mm(0, 300, 30)))
    return [{"kind": kind, "left_mm": left_mm, "width_mm": max(1, (width_mm - left_mm) / 2), "height_mm": draw(mm(1, 300, 20, 100)), "up_mm": up_mm}]


@st.composite
def items(draw, id):
    kind = draw(one_of("carcass", "carcass", "carcass", "bay", "panel", "filler", "filler", "post", "open_unit", "gap"))
    made = {"made_as": kind, "id": id, "name": id.replace("-", " "), "storey": draw(STOREY)}
    hangs = made["storey"] == "wall"
    if kind in ("carcass", "open_unit", "panel", "post"):
        made["width_within_mm"] = draw(perhaps(mm(0, 20, 0.5)))
    width_mm = draw(mm(2, 20000, 300, 600, 800, 1200))
    if kind in ("carcass", "open_unit"):
        made |= {"width_mm": width_mm, "height_mm": draw(mm(1, 20000, 720, 2000)), "depth_mm": draw(mm(1, 20000, 320, 560))}
        made |= {"legs": None if hangs else draw(perhaps(LEGS, 3)), "plinth_recess_mm": draw(mm(0, 5000, 50)),
                 "visible_drop_mm": draw(mm(0, 500, 0)),
                 "box": draw(BOX), "fitting_out": draw(perhaps(fitting_out(id), 2))}  # fmt: skip
    if kind == "carcass":
        made |= {"front": draw(perhaps(FRONT, 2)), "handing": draw(one_of("left", "right", "pair", "none")),
                 "blind_mm": draw(one_of(0, 0, 0, min(width_mm / 2, 5000))), "plinth_cuts": draw(plinth_cuts(width_mm)),
                 "appliances": [draw(appliances(f"{id}-machine"))] if draw(st.integers(0, 3)) == 0 else []}  # fmt: skip
    elif kind == "open_unit":
        made |= {"frame_thickness_mm": draw(mm(0, 300, 0, 20)), "frame_gap_mm": draw(mm(0, 5000, 0, 2))}
    elif kind == "bay":
        made |= {"width_mm": width_mm, "depth_mm": draw(mm(1, 20000, 560)), "appliance": draw(appliances(f"{id}-machine")), "front": draw(perhaps(FRONT)),
                 "way_out_mm": draw(perhaps(mm(0, 5000, 600))), "plinth_runs_through": draw(st.booleans()), "plinth_cuts": draw(plinth_cuts(width_mm))}  # fmt: skip
    elif kind == "panel":
        made |= {"thickness_mm": draw(mm(1, 300, 18)), "depth_mm": draw(mm(1, 20000, 580)), "allowance_mm": draw(mm(0, 300, 1.5)),
                 "to_floor": draw(st.booleans()), "set_on": draw(one_of("finished_floor", "what_is_there"))}  # fmt: skip
    elif kind == "filler":
        least_mm, greatest_mm = draw(st.tuples(mm(0, 20000, 0, 20, 40), mm(0, 20000, 0, 60, 100)).map(sorted))
        made |= {"width_mm": min(max(draw(mm(0, 20000, 0, 50)), least_mm), greatest_mm), "least_mm": least_mm, "greatest_mm": greatest_mm,
                 "scribed": draw(st.booleans()), "share": draw(mm(0, 1000, 0, 1, 1, 2))}  # fmt: skip
    elif kind == "post":
        made |= {"width_mm": draw(mm(1, 20000, 65)), "to_floor": draw(st.booleans())}
    else:
        made |= {"width_mm": draw(mm(0, 20000, 0, 0, 100))}
    return made


@st.composite
def features(draw, id, span_mm):
    left_mm, right_mm = draw(st.tuples(mm(-500, span_mm + 500, -50_000), mm(-500, span_mm + 500, 50_000)).map(sorted))
    bottom_mm, top_mm = draw(one_of((None, None), (0, 2000), (-300, -300), (850, 1100), (-20000, 20000), (None, 900), (100, None)))
    return {"id": id, "name": id.replace("-", " "), "kind": draw(one_of("window", "sill", "door", "lining", "pipe", "electric", "other")),
            "left_mm": left_mm, "right_mm": right_mm, "bottom_mm": bottom_mm, "top_mm": top_mm, "stands_out_mm": draw(mm(-5000, 5000, 0, 0, 30, -90))}  # fmt: skip


@st.composite
def anchors(draw, run, hangs):
    of_row = [item["id"] for item in run["items"] if (item["storey"] == "wall") is hangs]
    carried = [one["id"] for one in run["features"]]
    on = draw(one_of("left_end", "right_end", "middle", "mark", *(["feature"] * 3 if carried else [])))
    made = {"on": on, "feature_edge": draw(one_of("left", "centre", "right"))}
    if on == "feature":
        made["feature"] = draw(st.sampled_from(carried))
    if on == "mark":
        made["x_mm"] = draw(mm(-50_000, 50_000, 0, 600, 1500, -40))
    if of_row and draw(st.booleans()):
        made |= {"item": draw(st.sampled_from(of_row)), "item_edge": draw(one_of("left", "centre", "right")), "item_offset_mm": draw(mm(-20000, 20000, 0, 0, 30))}
    return made


@st.composite
def runs(draw, number, bearing_deg, at_mm):
    id = f"run-{number}"
    run = {"id": id, "name": f"Run {number}", "x_mm": at_mm[0], "y_mm": at_mm[1], "bearing_deg": bearing_deg,
           "wall": draw(one_of("north", "north", "east", None)), "void_mm": draw(mm(0, 5000, 0, 12, 15)),
           "datum_offset_mm": draw(mm(-2000, 2000, 0, 0, -40)), "items": []}  # fmt: skip
    for place in range(draw(one_of(0, 1, 2, 3, 4, 6))):
        run["items"].append(draw(items(f"r{number}-i{place}")))
    span_mm = 4000
    run["opening_mm"] = draw(perhaps(mm(1, 20000, 2400, 3000, 4000), 2))
    run["features"] = [draw(features(f"r{number}-f{k}", span_mm)) for k in range(draw(one_of(0, 0, 1, 2, 3)))]
    for name, hangs in (("anchor", False), ("wall_anchor", True)):
        if draw(st.booleans()):
            run[name] = draw(anchors(run, hangs))
    parallel = draw(one_of(None, None, "points", "feature"))
    if parallel == "feature" and run["features"]:
        run["front_line"] = {"line": "parallel", "feature": draw(st.sampled_from([one["id"] for one in run["features"]]))}
    elif parallel:
        run["front_line"] = {"line": "parallel", "from_x_mm": draw(mm(-1000, 3999, 0, 600)), "to_x_mm": draw(mm(4000, 20000))}
    if run["wall"] is not None and draw(st.integers(0, 2)):
        run["batten"] = {"thickness_mm": draw(mm(1, 300, 20)), "height_mm": draw(mm(1, 300, 45)), "stock_mm": draw(mm(100, 20000, 2400)),
                         "spacing_mm": draw(mm(50, 5000, 600)), "end_mm": draw(mm(0, 49, 40)), "lies_in": draw(one_of("void", "recess")),
                         "supports_mm": draw(st.lists(mm(0, min(5000, run["opening_mm"] or 5000)), max_size=4, unique=True))}  # fmt: skip
    for name in ("cornice", "light_rail"):
        if draw(st.integers(0, 3)) == 0:
            run[name] = {"overhang_mm": draw(mm(0, 500, 0, 20)), "returns": draw(st.booleans())}
    run |= draw(behind_run(number, run["items"]))
    things = [one["id"] for one in (*run["items"], *run["features"])]
    if run["items"] and len(things) > 1 and draw(st.booleans()):
        run["line_up"] = [{"item": run["items"][0]["id"], "item_edge": draw(one_of("left", "centre", "right")), "on": things[-1], "on_edge": "right"}]
    return run


@st.composite
def ends(draw, of_runs):
    """Corners as a right end that meets a left one, seen from one of the runs or from both; walls and nothing elsewhere."""
    for run in of_runs:
        for end in ("left_end", "right_end"):
            run[end] = {"at": draw(one_of("open", "wall", "wall"))}
    for left, right in pairwise(of_runs):
        ours, theirs = draw(one_of(("other_backs", "other_fronts"), ("other_fronts", "other_backs"), ("other_fronts", "other_fronts"),
                                   ("other_backs", None), (None, "other_fronts"), (None, None)))  # fmt: skip
        if ours:
            left["right_end"] = {"at": ours, "run": right["id"]}
        if theirs:
            right["left_end"] = {"at": theirs, "run": left["id"]}
        if draw(st.integers(0, 3)) == 0:
            right["front_line"] = {"line": "square", "run": left["id"]}
    return of_runs


@st.composite
def documents(draw):
    """A job document that loads. Runs mostly turn a corner one after another, as walls of a room do."""
    bearing, at, of_runs = draw(one_of(0, 0, 0, 30)), (0, 0), []
    for number in range(draw(one_of(1, 1, 2, 2, 3))):
        of_runs.append(draw(runs(number, bearing, at)))
        bearing = draw(one_of(bearing + 90, bearing + 90, bearing + 90, *BEARINGS))
        at = draw(one_of((4000, 0), (4000, 0), (4000, 575), (4000, 3000), (0, 0), (-50, 700), (1_000_000, -400_000)))
    draw(ends(of_runs))
    low_mm = draw(mm(1000, 4000, 2400))
    room = {
        "id": "kitchen", "name": "Kitchen", "corner": "left of the window", "bench_marks": [{"id": "mark", "name": "cross on the sill"}],
        "walls": [{"id": id, "name": f"{id} wall", "points": [{"x_mm": x, "y_mm": y} for x, y in line]}
                  for id, line in (("north", ((0, 0), (4000, 0))), ("east", ((4000, 0), (4000, 3000))))],
        "worktop": {"thickness_mm": draw(mm(1, 300, 30)), "build_up_mm": draw(mm(0, 300, 0)), "depth_mm": draw(mm(1, 20000, 600)),
                    "stock_depths_mm": draw(one_of([600], [600, 650, 900])), "overhang_mm": draw(mm(0, 1000, 20)), "cover_mm": draw(mm(0, 300, 0, 12))},
        "wall_units": {"tops_in_line": draw(st.booleans()), "clear_over_top_mm": draw(mm(0, 5000, 500)), "rail_below_top_mm": draw(perhaps(mm(0, 5000, 40)))},
        "stations": [{"id": "over", "name": "over", "x_mm": 300, "y_mm": 300, "surface": "overhead"}], "runs": of_runs,
        "height_limits": [{"id": "ceiling", "name": "ceiling", "height_of": "tall_top", "bound": "at_most", "level_mm": low_mm}] if draw(st.booleans()) else [],
    }  # fmt: skip
    tolerances = {"wall_spacing_mm": draw(one_of(600, 600, 50, 5000)), "wall_repeat_mm": draw(one_of(2, 0, 100)), "wall_off_line_mm": draw(one_of(8, 0, 500)),
                  "scribe_mm": draw(one_of(5, 0, 100)), "unit_size_mm": draw(one_of(0.5, 0, 20)), "greatest_joint_mm": draw(one_of(0.5, 0, 20)),
                  "tape_mm": draw(one_of(1, 0, 50)), "play_mm": draw(one_of(5, 0, 100)),
                  "bay_over_mm": draw(one_of(3, 0, 100)), "plinth_bow_mm": draw(one_of(1, 0.1, 50)), "spacing_mm": draw(one_of(1200, 100, 20000))}  # fmt: skip
    return {"format": 1, "id": "hall", "title": "Hall kitchen", "place": "Upper Wend", "client": "Hall committee", "time_zone": "Europe/London",
            "base_carcass_height_mm": draw(mm(100, 2000, 720)), "lasers": [{"id": "laser", "name": "line laser"}], "instruments": [], "rooms": [room],
            **draw(RULES), "rounding_mm": draw(one_of(0.5, 1, 0.1, 10)), "tolerances": tolerances, "packs_mm": draw(one_of([1, 2, 3, 5, 6, 10], [100], [0.1], [2.5, 7]))}  # fmt: skip


def typed(value_mm):
    raw = decimal_text(parsed(repr(value_mm), "mm"))
    return {"raw": raw, "unit": "mm", "value": raw}


def payload(kind, target, data, value_mm=None, part_mark=None):
    number = dict.fromkeys(("raw", "unit", "value")) if value_mm is None else typed(value_mm)
    return {"schema": 1, "job": "hall", "kind": kind, "target": target,
            "at": {"utc": "2026-11-23T08:40:00.000Z", "offset_minutes": 0, "server_offset_ms": None, "measured_at": None},
            **number, "shown": {"expected": None, "part_mark": part_mark}, "replaces": None, "data": data}  # fmt: skip


@st.composite
def wall_payloads(draw, job, run):
    """Lines in front of one run's wall, and what was read from them: nothing, one spot, all at one x, or here and there."""
    lines = [f"{run.id}-line{k}" for k in range(draw(one_of(0, 1, 1, 2, 3)))]
    sent = []
    for line in lines:
        stands_off = draw(perhaps(mm(-20000, 20000, 0, 100)))
        square_to = draw(one_of(None, None, "run-0-line0", "line-of-nobody"))
        sent.append(payload("wall_line", line, {"name": line.replace("-", " "), "run": run.id, "square_to": None if square_to == line else square_to,
                                                "stands_off": None if stands_off is None else typed(stands_off)}))  # fmt: skip
    xs = draw(one_of((), (0,), (600,), (0, 600, 1200, 1800, 2400), (0, 1500, 3000), (-200, 0, 2000, 9000), (0, 600, 1_000_000), (700, 700.25, 1900)))
    moved_mm = draw(one_of(0, 0, 0, 40))
    for line in lines:
        for x_mm in xs:
            for height in draw(one_of(("batten",), ("floor", "batten", "worktop"), HEIGHTS, ("wall_units",), ())):
                value = draw(mm(0, 20000, 100, 98, 103, 97.5, 100)) + (moved_mm if x_mm > 700 else 0)
                place = draw(one_of(wall_station_id(run, x_mm), wall_station_id(run, x_mm), wall_station_id(run, x_mm), f"{run.id}-own", wall_station_id(run, x_mm + 5)))
                proud = draw(st.integers(0, 9)) == 0
                sent.append(payload("wall_reading", place, {"line": line, "height": height, "side": "proud" if proud else None, "name": f"spot {abs(x_mm):.0f}", "x_mm": x_mm}, min(value, 20000)))
                if proud:
                    sent[-1]["value"] = decimal_text(-parsed(sent[-1]["raw"], "mm"))
    return sent


@st.composite
def site_payloads(draw, job):
    """What phones sent of this job, in the order of its log; every one can be read."""
    room, sent = job.rooms[0], []
    for run in room.runs:
        sent += draw(wall_payloads(job, run))
        for _ in range(draw(one_of(0, 0, 1, 3))):
            sent.append(payload("opening", run.id, {"height": draw(one_of(*HEIGHTS)), "depth": draw(one_of("back", "front"))}, draw(mm(50, 50000, 2400, 3000, 3005))))
        for _ in range(draw(one_of(0, 0, 1, 3))):
            place = {"side": draw(one_of("left", "right")), "height": draw(one_of(*HEIGHTS)), "depth": draw(one_of("back", "front"))}
            sent.append(payload("end_gap", run.id, place, draw(mm(-5000, 5000, 0, 5, -8))))
        for k in range(draw(one_of(0, 0, 1))):
            left_mm, right_mm = draw(st.tuples(mm(-1_000_000, 1_000_000, 0, 1400), mm(-1_000_000, 1_000_000, 900, 2600)).map(sorted))
            out_mm = draw(perhaps(mm(-5000, 5000, 0, 30)))
            data = {"run": run.id, "name": "a window", "what": draw(one_of("window", "door", "pipe", "electric", "lining")), "left": typed(left_mm), "right": typed(right_mm),
                    "bottom": draw(one_of(None, typed(-20), typed(900))), "top": draw(one_of(None, typed(900), typed(20000))),
                    "stands_out": None if out_mm is None else typed(out_mm), "above": draw(one_of("bench_mark", "datum"))}  # fmt: skip
            sent.append(payload("feature", f"r{run.id[4:]}-f{k}", data))
        for name in draw(st.lists(one_of("zero", "end", "anchor", "gone", *(f"{item.id}-left" for item in run.items)), max_size=2)):
            sent.append(payload("marked", run.id, {"mark": name}, draw(mm(-50000, 50000, 0, 600))))
        for k in range(draw(one_of(0, 0, 1, 2))):
            wide = typed(draw(mm(1, 20000, 86)))
            floor = draw(st.booleans())
            data = {"run": run.id, "name": "a socket", "what": draw(one_of("socket", "waste", "duct")), "comes_from": "floor" if floor else "wall", "x": typed(draw(mm(-50000, 50000, 300, 700))),
                    "width": wide, "height": wide, "up": None if floor else typed(draw(mm(-20000, 20000, 450))), "y": typed(draw(mm(0, 5000, 100))) if floor else None,
                    "stands_out": typed(draw(mm(0, 5000, 10))), "up_from": draw(one_of("finished_floor", "datum", "bench_mark")), "round": draw(st.booleans()),
                    "live": draw(one_of(True, False, None)), "reach": draw(st.booleans())}  # fmt: skip
            sent.append(payload("service", f"r{run.id[4:]}-s{k}", data))
        for item in run.items[:3]:
            if draw(st.integers(0, 5)) == 0:
                hole = draw(one_of("leg-fl-1", "runner-1", "hole-of-nobody"))
                sent.append(payload("drilled", item.id, {"panel": draw(one_of("left", "left_side", "bottom")), "hole": hole, "u": "37", "v": "523"}, part_mark="a1b2c3"))
            if draw(st.integers(0, 3)) == 0:
                sent.append(payload("unit_width", item.id, {}, draw(mm(1, 20000, 600, 599.5, 600.5))))
    if len(room.runs) > 1 and draw(st.booleans()):
        a, b = draw(one_of(("run-0", "run-1"), ("run-1", "run-0")))
        along_mm, other_mm, more_mm = draw(mm(1, 50000, 3000, 600)), draw(mm(1, 50000, 4000, 800)), draw(st.integers(1, 99))
        across_mm = abs(along_mm - other_mm) + (along_mm + other_mm - abs(along_mm - other_mm)) * more_mm / 100
        across_mm = draw(one_of((along_mm**2 + other_mm**2) ** 0.5, across_mm))
        across_mm = round(min(max(1, abs(along_mm - other_mm) + 0.1, across_mm), along_mm + other_mm - 0.1), 2)
        sent.append(payload("corner_triangle", a, {"other_run": b, "along": typed(along_mm), "other_along": typed(other_mm), "across": typed(across_mm)}))
    sent += draw(floor_payloads(room))
    return draw(st.permutations(sent)) if draw(st.integers(0, 3)) == 0 else sent


@st.composite
def floor_payloads(draw, room):
    """A floor read here and there, and perhaps a datum."""
    sent = []
    if draw(st.booleans()):
        sent.append(payload("set_up", "set-up-1", {"name": "set up one", "room": "kitchen", "stage": "stripped", "laser": "laser", "instrument": None, "x_mm": 1000, "y_mm": 1000, "line": None}))
        for id, x_mm, y_mm, way, value in [("mark", 0, 0, "down", 1200), ("left", 0, 100, "down", 2080), ("right", 3900, 100, "down", 2086), ("far", 3900, 2900, "down", 2090), ("over", 300, 300, "up", 1150)]:
            if id not in ("mark", "over"):
                sent.append(payload("station", id, {"name": id, "room": "kitchen", "x_mm": x_mm, "y_mm": y_mm, "serves": "", "surface": "floor"}))
            sent.append(payload("reading", id, {"set_up": "set-up-1", "way": way, "side": None, "name": id, "x_mm": x_mm, "y_mm": y_mm}, value))
    if draw(st.booleans()):
        sent.append(payload("decision", "kitchen", {"name": "datum", "choice": "own"}, draw(mm(-3000, 3000, 0, -10, 870)), "a1b2c3"))
    return sent


def loaded(document):
    """The job; ends whose runs lie where they cannot meet, which the door refuses, are taken as walls."""
    try:
        return load_job(document)
    except DocumentError as error:
        apart = [path.split(".") for path, words in error.errors.items() if "drawn" in words[0] and path.endswith("_end.run")]
        if len(apart) < len(error.errors):
            raise ValueError(f"{error.errors} {json.dumps(document)}") from error
        for _, room, _, run, end, _ in apart:
            document["rooms"][int(room)]["runs"][int(run)][end] = {"at": "wall"}
        return load_job(document)


def jobs_with_entries():
    """(Job, entries) that a server could hold."""

    @st.composite
    def made(draw):
        job = pinned(loaded(draw(documents())), shipped_rows())
        entries = []
        for number, one in enumerate(draw(site_payloads(job)), 1):
            try:
                read = read_payload(json.dumps(one).encode())
            except PayloadError as error:
                raise AssertionError(f"{error} {one}") from None
            entries.append(entry_of(f"e{number:04}", number, "Ned", read))
        return job, tuple(entries)

    return made()
