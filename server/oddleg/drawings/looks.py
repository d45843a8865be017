"""How each class of mark is drawn. Written as presentation attributes, which any style sheet overrides.

Ink is `currentColor`, so a drawing takes the text colour of the page that it stands on; tints are ink at low opacity.
`accent` and `alarm` are the only colours (contrast with white above 7:1, WCAG 2.2 success criterion 1.4.6) and never
stand alone: a word, a shape or a dash says the same. `paper` is what is behind. On a dark page set fill on `.paper`,
`.item`, `.spot` and `.spot-open`, stroke on `.halo` and `.opening` to the page's own colour, and lighter colours on
`.accent`, `.spot-read`, `.alarm` (fill) and `.accent-line`, `.accent-heavy`, `.alarm-line`, `.alarm-hair` (stroke).
"""

from __future__ import annotations

from dataclasses import dataclass

ACCENT = "#0b4a86"
ALARM = "#8f1d12"
PAPER = "#ffffff"


@dataclass(frozen=True)
class Look:
    fill: str = "none"
    stroke: str = "none"
    width_mm: float = 0.0
    dash: str = ""
    opacity: float = 1.0
    """Opacity of the fill."""


INK = "currentColor"

LOOKS = {
    "ink": Look(fill=INK),
    "accent": Look(fill=ACCENT),
    "alarm": Look(fill=ALARM),
    "quiet": Look(fill=INK),
    "figure": Look(fill=INK),
    "paper": Look(fill=PAPER),
    "hair": Look(stroke=INK, width_mm=0.15),
    "anchor-line": Look(stroke=ACCENT, width_mm=0.3, dash="3 0.8 0.5 0.8"),
    "thin": Look(stroke=INK, width_mm=0.25),
    "dashed": Look(stroke=INK, width_mm=0.25, dash="1.2 0.8"),
    "tile-end": Look(stroke=INK, width_mm=0.25, dash="4 1 0.5 1"),
    "dotted": Look(stroke=INK, width_mm=0.3, dash="0.3 0.9"),
    "line": Look(stroke=INK, width_mm=0.4),
    "heavy": Look(stroke=INK, width_mm=0.9),
    "front-edge": Look(stroke=INK, width_mm=1.8),
    "wall": Look(stroke=INK, width_mm=1.1),
    "contour": Look(stroke=INK, width_mm=0.2),
    "opening": Look(stroke=PAPER, width_mm=1.4),
    "floor-of-room": Look(fill=INK, opacity=0.04),
    "item": Look(fill=PAPER, stroke=INK, width_mm=0.3),
    "packing": Look(fill=INK, stroke=INK, width_mm=0.2),
    "part": Look(fill=INK, stroke=INK, width_mm=0.2, opacity=0.14),
    "bay": Look(fill="none", stroke=INK, width_mm=0.25, dash="1.2 0.8"),
    "tint": Look(fill=INK, opacity=0.08),
    "accent-line": Look(stroke=ACCENT, width_mm=0.5),
    "accent-heavy": Look(stroke=ACCENT, width_mm=1.2),
    "alarm-line": Look(stroke=ALARM, width_mm=0.5),
    "alarm-hair": Look(stroke=ALARM, width_mm=0.2),
    "spot": Look(fill=PAPER, stroke=INK, width_mm=0.4),
    "spot-read": Look(fill=ACCENT, stroke=ACCENT, width_mm=0.4),
    "spot-open": Look(fill=PAPER, stroke=ALARM, width_mm=0.4, dash="0.9 0.6"),
    "hit": Look(fill=INK, opacity=0.0),
}
