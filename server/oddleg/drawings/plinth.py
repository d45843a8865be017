"""Plinth: where each piece goes, each piece as it is cut, and how the pieces lie on the stock boards."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from oddleg.job import PlinthCutKind, Point, Room
from oddleg.plan.plinth_cuts import CutOut
from oddleg.plan.plinth_line import PlinthPiece
from oddleg.plan.plinth_nesting import PlinthBoardCut, PlinthCut, PlinthNesting
from oddleg.plan.rod import Placed
from oddleg.plan.room_plinth import RoomPlinth

from .lettering import LINE_MM, SMALL_MM, Area, Page, paragraph, text_width_mm
from .primitives import Drawing, Group, Line, Mark, Polygon, Polyline, Text, rectangle
from .room_plan import GREATEST_HEIGHT_MM, PHONE_WIDTH_MM, items, shell, sight_of

# Times by which heights may be drawn larger than lengths: the greatest that keeps the cut within CUT_DEPTH_MM.
FACTORS = (1, 2, 5, 10, 20, 50, 100, 200)
CUT_DEPTH_MM = 12.0
HEAD_MM = 13.0
# Room at the top edge where notches and grilles are drawn, and their height there, which is not to scale.
CUTS_MM, NOTCH_MM, GRILLE_MM = 5.0, 3.0, 2.4
BIG_MM = 5.2
BOARD_MM = 7.0


def plinth_plan(
    room: Room,
    placed: Sequence[Placed],
    numbers: Mapping[str, int],
    plinth: RoomPlinth,
    width_mm: float = PHONE_WIDTH_MM,
) -> Drawing:
    """The room from above with a thick line for the face of each piece and the piece's number in front of it."""
    sight = sight_of(room, placed, (), width_mm, GREATEST_HEIGHT_MM)
    page = Page(width_mm, sight.height_mm)
    marks = shell(room, sight, page)
    marks += items(placed, numbers, sight, page)
    ends = {
        piece.id: (sight.at(Point(piece.x0_mm, piece.y0_mm)), sight.at(Point(piece.x1_mm, piece.y1_mm)))
        for piece in plinth.pieces
    }
    for (x1, y1), (x2, y2) in ends.values():
        left, right, top, bottom = min(x1, x2), max(x1, x2), min(y1, y2), max(y1, y2)
        page.keep_clear([Area(left - 0.6, top - 0.6, right + 0.6, bottom + 0.6)])
    for piece in plinth.pieces:
        (x1, y1), (x2, y2) = ends[piece.id]
        line: list[Mark] = [Line(x1, y1, x2, y2, "accent-heavy")]
        line += page.label((x1 + x2) / 2, (y1 + y2) / 2, 0.9, [(_tag(piece.number), True)], 3.6, "accent")
        marks.append(Group(tuple(line), "plinth", (("piece", piece.id),), f"{_tag(piece.number)}, {piece.name}"))
    words = "Thick lines: faces of the plinth pieces, P1, P2 and so on." if plinth.pieces else "No plinth piece here."
    below, height_mm = paragraph(4.0, sight.height_mm + 0.4, words, width_mm - 6.0)
    alt = " ".join([f"Plinth of {room.name} from above.", *(_piece_words(one) for one in plinth.pieces)])
    return Drawing(f"Plinth pieces, {room.name}", alt, width_mm, height_mm, (*marks, *below), sight.axes(room))


