"""How set-ups hang together: ways to a bench mark, what hangs on one reading, and closed ways that do not close."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import networkx as nx

from oddleg.job import BenchMark, SetUp, Tolerances

from .figure import figure
from .finding import Finding, Severity
from .repeats import by_spot
from .sightings import DIFFERENCE_STEP_MM, Sighting, counted, listed, shown_mm

# A node is (kind, id, stage); stage only for stations, since readings of two stages are no tie between each other.
Node = tuple[str, str, str]
GROUND: Node = ("ground", "", "")
_HAIR_MM = 1e-9


@dataclass(frozen=True)
class Misclosure:
    """Size of the misclosure of a closed way through the set-ups, mm, against its limit: that of all closed ways which
    comes nearest to its limit or furthest over it. None stands for it where nothing closes, which is not 0.
    """

    mm: float
    limit_mm: float
    set_ups: tuple[str, ...]
    stations: tuple[str, ...]


@dataclass(frozen=True)
class _ClosedWay:
    misclosure: Misclosure
    readings: frozenset[tuple[Node, Node]]


@dataclass(frozen=True)
class Closure:
    """`refused`: set-ups of closed ways over the limit; nothing of theirs is distributed."""

    largest: Misclosure | None
    refused: frozenset[str]
    findings: tuple[Finding, ...]


def tie_graph(sightings: Sequence[Sighting], set_ups: Mapping[str, SetUp], marks: Mapping[str, BenchMark]) -> nx.Graph:
    """Set-ups, stations, bench marks and the ground. Each edge holds `rise_mm`, from its `low` end up to the other one,
    and `count`, how many readings it rests on (0 where it is given)."""
    graph: nx.Graph = nx.Graph()
    graph.add_node(GROUND)
    for (set_up, station), spot in by_spot(sightings).items():
        node = _mark(station) if spot[0].is_mark else ("station", station, spot[0].stage.value)
        rise_mm = math.fsum(one.below_plane_mm for one in spot) / len(spot)
        graph.add_edge(node, _set_up(set_up), low=node, rise_mm=rise_mm, count=len(spot))
        line_mm = set_ups[set_up].line_level_mm
        if line_mm is not None:
            graph.add_edge(GROUND, _set_up(set_up), low=GROUND, rise_mm=line_mm, count=0)
    for id_, mark in marks.items():
        if _mark(id_) in graph:
            graph.add_edge(GROUND, _mark(id_), low=GROUND, rise_mm=mark.level_mm, count=0)
    return graph


def reached(graph: nx.Graph) -> frozenset[str]:
    """Ids of the set-ups that have a way to the ground, over bench marks or a level line."""
    return frozenset(_set_ups(nx.node_connected_component(graph, GROUND)))


def untied_findings(
    graph: nx.Graph, called: Mapping[str, str], marks: Mapping[str, BenchMark], set_aside: Iterable[str]
) -> list[Finding]:
    """A stop for each set-up without a way to a bench mark, or a single one where no bench mark was read at all."""
    lost = sorted(set(_set_ups(graph)) - reached(graph))
    first_mend = sorted(called[id_] for id_ in set_aside)
    if graph.degree(GROUND) == 0 and not first_mend:
        names = listed([mark.name for mark in marks.values()])
        if names:
            wrong = f"{names} was never read, so nothing has a level."
            cure = f"Read it from {listed([called[id_] for id_ in lost])}."
        else:
            wrong, cure = (
                "The room has no bench mark, so nothing has a level.",
                "Give the room a bench mark and read it.",
            )
        return [
            Finding(
                "levels.bench_mark_never_read",
                Severity.STOP,
                names or "the room",
                wrong,
                cure,
                "a level is a height over a bench mark",
                concerns=(*marks, *lost),
            )
        ]
    mend = f", or first mend {listed(first_mend)}" if first_mend else ""
    return [
        Finding(
            "levels.untied",
            Severity.STOP,
            called[id_],
            "This set-up has no usable reading that ties it to a bench mark, so its stations have no level.",
            "Read the bench mark from it, or two stations that another set-up has read at the same stage" + mend + ".",
            "a plane has one unknown level",
            concerns=(id_, *sorted({node[1] for node in graph[_set_up(id_)]})),
        )
        for id_ in lost
    ]


def unchecked_findings(graph: nx.Graph, called: Mapping[str, str]) -> list[Finding]:
    """A warning for whatever hangs on one tie: misread it, and all beyond is out with residuals of nought.

    A bench mark read first and last in one set-up checks itself; a station read twice in one set-up is still one tie.
    """
    ground = graph.subgraph(nx.node_connected_component(graph, GROUND)).copy()
    hanging: dict[Node, set[str]] = defaultdict(set)
    for upper, lower in sorted(tuple(sorted(edge, key=_rank)) for edge in nx.bridges(ground)):
        spot = lower if upper[0] == "set_up" else upper
        if upper[0] != "set_up" or (spot[0] == "station" and ground.degree(spot) == 1):
            continue
        if spot[0] == "mark" and ground.edges[upper, lower]["count"] > 1:
            continue
        ground.remove_edge(upper, lower)
        beyond = set(_set_ups(ground)) - set(_set_ups(nx.node_connected_component(ground, GROUND)))
        ground.add_edge(upper, lower, **graph.edges[upper, lower])
        if beyond:
            hanging[(*upper[:2], "line") if spot == GROUND else spot] |= beyond
    return [_unchecked(spot, sorted(beyond), called) for spot, beyond in sorted(hanging.items())]


@dataclass(frozen=True)
class Unclosed:
    """A set-up that nothing closes. `holder`: the bench mark or station that alone ties it to a level; `resting`: the
    stations that have a level through it only, those of set-ups that hang on it included."""

    set_up: str
    holder: str
    resting: tuple[str, ...]


def unclosed_set_ups(graph: nx.Graph, sightings: Sequence[Sighting]) -> tuple[Unclosed, ...]:
    """Set-ups in which a knock would go unseen: no closed way leads over what they hang on, and that was not read again
    at the end. A line on a wall is not knocked. `graph`: of these sightings, each with a way to the ground."""
    bridges = {_edge(*edge) for edge in nx.bridges(graph)}
    holders = dict(nx.bfs_predecessors(graph, GROUND, sort_neighbors=sorted))
    found = []
    for node in sorted(node for node in graph if node[0] == "set_up"):
        holder = holders[node]
        if holder == GROUND or _edge(node, holder) not in bridges:
            continue
        taken = [one for one in sightings if one.set_up == node[1]]
        last = max(taken, key=lambda one: (one.position, one.uid))
        if last.station == holder[1] and graph.edges[node, holder]["count"] > 1:
            continue
        rest = nx.restricted_view(graph, [node], [])
        kept = nx.node_connected_component(rest, GROUND)
        resting = {other[1] for other in graph if other[0] == "station" and other not in kept}
        if resting:
            found.append(Unclosed(node[1], holder[1], tuple(sorted(resting))))
    return tuple(found)


def _unchecked(spot: Node, beyond: Sequence[str], called: Mapping[str, str]) -> Finding:
    set_ups = listed([called[id_] for id_ in beyond])
    name = called[spot[1]]
    if spot[2] == "line":
        rule, wrong = "levels.line_unchecked", f"{name} was never checked: what is read from it is as good as the line."
        cure = "Read the bench mark from it once."
    elif spot[0] == "mark":
        rule, wrong = "levels.bench_mark_once", f"One reading of {name} holds all of {set_ups}: unchecked."
        cure = f"Read {name} again before the laser is moved."
    else:
        rule, wrong = "levels.unchecked", f"One tie, {name}, holds all of {set_ups}: unchecked, however well it fits."
        cure = "Read a second shared station, or the bench mark at the end."
    return Finding(
        rule,
        Severity.WARN,
        set_ups,
        wrong,
        cure,
        "two readings that agree by themselves show nothing",
        concerns=tuple(dict.fromkeys((*beyond, spot[1]))),
    )


def closure(graph: nx.Graph, called: Mapping[str, str], tolerances: Tolerances) -> Closure:
    """Every fundamental closed way against `misclosure_mm` times the root of its set-ups."""
    ways = _closed_ways(graph, tolerances.misclosure_mm)
    bad = [way for way in ways if _is_over(way.misclosure)]
    good = [way for way in ways if not _is_over(way.misclosure)]
    together: nx.Graph = nx.Graph()
    for way in bad:
        nx.add_path(together, way.misclosure.set_ups)
    findings = []
    for cluster in sorted(sorted(part) for part in nx.connected_components(together)):
        findings.append(
            _does_not_close([way for way in bad if way.misclosure.set_ups[0] in cluster], good, cluster, called)
        )
    largest = max((way.misclosure for way in ways), key=_share_of_limit, default=None)
    return Closure(largest, frozenset(together), tuple(findings))


def _share_of_limit(misclosure: Misclosure) -> float:
    return misclosure.mm / misclosure.limit_mm if misclosure.limit_mm else math.inf


def _is_over(misclosure: Misclosure) -> bool:
    return misclosure.mm > misclosure.limit_mm + _HAIR_MM


def _closed_ways(graph: nx.Graph, limit_mm: float) -> list[_ClosedWay]:
    """One way for each edge outside the tree of shortest ways from the ground, whatever the order of the readings."""
    parent = dict(nx.bfs_predecessors(graph, GROUND, sort_neighbors=sorted))
    level_mm: dict[Node, float] = {GROUND: 0.0}
    for node, below in parent.items():
        level_mm[node] = level_mm[below] + _rise_mm(graph, below, node)
    ways = []
    for one, other in sorted(tuple(sorted(edge)) for edge in graph.edges):
        if one not in level_mm or parent.get(one) == other or parent.get(other) == one:
            continue
        left, right = _line_to_ground(one, parent), _line_to_ground(other, parent)
        while len(left) > 1 and len(right) > 1 and left[-2] == right[-2]:
            left.pop()
            right.pop()
        nodes = left + right[-2::-1]
        set_ups = tuple(sorted(_set_ups(nodes)))
        size_mm = abs(level_mm[one] + _rise_mm(graph, one, other) - level_mm[other])
        stations = tuple(dict.fromkeys(node[1] for node in nodes if node[0] in ("station", "mark")))
        edges = frozenset(_edge(a, b) for a, b in zip(nodes, nodes[1:] + nodes[:1], strict=True))
        ways.append(_ClosedWay(Misclosure(size_mm, limit_mm * math.sqrt(len(set_ups)), set_ups, stations), edges))
    return ways


def _does_not_close(
    bad: Sequence[_ClosedWay], good: Sequence[_ClosedWay], cluster: Sequence[str], called: Mapping[str, str]
) -> Finding:
    """A reading in every bad way and in no good one is suspect; if all suspects are of one station, it is named."""
    worst = max((way.misclosure for way in bad), key=_share_of_limit)
    suspects = frozenset.intersection(*(way.readings for way in bad)).difference(*(way.readings for way in good))
    spots = {node[1] for edge in suspects for node in edge if node[0] in ("station", "mark") and GROUND not in edge}
    if len(spots) == 1:
        (spot,) = spots
        wrong = f" Every closed way that is out goes over {called[spot]}."
        cure = f"Read {called[spot]} again from {listed([called[id_] for id_ in cluster])}, and undo what was wrong."
    else:
        spot, wrong = "", ""
        cure = f"Read again, and undo what was wrong: {listed([called[id_] for id_ in worst.stations])}."
    return Finding(
        "levels.misclosure",
        Severity.STOP,
        listed([called[id_] for id_ in cluster]),
        f"A closed way through {counted(len(worst.set_ups), 'set-up')} is out by {shown_mm(worst.mm)}, more than "
        f"{shown_mm(worst.limit_mm)}. Nothing is shared out: these set-ups give no levels.{wrong}",
        cure,
        "the job's misclosure times the root of the number of set-ups, a rule of thumb",
        figure(worst.mm, DIFFERENCE_STEP_MM),
        (*cluster, *([spot] if spot else worst.stations)),
    )


def _rise_mm(graph: nx.Graph, start: Node, end: Node) -> float:
    edge = graph.edges[start, end]
    rise_mm: float = edge["rise_mm"]
    return rise_mm if edge["low"] == start else -rise_mm


def _line_to_ground(node: Node, parent: Mapping[Node, Node]) -> list[Node]:
    line = [node]
    while line[-1] in parent:
        line.append(parent[line[-1]])
    return line


def _edge(one: Node, other: Node) -> tuple[Node, Node]:
    return (one, other) if one < other else (other, one)


def _rank(node: Node) -> tuple[bool, Node]:
    return node[0] != "set_up", node


def _set_up(id_: str) -> Node:
    return ("set_up", id_, "")


def _mark(id_: str) -> Node:
    return ("mark", id_, "")


def _set_ups(nodes: Iterable[Node]) -> list[str]:
    return [node[1] for node in nodes if node[0] == "set_up"]
