"""What carcasses of odd jobs are fitted out with, and services of odd runs: rows that do not fit or that no chart has, fronts
that do not fill, services where nothing is. `odd_jobs` puts them into its jobs."""

from hypothesis import strategies as st

from oddleg.charts import shipped_rows
from oddleg.job import Bracket, Connector, Hinge, Leg, Pin, Plate, PullOut, Runner

KINDS = ("socket", "switch", "cable", "waste", "cold", "hot", "gas", "duct")


def one_of(*values):
    return st.sampled_from(values)


def perhaps(of, often=1):
    return st.one_of(st.none(), *[of] * often)


def mm(least, greatest, *usual):
    """Mostly usual ones, else anything allowed, the limits among it."""
    anything = st.integers(int(least * 4), int(greatest * 4)).map(lambda quarters: quarters / 4)
    return st.one_of(*([st.sampled_from(usual)] * 4 if usual else []), st.sampled_from((least, greatest)), anything)


def rows(kind):
    """Ids of rows of a kind of hardware; now and then one that no chart has."""
    ids = [row.id for row in shipped_rows() if isinstance(row, kind)]
    return st.sampled_from([*ids * 4, "row-of-nobody"])


BOX = st.one_of(
    st.just({}),
    st.fixed_dictionaries({"back_recess_mm": mm(0, 5000, 0, 30), "board_mm": mm(1, 300, 18), "back_mm": mm(0, 300, 8), "bottom": one_of("between_sides", "under_sides"),
                           "top": one_of("panel", "rails"), "rail_mm": mm(1, 20000, 100), "back": one_of("between", "on")}),
    st.fixed_dictionaries({"board_mm": mm(17, 300, 18), "back": st.just("groove"), "groove_mm": mm(1, 16, 8), "back_recess_mm": mm(0, 5000, 0, 20)}),
)  # fmt: skip


@st.composite
def members(draw, id):
    front = draw(one_of("door", "door", "drawer", "drawer", "drawer", "flap", "pull_out", "fixed", "space"))
    made = {"id": id, "name": id.replace("-", " "), "front": front}
    tall = draw(one_of("height_mm", "share", None, None))
    if tall is not None:
        made[tall] = draw(mm(1, 20000, 140, 177.75, 200, 360)) if tall == "height_mm" else draw(one_of(1, 1, 2, 0.001, 1000))
    if front == "door":
        made["hung"] = draw(one_of("left", "right", "pair"))
    if front in ("door", "flap") and draw(st.integers(0, 3)):
        made |= {"hinge": draw(rows(Hinge)), "plate": draw(rows(Plate))}
        made["cups_mm"] = draw(st.one_of(st.just([]), st.lists(mm(0, 20000, 100, 600), max_size=4, unique=True).map(sorted)))
    if front == "drawer":
        made["runner"] = draw(perhaps(rows(Runner), 3))
    if front == "pull_out":
        made["pull_out"] = draw(perhaps(rows(PullOut), 3))
    return made


@st.composite
def stacks(draw, id):
    return {"members": [draw(members(f"{id}-m{k}")) for k in range(draw(one_of(0, 1, 1, 2, 3, 4)))], "gap_mm": draw(mm(0, 5000, 3)), "top_mm": draw(mm(0, 5000, 0, 3)),
            "bottom_mm": draw(mm(0, 5000, 0, 2)), "side_mm": draw(mm(0, 5000, 1.5)), "snap": draw(st.booleans())}  # fmt: skip


@st.composite
def compartments(draw, id):
    made = {"id": id, "name": id.replace("-", " "), "width_mm": draw(st.one_of(st.none(), st.none(), st.none(), mm(1, 20000, 264, 364)))}
    made["stack"] = draw(perhaps(stacks(id), 3))
    made["inner_drawers"] = [
        {"id": f"{id}-d{k}", "name": f"inner {k}", "up_mm": draw(mm(0, 20000, 0, 180, 360)), "height_mm": draw(mm(1, 20000, 160)), "runner": draw(rows(Runner)),
         "spacer_mm": draw(mm(0, 5000, 0, 22)), "set_back_mm": draw(mm(0, 5000, 0, 20))}
        for k in range(draw(one_of(0, 0, 0, 1, 2)))
    ]  # fmt: skip
    made["pull_outs"] = [{"id": f"{id}-p{k}", "name": f"bin {k}", "pull_out": draw(rows(PullOut)), "spacer_mm": draw(mm(0, 5000, 0, 20))} for k in range(draw(one_of(0, 0, 0, 1, 2)))]
    for k in range(draw(one_of(0, 0, 1, 2, 3))):
        fixed = draw(st.booleans())
        one = {"id": f"{id}-s{k}", "name": f"shelf {k}", "up_mm": draw(mm(0, 20000, 200, 350)), "fixed": fixed, "pins": None if fixed else draw(perhaps(rows(Pin), 4)),
               "spare": draw(one_of(0, 2, 2, 20)), "thickness_mm": draw(perhaps(mm(1, 300, 18))), "set_back_mm": draw(mm(0, 5000, 0, 20))}  # fmt: skip
        made.setdefault("shelves", []).append(one)
    return made


