"""The part of a plan that the plinth screen and sheet show."""

from __future__ import annotations

from .part_values import Part, figure_part, finding_part
from .plinth_layout import PlinthEnd
from .plinth_line import PlinthPiece
from .room_plinth import RoomPlinth


def plinth_part(room: str, name: str, plinth: RoomPlinth) -> Part:
    nesting = plinth.nesting
    numbers = {one.id: one.number for one in plinth.pieces}
    boards = {cut.piece: one.number for one in nesting.boards for cut in one.cuts} if nesting else {}
    return {
        "room": room,
        "name": name,
        "datum": figure_part(plinth.datum),
        "board": {
            "height": figure_part(plinth.board_height),
            "thickness": figure_part(plinth.board_thickness),
            "stock": figure_part(nesting.stock if nesting else None),
            "kerf": figure_part(nesting.kerf if nesting else None),
        },
        "pieces": [{**_piece_part(one), "board": boards.get(one.id)} for one in plinth.pieces],
        "boards": []
        if nesting is None
        else [
            {
                "number": one.number,
                "cuts": [
                    {
                        "piece": cut.piece,
                        "number": numbers[cut.piece],
                        "at_mm": round(cut.at_mm, 6),
                        "length": figure_part(cut.length),
                    }
                    for cut in one.cuts
                ],
                "offcut": figure_part(one.offcut),
            }
            for one in nesting.boards
        ],
        "waste": figure_part(nesting.waste if nesting else None),
        "waste_share": nesting.waste_share if nesting else "",
        "proved": nesting.proved if nesting else True,
        "nesting_words": nesting.words if nesting else "Nothing to cut.",
        "panels": [
            {
                "item": one.item,
                "name": one.name,
                "run": one.run,
                "what": one.what,
                "top": figure_part(one.top),
                "longest": figure_part(one.longest),
                "scribe": figure_part(one.scribe),
                "edges": [{"name": name, "length": figure_part(length)} for name, length in one.edges],
                "stands_on": one.stands_on,
            }
            for one in plinth.panels
        ],
        "findings": [finding_part(one) for one in plinth.findings],
    }


def _piece_part(one: PlinthPiece) -> Part:
    return {
        "id": one.id,
        "number": one.number,
        "name": one.name,
        "run": one.run,
        "returns": one.returns,
        "length": figure_part(one.length),
        "recess": figure_part(one.recess),
        "left": figure_part(one.left),
        "right": figure_part(one.right),
        "least_gap": figure_part(one.least_gap),
        "greatest_gap": figure_part(one.greatest_gap),
        "left_end": _end_part(one.left_end),
        "right_end": _end_part(one.right_end),
        "profile": [
            {"at": figure_part(point.at), "height": figure_part(point.height), "gap": figure_part(point.gap)}
            for point in one.profile
        ],
        "uncut": one.uncut,
        "rip": figure_part(one.rip),
        "open_above": figure_part(one.open_above),
        "units": list(one.units),
        "cuts": [
            {
                "kind": cut.kind.value,
                "item": cut.item,
                "at": figure_part(cut.at),
                "width": figure_part(cut.width),
                "height": figure_part(cut.height),
                "up": figure_part(cut.up),
                "words": cut.words,
            }
            for cut in one.cuts
        ],
    }


def _end_part(end: PlinthEnd) -> Part:
    return {"kind": end.kind.value, "words": end.words}
