"""One face of a panel as it lies before you: numbered holes, cut-outs, and running dimensions from its origin.

The right side is drawn mirrored, so that left and right have the same figures (both are counted from the front edge).
"""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.plan.figure import text_mm
from oddleg.plan.fitted_out import Face
from oddleg.plan.panel_views import COUNTED_FROM, NumberedHole, PanelView, counted_from, letters
from oddleg.plan.panels_part import depth_words, groove_words
from oddleg.plan.sightings import listed

from .lettering import CAP_HEIGHT, SMALL_MM, Area, Page, paragraph, text_width_mm, wrapped
from .outlines import cut_outline
from .panel_dimensions import Places, places, rows_of, upright_dimension
from .primitives import Circle, Drawing, Group, Line, Mark, Polygon, Text, rectangle
from .room_plan import PHONE_WIDTH_MM
from .running import PITCH_MM, Stretch, Tick, dimension, dimension_height_mm

MARGIN_MM = 1.5
FRONT_STRIP_MM = 6.2
PHONE_PANEL_HEIGHT_MM = 150.0
LEAST_RADIUS_MM = 0.7
# Figures that may stand up the side of a panel however low it is.
LEAST_FIGURES = 8
# Holes in a row closer than this on paper have no room for a number each.
CLOSE_MM = 4.4
MOST_TOLD = 16
# A quarter turn as drawn here, a tenth of full size or so; a phone's pack holds every panel.
CHORDS = 10
# What it costs a number to lie on a circle or on another number, by the mm2.
HIDES_HOLE, HIDES_NUMBER = 2.5, 40.0


def panel_drawing(
    view: PanelView, step_mm: float, width_mm: float = PHONE_WIDTH_MM, greatest_height_mm: float | None = None
) -> Drawing:
    """`greatest_height_mm` of the whole drawing; None: as a phone likes it. Full circles are holes right through."""
    panel = view.panel
    across = places(view, True, _room_for(width_mm - 24.0), step_mm)
    below_mm = dimension_height_mm([Tick(0.0, text) for _, text in across.told])
    words_width_mm = width_mm - 2 * MARGIN_MM
    # Room that words may take, before it is known whether some figures are left out.
    words_mm = 1.5 + sum(len(wrapped(one, words_width_mm, SMALL_MM)) for one in _words(view, step_mm)) * SMALL_MM * 1.25
    strip_mm = FRONT_STRIP_MM if view.front_edge == "bottom" else 1.0
    over_mm = FRONT_STRIP_MM if view.front_edge == "top" else MARGIN_MM
    room_mm = PHONE_PANEL_HEIGHT_MM
    if greatest_height_mm is not None:
        room_mm = greatest_height_mm - over_mm - strip_mm - below_mm - words_mm - 2 * SMALL_MM * 1.25
    figures_mm = 2.0 + text_width_mm(text_mm(panel.height_mm, step_mm) + "0", SMALL_MM) + 5.0
    sides = {"left": MARGIN_MM, "right": MARGIN_MM}
    origin = "right" if view.mirrored else "left"
    sides[origin] = figures_mm + (FRONT_STRIP_MM if view.front_edge == origin else 1.5)
    if view.front_edge in sides and view.front_edge != origin:
        sides[view.front_edge] = FRONT_STRIP_MM
    scale = min((width_mm - sides["left"] - sides["right"]) / panel.width_mm, room_mm / panel.height_mm)
    high_mm = panel.height_mm * scale
    up = places(view, False, max(_room_for(high_mm), LEAST_FIGURES), step_mm)
    # A low board's figures stand higher than it does.
    spare_mm = max(0.0, (len(up.told) * PITCH_MM - high_mm) / 2)
    left_mm = sides["left"] + max(0.0, width_mm - sides["left"] - sides["right"] - panel.width_mm * scale) / 2
    top_mm, bottom_mm = over_mm + spare_mm, over_mm + spare_mm + high_mm
    on = _OnPaper(view, left_mm, bottom_mm, scale)
    marks: list[Mark] = [
        rectangle(left_mm, top_mm, on.right_mm, bottom_mm, "item"),
        *_front_edge(view, left_mm, top_mm, on.right_mm, bottom_mm),
        *_groove(on, top_mm, bottom_mm),
        *_cut_outs(on, step_mm),
        *_holes(on, width_mm, bottom_mm),
    ]
    x_mm = on.right_mm + sides["right"] - figures_mm if view.mirrored else left_mm - sides["left"] + figures_mm
    ats = [(one, on.y(one)) for one in (*(place for place, _ in up.told), *up.bare_mm)]
    marks += upright_dimension(up, ats, x_mm, not view.mirrored, top_mm - spare_mm, bottom_mm + spare_mm)
    foot_mm = bottom_mm + max(strip_mm, spare_mm)
    stretch = Stretch(0.0, panel.width_mm, left_mm, scale)
    ticks = [Tick(view.x_mm(place), text, place == 0) for place, text in across.told]
    high = min(width_mm - 1.0, max(on.right_mm, left_mm + PITCH_MM * len(ticks)))
    marks += dimension(stretch, foot_mm, ticks, f"from the {COUNTED_FROM[panel.kind][0]}", high)
    for bare_mm in across.bare_mm:
        line_mm = foot_mm + SMALL_MM * 1.3
        marks.append(Line(on.x(bare_mm), line_mm - 0.5, on.x(bare_mm), line_mm + 0.5, "thin"))
    at_mm = foot_mm + below_mm + 1.5
    for line in _words(view, step_mm, (across, up)):
        written, at_mm = paragraph(MARGIN_MM, at_mm, line, words_width_mm)
        marks += written
    return Drawing(f"{capital(panel.name)}: {view.words}", _alt(view, step_mm), width_mm, at_mm + 1.0, tuple(marks))