def piece_drawing(piece: PlinthPiece, plinth: RoomPlinth, width_mm: float = PHONE_WIDTH_MM) -> Drawing:
    """One piece as it is cut, face towards you and top edge up: the stock board dashed, what comes off it hatched.

    Lengths and heights have two scales; the drawing says how many times larger the heights are. The upper part of the
    board, which is not cut, is left out between the two broken ends; notches and grilles lie in it at their places
    along the piece, their heights only in words.
    """
    left_mm, right_mm, top_mm = 3.0, width_mm - 3.0, 6.5
    head_mm = HEAD_MM + (CUTS_MM if piece.cuts else 0.0)
    scale = (right_mm - left_mm) / max(piece.length.mm, 1.0)
    stock_mm = plinth.board_height.mm
    points = [(one.at.mm, one.height.mm, one.height.text, one.at.text) for one in piece.profile] or [
        (0.0, piece.left.mm, piece.left.text, "0"),
        (piece.length.mm, piece.right.mm, piece.right.text, piece.length.text),
    ]
    highest_mm = max([stock_mm, *(height for _, height, _, _ in points)])
    deep_mm = highest_mm - min(height for _, height, _, _ in points)
    factor = next((one for one in reversed(FACTORS) if deep_mm * scale * one <= CUT_DEPTH_MM), FACTORS[0])
    foot_mm = top_mm + head_mm + deep_mm * scale * factor

    def at(along_mm: float, height_mm: float) -> tuple[float, float]:
        return left_mm + along_mm * scale, foot_mm - (highest_mm - height_mm) * scale * factor

    cut = [at(along, height) for along, height, _, _ in points]
    marks: list[Mark] = [*_off(piece, cut, foot_mm), *_outline(cut, left_mm, right_mm, top_mm, head_mm)]
    marks += _cut_outs(piece, left_mm, top_mm, scale)
    marks += _dimension(left_mm, right_mm, top_mm - 1.6, piece.length.text)
    middle_mm, base_mm = (left_mm + right_mm) / 2, top_mm + head_mm - 6.4
    marks += [
        Text(left_mm + 1.6, base_mm, piece.left.text, BIG_MM, bold=True, css="figure"),
        Text(right_mm - 1.6, base_mm, piece.right.text, BIG_MM, "end", bold=True, css="figure"),
        Text(left_mm + 1.6, base_mm + LINE_MM, "left end", SMALL_MM),
        Text(right_mm - 1.6, base_mm + LINE_MM, "right end", SMALL_MM, "end"),
        Text(middle_mm, base_mm, _tag(piece.number), BIG_MM, "middle", bold=True),
    ]
    if not piece.uncut and foot_mm - top_mm - head_mm > 0.2:
        marks.append(Line(left_mm, foot_mm, right_mm, foot_mm, "dashed"))
    below_mm = foot_mm + 1.2
    if len(points) > 2:
        under, below_mm = _profile(points, left_mm, scale, cut, below_mm, width_mm)
        marks += under
    for words in _under_words(piece, plinth, factor if deep_mm * scale * factor > 0.2 else None):
        more, below_mm = paragraph(left_mm, below_mm, words, right_mm - left_mm)
        marks += more
    title = f"{_tag(piece.number)}, {piece.name}"
    return Drawing(title, _piece_words(piece, whole=True), width_mm, below_mm + 1.0, tuple(marks))


def layout_drawing(nesting: PlinthNesting, numbers: Mapping[str, int], width_mm: float = PHONE_WIDTH_MM) -> Drawing:
    """The stock boards one below another with their cuts from the left; what is left over is hatched."""
    left_mm, right_mm = 2.0, width_mm - 2.0
    scale = (right_mm - left_mm) / max(nesting.stock.mm, 1.0)
    words = f"Stock board {nesting.stock.text}, saw cut {nesting.kerf.text}. Lengths to scale, hatched: left over."
    marks, y_mm = paragraph(left_mm, 0.6, words, right_mm - left_mm)
    y_mm += 1.5
    for board in nesting.boards:
        listed = ", ".join(_cut_words(cut, numbers) for cut in board.cuts)
        head, y_mm = paragraph(left_mm, y_mm, f"Board {board.number}: {listed}", right_mm - left_mm, bold=True)
        y_mm += 0.8
        marks += head
        marks.append(_board(board, numbers, left_mm, y_mm, scale, nesting))
        y_mm += BOARD_MM
        tail, y_mm = paragraph(left_mm, y_mm + 0.9, f"left over {board.offcut.text}", right_mm - left_mm)
        marks += tail
        y_mm += 2.2
    count = len(nesting.boards)
    alt = f"{count} stock {'board' if count == 1 else 'boards'} of {nesting.stock.text}. " + " ".join(
        f"Board {one.number}: {', '.join(_cut_words(cut, numbers) for cut in one.cuts)}; left over {one.offcut.text}."
        for one in nesting.boards
    )
    alt += f" Waste {nesting.waste.text} mm, {nesting.waste_share}. {nesting.words}"
    return Drawing("Pieces on the stock boards", alt.strip(), width_mm, y_mm, tuple(marks))


def _tag(number: int) -> str:
    return f"P{number}"