@st.composite
def fitting_out(draw, id):
    return {"compartments": [draw(compartments(f"{id}-c{k}")) for k in range(draw(one_of(0, 1, 1, 1, 2, 3)))], "divider_mm": draw(mm(1, 300, 18)),
            "grid_first_mm": draw(perhaps(mm(0, 5000, 64, 80))), "drawer_board_mm": draw(perhaps(mm(1, 300, 16))), "spacer_strip_mm": draw(mm(1, 20000, 50)),
            "leg": draw(perhaps(rows(Leg), 2)), "bracket": draw(perhaps(rows(Bracket), 2)), "connector": draw(perhaps(rows(Connector), 3))}  # fmt: skip


@st.composite
def sheets(draw, seat):
    """What the sheet of an appliance says of what it hangs, hides and breathes."""
    made = {"air_gap_mm": draw(perhaps(mm(0, 5000, 20))), "at_mm": draw(perhaps(mm(0, 5000, 0, 100)))}
    if seat == "in_top":
        made["drop_mm"] = draw(perhaps(mm(0, 5000, 52, 190), 3))
    if draw(st.integers(0, 2)) == 0:
        made |= {"relief_height_mm": draw(mm(0, 5000, 150, 400)), "relief_depth_mm": draw(mm(0, 5000, 60))}
    by = draw(one_of("grille", "chimney", "duct", None, None))
    if by is not None:
        field, value = {"grille": ("area_cm2", mm(0.25, 10000, 200)), "chimney": ("depth_mm", mm(0, 5000, 40)), "duct": ("bore_mm", mm(1, 20000, 150))}[by]
        made["vents"] = [{"by": by, field: draw(perhaps(value, 2))}]
    return made


@st.composite
def services(draw, id, served):
    floor = draw(st.integers(0, 4)) == 0
    wide = draw(mm(1, 20000, 86, 50, 150))
    round_ = draw(st.booleans())
    return {"id": id, "name": id.replace("-", " "), "kind": draw(one_of(*KINDS)), "x_mm": draw(mm(-50000, 50000, 300, 700, 1500)), "width_mm": wide,
            "height_mm": wide if round_ else draw(mm(1, 20000, 86)), "round": round_, "up_mm": None if floor else draw(perhaps(mm(-20000, 20000, 300, 450, 1100), 4)),
            "y_mm": draw(perhaps(mm(0, 5000, 100, 300), 2)) if floor else None, "comes_from": "floor" if floor else "wall",
            "up_from": draw(one_of("finished_floor", "datum", "bench_mark")), "stands_out_mm": draw(mm(0, 5000, 0, 10, 60)), "live": draw(one_of(True, False, None)),
            "serves": draw(perhaps(st.sampled_from(served))) if served else None, "reach": draw(st.booleans()), "found": draw(st.booleans())}  # fmt: skip


@st.composite
def passages(draw, id, items):
    one, other = draw(st.permutations(items))[:2]
    return {"id": id, "name": id.replace("-", " "), "kind": draw(one_of(*KINDS)), "from_item": one, "to_item": other, "diameter_mm": draw(mm(1, 20000, 35, 60)),
            "from_back_mm": draw(mm(0, 5000, 60, 100)), "below_top_mm": draw(mm(0, 5000, 200, 400))}  # fmt: skip


@st.composite
def behind_run(draw, number, items):
    """Services and passages of a run."""
    served = [item["id"] for item in items]
    served += [one["id"] for item in items for one in (*item.get("appliances", ()), *([item["appliance"]] if "appliance" in item else []))]
    made = {"services": [draw(services(f"r{number}-s{k}", served)) for k in range(draw(one_of(0, 0, 1, 2, 4)))], "passages": []}
    if len(items) > 1:
        made["passages"] = [draw(passages(f"r{number}-p{k}", [item["id"] for item in items])) for k in range(draw(one_of(0, 0, 1, 2)))]
    ducts = [one["id"] for one in made["services"] if one["kind"] == "duct"]
    for item in items:
        for sheet in (*item.get("appliances", ()), *([item["appliance"]] if "appliance" in item else [])):
            for vent in sheet.get("vents", ()):
                if vent["by"] == "duct" and ducts:
                    vent["service"] = draw(st.sampled_from(ducts))
    return made


RULES = st.fixed_dictionaries({
    "holes": st.fixed_dictionaries({"least_web_mm": mm(0, 100, 3), "least_edge_mm": mm(0, 100, 3), "least_skin_mm": mm(0, 100, 2), "shop_mm": one_of(0.1, 0.1, 0.01, 10)}),
    "cut_outs": st.fixed_dictionaries({"clearance_mm": mm(0, 200, 10), "corner_radius_mm": mm(0, 200, 10), "apart_mm": mm(0, 500, 30), "least_edge_mm": mm(0, 500, 30)}),
    "hardware": one_of([], [], [{"kind": "runner", "row": "runner-500", "sha": "0" * 16}]),
})  # fmt: skip
