"""What the fitter found of the services of demo/hall.json once the trades had been, and what is drilled. All made up."""

from hall_walls import mm

# By id: middle from the run's zero, middle from the datum line (below it is negative), how far it stands out.
FOUND = {
    "bowl-waste": (1738.0, -468.5, 62.0),
    "bowl-cold": (1880.5, -371.0, 48.0),
    "bowl-hot": (2032.0, -372.5, 48.0),
    "washer-socket": (1606.0, -236.0, 9.0),
}


def find_services(survey, run):
    """Those behind the sink base, measured from the zero mark and from the datum line."""
    for service in run.services:
        if service.id not in FOUND:
            continue
        x_mm, up_mm, out_mm = FOUND[service.id]
        sizes = {"width": mm(service.width_mm), "height": mm(service.height_mm), "stands_out": mm(out_mm)}
        data = {"run": run.id, "name": service.name, "what": str(service.kind), "comes_from": "wall", **sizes}
        place = {"x": mm(x_mm), "up": mm(up_mm), "y": None, "up_from": "datum"}
        said = {"round": service.round, "live": None, "reach": service.reach}
        survey.add("service", service.id, {**data, **place, **said})


def drill(survey, part, panel, count):
    """The first holes of a panel, drilled where its part says."""
    holes = next(one for one in part["panels"] if one["id"] == panel)["holes"]
    for hole in holes[:count]:
        data = {"panel": panel, "hole": hole["id"], "u": hole["u"]["text"], "v": hole["v"]["text"]}
        survey.add("drilled", part["id"], data, mark=part["mark"])