def _cut_outs(piece: PlinthPiece, left_mm: float, top_mm: float, scale: float) -> list[Mark]:
    """Notches open at the top edge and grilles within the board, from the left."""
    marks: list[Mark] = []
    for cut in piece.cuts:
        x1, x2 = left_mm + cut.at.mm * scale, left_mm + (cut.at.mm + cut.width.mm) * scale
        if cut.kind is PlinthCutKind.NOTCH:
            marks.append(rectangle(x1, top_mm - 0.25, x2, top_mm + NOTCH_MM, "paper"))
            corners = ((x1, top_mm), (x1, top_mm + NOTCH_MM), (x2, top_mm + NOTCH_MM), (x2, top_mm))
            marks.append(Polyline(corners, "line"))
        else:
            y_mm = top_mm + 1.4
            marks.append(rectangle(x1, y_mm, x2, y_mm + GRILLE_MM, "item"))
            marks += [Line(x1, y_mm + GRILLE_MM * i / 3, x2, y_mm + GRILLE_MM * i / 3, "hair") for i in (1, 2)]
            up = "" if cut.up is None else f"{cut.up.text} up"
            half_mm = text_width_mm(up, SMALL_MM) / 2
            if up and x2 - x1 > 2 * half_mm + 1.0:
                marks.append(Text((x1 + x2) / 2, y_mm + GRILLE_MM, up, SMALL_MM, "middle", halo=True))
    return marks


def _outline(
    cut: Sequence[tuple[float, float]], left_mm: float, right_mm: float, top_mm: float, head_mm: float
) -> list[Mark]:
    """Straight top edge, the foot as cut, and ends that are broken where the height is left out."""
    break_mm = top_mm + head_mm - 2.2
    marks: list[Mark] = [
        Polygon(((left_mm, top_mm), (right_mm, top_mm), *reversed(cut)), "tint"),
        Line(left_mm, top_mm, right_mm, top_mm, "line"),
        Polyline(tuple(cut), "heavy"),
    ]
    for x_mm, foot in ((left_mm, cut[0][1]), (right_mm, cut[-1][1])):
        marks.append(
            Polyline(
                (
                    (x_mm, top_mm), (x_mm, break_mm - 1.0), (x_mm + 1.0, break_mm - 0.5), (x_mm - 1.0, break_mm + 0.5),
                    (x_mm, break_mm + 1.0), (x_mm, foot),
                ),
                "line",
            )
        )  # fmt: skip
    return marks


def _off(piece: PlinthPiece, cut: Sequence[tuple[float, float]], foot_mm: float, step_mm: float = 1.6) -> list[Mark]:
    """Hatching between the cut and the edge of the stock board."""
    if piece.uncut:
        return []
    marks: list[Mark] = []
    x_mm = cut[0][0] + step_mm / 2
    for (x1, y1), (x2, y2) in pairwise(cut):
        while x_mm < x2:
            y_mm = y1 + (y2 - y1) * (x_mm - x1) / max(x2 - x1, 1e-9)
            if foot_mm - y_mm > 0.15:
                marks.append(Line(x_mm, y_mm, x_mm, foot_mm, "hair"))
            x_mm += step_mm
    return marks


def _dimension(left_mm: float, right_mm: float, y_mm: float, text: str) -> list[Mark]:
    """A dimension line with its length on it."""
    half_mm, middle_mm = text_width_mm(text, 4.2, bold=True) / 2 + 1.0, (left_mm + right_mm) / 2
    return [
        Line(left_mm, y_mm, middle_mm - half_mm, y_mm, "thin"),
        Line(middle_mm + half_mm, y_mm, right_mm, y_mm, "thin"),
        Line(left_mm, y_mm - 1.2, left_mm, y_mm + 1.2, "thin"),
        Line(right_mm, y_mm - 1.2, right_mm, y_mm + 1.2, "thin"),
        Text(middle_mm, y_mm + 1.4, text, 4.2, "middle", bold=True),
    ]


def _profile(
    points: Sequence[tuple[float, float, str, str]],
    left_mm: float,
    scale: float,
    cut: Sequence[tuple[float, float]],
    top_mm: float,
    width_mm: float,
) -> tuple[list[Mark], float]:
    """Height and place under each point of the cut; where two would meet, the second stands in a row below."""
    marks: list[Mark] = []
    rows: list[float] = []
    row_mm = LINE_MM * 2 + 0.8
    for (along, _, height, place), (x_mm, y_mm) in zip(points, cut, strict=True):
        wide_mm = max(text_width_mm(height, SMALL_MM, bold=True), text_width_mm(f"at {place}", SMALL_MM))
        middle_mm = min(max(left_mm + along * scale, wide_mm / 2 + 0.5), width_mm - wide_mm / 2 - 0.5)
        row = next((i for i, end in enumerate(rows) if end + 1.2 <= middle_mm - wide_mm / 2), len(rows))
        rows[row : row + 1] = [middle_mm + wide_mm / 2]
        base_mm = top_mm + row * row_mm + SMALL_MM * 0.8
        marks += [
            Line(x_mm, y_mm, x_mm, top_mm, "hair"),
            Text(middle_mm, base_mm, height, SMALL_MM, "middle", bold=True),
            Text(middle_mm, base_mm + LINE_MM, f"at {place}", SMALL_MM, "middle"),
        ]
    return marks, top_mm + len(rows) * row_mm + 0.4