class _OnPaper:
    """Where the panel lies on the paper."""

    def __init__(self, view: PanelView, left_mm: float, bottom_mm: float, scale: float) -> None:
        self.view, self.left_mm, self.bottom_mm, self.scale = view, left_mm, bottom_mm, scale
        self.right_mm = left_mm + view.panel.width_mm * scale

    def x(self, u_mm: float) -> float:
        return self.left_mm + self.view.x_mm(u_mm) * self.scale

    def y(self, v_mm: float) -> float:
        return self.bottom_mm - v_mm * self.scale


def capital(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"


def uncapital(words: str) -> str:
    return f"{words[:1].lower()}{words[1:]}"


def _room_for(length_mm: float) -> int:
    return max(2, int(length_mm / PITCH_MM))


def _front_edge(view: PanelView, left_mm: float, top_mm: float, right_mm: float, bottom_mm: float) -> list[Mark]:
    middle_x, middle_y = (left_mm + right_mm) / 2, (top_mm + bottom_mm) / 2
    words = "front edge"
    match view.front_edge:
        case "left" | "right":
            at_mm = left_mm if view.front_edge == "left" else right_mm
            words_mm = left_mm - 1.6 if view.front_edge == "left" else right_mm + 1.4 + SMALL_MM * 0.8
            return [
                Line(at_mm, top_mm, at_mm, bottom_mm, "front-edge"),
                Text(words_mm, middle_y, words, SMALL_MM, "middle", bold=True, turned=True),
            ]
        case "bottom" | "top":
            at_mm = bottom_mm if view.front_edge == "bottom" else top_mm
            words_mm = bottom_mm + 1.4 + SMALL_MM * 0.8 if view.front_edge == "bottom" else top_mm - 1.6
            return [
                Line(left_mm, at_mm, right_mm, at_mm, "front-edge"),
                Text(middle_x, words_mm, words, SMALL_MM, "middle", bold=True),
            ]
        case _:
            return []


def _groove(on: _OnPaper, top_mm: float, bottom_mm: float) -> list[Mark]:
    """Both edges of the groove for the back, along the board; it lies in the shown face."""
    groove = on.view.panel.groove
    if groove is None or on.view.face is not Face.SHOWN:
        return []
    edges_mm = (groove.from_mm, groove.from_mm + groove.width_mm)
    if COUNTED_FROM[on.view.panel.kind][0] == "front edge":
        return [Line(on.x(mm), top_mm, on.x(mm), bottom_mm, "dashed") for mm in edges_mm]
    return [Line(on.left_mm, on.y(mm), on.right_mm, on.y(mm), "dashed") for mm in edges_mm]


def _cut_outs(on: _OnPaper, step_mm: float) -> list[Mark]:
    marks: list[Mark] = []
    for number, cut in enumerate(on.view.cut_outs):
        points = tuple((on.x(u_mm), on.y(v_mm)) for u_mm, v_mm in cut_outline(cut, CHORDS))
        size = f"{text_mm(cut.width_mm, step_mm)} × {text_mm(cut.height_mm, step_mm)}"
        if cut.round:
            size = f"Ø{text_mm(cut.width_mm, step_mm)}"
        parts: list[Mark] = [Polygon(points, "tint"), Polygon(points, "line")]
        lines = _cut_lines(
            letters(number), cut.words, size, cut.width_mm * on.scale - 1.0, cut.height_mm * on.scale - 0.6
        )
        x_mm, y_mm = on.x(cut.left_mm + cut.width_mm / 2), on.y(cut.foot_mm + cut.height_mm / 2)
        for n, line in enumerate(lines):
            base_mm = y_mm + SMALL_MM * (0.35 + 1.2 * (n - (len(lines) - 1) / 2))
            parts.append(Text(x_mm, base_mm, line, SMALL_MM, "middle", bold=n == 0, halo=True))
        marks.append(Group(tuple(parts), "cut-out", (("cut-out", cut.id),), f"{cut.words}, {size}"))
    return marks


def _cut_lines(letter: str, words: str, size: str, width_mm: float, height_mm: float) -> tuple[str, ...]:
    """Its letter in the table, and below it as much as has room in the opening: words and size, or one of them."""
    most = int(height_mm / (SMALL_MM * 1.2)) - 1
    wrapped_words = wrapped(words, width_mm, SMALL_MM)
    fits = all(text_width_mm(one, SMALL_MM) <= width_mm for one in (*wrapped_words, size))
    for more in ((*wrapped_words, size), wrapped_words, (size,)):
        if fits and len(more) <= most:
            return (letter, *more)
    return (letter,)


def _holes(on: _OnPaper, width_mm: float, bottom_mm: float) -> list[Mark]:
    """Every hole as a circle, with its number; where a row is too close, the numbers of its ends."""
    page = Page(width_mm, bottom_mm)
    page.keep_clear(_edges(on, bottom_mm))
    circles: list[Mark] = []
    for one in (*on.view.holes, *on.view.from_behind):
        x_mm, y_mm, radius_mm = on.x(one.hole.u_mm), on.y(one.hole.v_mm), _radius_mm(one, on.scale)
        page.keep_clear([Area(x_mm - radius_mm, y_mm - radius_mm, x_mm + radius_mm, y_mm + radius_mm)], HIDES_HOLE)
        css = "bay" if one in on.view.from_behind else "packing" if one.hole.depth_mm is None else "spot"
        parts = (Circle(x_mm, y_mm, radius_mm, css),)
        circles.append(Group(parts, "hole", (("hole", one.hole.id),), f"{one.number}: {one.hole.words}"))
    labels: list[Mark] = []
    for row in rows_of(on.view.holes):
        shown = row
        if len(row) > 2:
            apart = abs(row[1].hole.u_mm - row[0].hole.u_mm) + abs(row[1].hole.v_mm - row[0].hole.v_mm)
            shown = row if apart * on.scale >= CLOSE_MM else [row[0], row[-1]]
        for one in shown:
            at = on.x(one.hole.u_mm), on.y(one.hole.v_mm), _radius_mm(one, on.scale)
            written = page.label(*at, [(str(one.number), True)], SMALL_MM)
            page.keep_clear(_areas(written), HIDES_NUMBER)
            labels += written
    return [*circles, *labels]


def _areas(marks: Sequence[Mark]) -> list[Area]:
    """What the numbers among the marks cover."""
    areas = []
    for one in marks:
        if isinstance(one, Text):
            wide_mm = text_width_mm(one.text, one.size_mm, one.bold)
            left_mm = one.x_mm - {"start": 0.0, "middle": wide_mm / 2, "end": wide_mm}[one.anchor]
            areas.append(Area(left_mm, one.y_mm - one.size_mm * CAP_HEIGHT, left_mm + wide_mm, one.y_mm))
    return areas


def _edges(on: _OnPaper, bottom_mm: float) -> list[Area]:
    """What no number may lie on: the board's edges and what stands beside them."""
    top_mm = on.y(on.view.panel.height_mm)
    return [
        Area(on.left_mm - 8.0, top_mm, on.left_mm + 1.0, bottom_mm),
        Area(on.right_mm - 1.0, top_mm, on.right_mm + 8.0, bottom_mm),
        Area(on.left_mm, bottom_mm - 1.0, on.right_mm, bottom_mm + 8.0),
        Area(on.left_mm, top_mm - 8.0, on.right_mm, top_mm + 0.3),
    ]


def _radius_mm(one: NumberedHole, scale: float) -> float:
    return max(one.hole.diameter_mm / 2 * scale, LEAST_RADIUS_MM)


def _words(view: PanelView, step_mm: float, told: Sequence[Places] = ()) -> list[str]:
    across, up = counted_from(view)
    words = [f"Figures across count from the {across}, figures up from the {up}."]
    if any(one.hole.depth_mm is None for one in view.holes):
        words[0] += " Full circles: right through."
    if any(cut.round for cut in view.cut_outs):
        words[0] += " Those of a round cut-out go to its middle."
    if view.from_behind:
        words[0] += " Dashed circles come through from the other face."
    if view.panel.groove is not None and view.face is Face.SHOWN:
        words.append(f"Dashed: {uncapital(groove_words(view.panel, step_mm))}")
    bare = dict.fromkeys(one.words(step_mm) for one in told if one.bare_mm)
    return [" ".join([*words, *bare])]


def _alt(view: PanelView, step_mm: float) -> str:
    panel = view.panel
    front = f", front edge at the {view.front_edge}" if view.front_edge else ""
    size = f"{text_mm(panel.width_mm, step_mm)} by {text_mm(panel.height_mm, step_mm)}"
    told = [
        f"{one.number} at {text_mm(one.hole.u_mm, step_mm)}, {text_mm(one.hole.v_mm, step_mm)}, "
        f"{text_mm(one.hole.diameter_mm, step_mm)} across, {depth_words(one.hole, step_mm)}"
        for one in view.holes[:MOST_TOLD]
    ]
    more = f"; {len(view.holes) - MOST_TOLD} more in the table" if len(view.holes) > MOST_TOLD else ""
    words = f"{panel.name}, {view.words}{front}, {size}."
    if told:
        words += f" Holes: {'; '.join(told)}{more}."
    if view.cut_outs:
        words += f" Cut-outs: {listed([f'{letters(n)} {one.words}' for n, one in enumerate(view.cut_outs)])}."
    return words
