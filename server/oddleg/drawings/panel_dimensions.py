"""Running dimensions of a panel from its origin: which places get a figure where not all have room, and those up it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.plan.figure import text_mm
from oddleg.plan.fitted_out import HoleFor
from oddleg.plan.panel_views import NumberedHole, PanelView

from .lettering import CAP_HEIGHT, SMALL_MM, text_width_mm
from .primitives import Circle, Line, Mark, Text
from .running import LEADER_MM, PITCH_MM, kept_apart

# Lines closer than this are one line of holes; rounding of hundredths has no business on a drawing.
SAME_MM = 0.005
LEAST_ROW = 4


@dataclass(frozen=True)
class Places:
    """Places along one axis, each with its figure; those of `bare_mm` have a tick and none. `apart_mm`: how far apart
    places without a figure are, where it is the same for all."""

    told: tuple[tuple[float, str], ...]
    bare_mm: tuple[float, ...]
    apart_mm: float | None

    def words(self, step_mm: float) -> str:
        if not self.bare_mm:
            return ""
        if self.apart_mm is None:
            return "Where a line has no figure, it stands in the table."
        return f"Lines without a figure are {text_mm(self.apart_mm, step_mm)} apart."


def places(view: PanelView, across: bool, most: int, step_mm: float) -> Places:
    """Edges, holes and cut-outs along u (`across`) or v, `most` of them with a figure: first go the inner ones of even
    rows, then those of shelf pins, then every second one."""
    length_mm = view.panel.width_mm if across else view.panel.height_mm
    wanted = _distinct([0.0, length_mm, *(_at(one, across) for one in view.holes), *_cut_places(view, across)])
    if len(wanted) <= most:
        return Places(tuple((at_mm, text_mm(at_mm, step_mm)) for at_mm in wanted), (), None)
    inner, pitches = _inner(view, across)
    fixed = _distinct([0.0, length_mm, *_cut_places(view, across)])
    left = [at_mm for at_mm in wanted if not _among(at_mm, inner)]
    if len(left) > most:
        pitches = set()
        pins = [_at(one, across) for one in view.holes if one.hole.hole_for is HoleFor.PIN]
        left = [at_mm for at_mm in left if _among(at_mm, fixed) or not _among(at_mm, pins)]
    while len(left) > most:
        left = [left[0], *left[1:-1][::2], left[-1]] if len(left) > 4 else left[: most - 1] + left[-1:]
    bare = tuple(at_mm for at_mm in wanted if at_mm not in left)
    return Places(
        tuple((at_mm, text_mm(at_mm, step_mm)) for at_mm in left),
        bare,
        next(iter(pitches)) if len(pitches) == 1 else None,
    )


def rows_of(holes: Sequence[NumberedHole]) -> list[list[NumberedHole]]:
    """Holes with following numbers that serve one thing and stand in one straight row or column, evenly."""
    rows: list[list[NumberedHole]] = []
    for one in holes:
        row = rows[-1] if rows else []
        if row and _goes_on(row, one):
            row.append(one)
        else:
            rows.append([one])
    return rows


def _goes_on(row: Sequence[NumberedHole], one: NumberedHole) -> bool:
    last, hole = row[-1].hole, one.hole
    if (last.hole_for, last.of) != (hole.hole_for, hole.of):
        return False
    step = hole.u_mm - last.u_mm, hole.v_mm - last.v_mm
    if len(row) == 1:
        return min(abs(step[0]), abs(step[1])) < SAME_MM
    before = row[-2].hole
    return (
        abs(step[0] - last.u_mm + before.u_mm) < SAME_MM and abs(step[1] - last.v_mm + before.v_mm) < SAME_MM
    )  # fmt: skip


def _inner(view: PanelView, across: bool) -> tuple[list[float], set[float]]:
    """Places within even rows along this axis, ends left out, and the distances in them."""
    inner: list[float] = []
    pitches: set[float] = set()
    for row in rows_of(view.holes):
        ats = [_at(one, across) for one in row]
        if len(row) >= LEAST_ROW and abs(ats[1] - ats[0]) > SAME_MM:
            inner += ats[1:-1]
            pitches.add(round(abs(ats[1] - ats[0]), 2))
    ends = [_at(one, across) for row in rows_of(view.holes) for one in (row[0], row[-1])]
    return [at_mm for at_mm in inner if not _among(at_mm, ends)], pitches


def _at(one: NumberedHole, across: bool) -> float:
    return one.hole.u_mm if across else one.hole.v_mm


def _cut_places(view: PanelView, across: bool) -> list[float]:
    """Both edges of a cut-out; of a round one its middle, as the table has it."""
    found = []
    for cut in view.cut_outs:
        start_mm, size_mm = (cut.left_mm, cut.width_mm) if across else (cut.foot_mm, cut.height_mm)
        found += [start_mm + size_mm / 2] if cut.round else [start_mm, start_mm + size_mm]
    return found


def _distinct(values: Sequence[float]) -> list[float]:
    found: list[float] = []
    for one in sorted(values):
        if not found or one - found[-1] > SAME_MM:
            found.append(one)
    return found


def _among(at_mm: float, others: Sequence[float]) -> bool:
    return any(abs(at_mm - one) <= SAME_MM for one in others)


def upright_dimension(
    shown: Places, at: Sequence[tuple[float, float]], x_mm: float, left: bool, top_mm: float, bottom_mm: float
) -> list[Mark]:
    """A running dimension up the page at x, figures to its left or right. `at`: (place, y on paper) of every place;
    `top_mm`, `bottom_mm`: how far figures may be moved."""
    way = -1 if left else 1
    paper = dict(at)
    marks: list[Mark] = [Line(x_mm, min(paper.values()), x_mm, max(paper.values()), "thin")]
    half_mm = SMALL_MM * CAP_HEIGHT / 2
    told = sorted(shown.told, key=lambda one: paper[one[0]])
    moved = kept_apart([paper[one] for one, _ in told], PITCH_MM, top_mm + half_mm, bottom_mm - half_mm)
    for bare_mm in shown.bare_mm:
        marks.append(Line(x_mm - 0.5, paper[bare_mm], x_mm + 0.5, paper[bare_mm], "thin"))
    for (place, text), y_mm in zip(told, moved, strict=True):
        marks += [
            Line(x_mm - 0.8, paper[place], x_mm + 0.8, paper[place], "line"),
            Line(x_mm + way * 0.8, paper[place], x_mm + way * LEADER_MM, y_mm, "hair"),
            Text(x_mm + way * (LEADER_MM + 0.5), y_mm + half_mm, text, SMALL_MM, "end" if left else "start"),
        ]
        if place == 0:
            marks.append(Circle(x_mm, paper[place], 0.9, "spot"))
    return marks


def upright_width_mm(shown: Places) -> float:
    return LEADER_MM + 0.5 + max(text_width_mm(text, SMALL_MM) for _, text in shown.told) + 0.6