def _under_words(piece: PlinthPiece, plinth: RoomPlinth, factor: int | None) -> list[str]:
    lines = [f"Left: {piece.left_end.words}. Right: {piece.right_end.words}."]
    lines.append(_cut_of(piece, plinth.board_height.text))
    lines += [cut_out_words(cut) for cut in piece.cuts]
    if factor is not None:
        lines.append(f"Heights drawn {factor} times larger than lengths; the uncut part is shortened.")
    return lines


def cut_out_words(cut: CutOut) -> str:
    """A notch or grille as it is marked out: kind, place, size, what for."""
    up = "" if cut.up is None else f", {cut.up.text} up from the foot"
    return (
        f"{cut.words[0].upper()}{cut.words[1:]}: {cut.width.text} wide, {cut.height.text} high, at {cut.at.text}{up}."
    )


def _cut_of(piece: PlinthPiece, stock: str) -> str:
    """What is done to the board's height, in words."""
    if piece.uncut or piece.rip is None:
        return f"Board {stock} goes in uncut; up to {piece.open_above.text} stays open above it."
    along = " to the profile" if piece.profile else ""
    return f"Rip{along}, {piece.rip.text} off the {stock} board at most."


def _board(
    board: PlinthBoardCut,
    numbers: Mapping[str, int],
    left_mm: float,
    top_mm: float,
    scale: float,
    nesting: PlinthNesting,
) -> Mark:
    bottom_mm, right_mm = top_mm + BOARD_MM, left_mm + nesting.stock.mm * scale
    marks: list[Mark] = []
    end_mm = left_mm
    for cut in board.cuts:
        start_mm, end_mm = left_mm + cut.at_mm * scale, left_mm + (cut.at_mm + cut.length.mm) * scale
        marks.append(rectangle(start_mm, top_mm, end_mm, bottom_mm, "item"))
        room_mm = end_mm - start_mm - 1.0
        tag = _tag(numbers[cut.piece])
        words = next(
            (one for one in (_cut_words(cut, numbers), tag) if text_width_mm(one, SMALL_MM, True) <= room_mm), ""
        )
        if words:
            marks.append(Text((start_mm + end_mm) / 2, top_mm + BOARD_MM / 2 + 1.1, words, SMALL_MM, "middle", True))
    x_mm = end_mm + 1.2
    while x_mm < right_mm + BOARD_MM:
        # 45 degree lines, cut off at both ends of what is left over.
        low, high = max(x_mm - BOARD_MM, end_mm), min(x_mm, right_mm)
        if high > low:
            marks.append(Line(low, top_mm + (x_mm - low), high, top_mm + (x_mm - high), "hair"))
        x_mm += 1.8
    marks.append(rectangle(left_mm, top_mm, right_mm, bottom_mm, "line"))
    return Group(tuple(marks), "board-cut", title=f"board {board.number}")


def _cut_words(cut: PlinthCut, numbers: Mapping[str, int]) -> str:
    return f"{_tag(numbers[cut.piece])} {cut.length.text}"


def _piece_words(piece: PlinthPiece, whole: bool = False) -> str:
    """The piece's figures in a sentence or two, `whole` with its profile and ends."""
    words = (
        f"{_tag(piece.number)}, {piece.name}: {piece.length.text} long, "
        f"{piece.left.text} high at its left end, {piece.right.text} at its right."
    )
    if not whole:
        return words
    if piece.uncut or piece.rip is None:
        words += f" The board goes in uncut; up to {piece.open_above.text} stays open above it."
    else:
        words += f" {piece.rip.text} comes off the stock board at most."
    if piece.profile:
        words += " Cut to: " + ", ".join(f"{one.height.text} at {one.at.text}" for one in piece.profile) + "."
    words += "".join(f" {cut_out_words(cut)}" for cut in piece.cuts)
    return f"{words} Left: {piece.left_end.words}. Right: {piece.right_end.words}."


def piece_numbers(plinth: RoomPlinth) -> dict[str, int]:
    return {piece.id: piece.number for piece in plinth.pieces}
