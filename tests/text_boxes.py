"""Where the texts of a drawing stand on paper, from the font's own widths."""

from oddleg.drawings.lettering import CAP_HEIGHT, text_width_mm


def text_box(one):
    """Left, top, right, bottom of an SVG text in mm: as wide as its letters, as high as its capitals."""
    size_mm, x_mm, y_mm = (float(one.get(name)) for name in ("font-size", "x", "y"))
    width_mm = text_width_mm(one.text, size_mm, one.get("font-weight") == "700")
    before_mm = {"start": 0.0, "middle": width_mm / 2, "end": width_mm}[one.get("text-anchor", "start")]
    if one.get("transform"):
        # Turned a quarter to the left about its own place: what was to the left lies below.
        assert one.get("transform") == f"rotate(-90 {one.get('x')} {one.get('y')})"
        return x_mm - CAP_HEIGHT * size_mm, y_mm - (width_mm - before_mm), x_mm, y_mm + before_mm
    return x_mm - before_mm, y_mm - CAP_HEIGHT * size_mm, x_mm - before_mm + width_mm, y_mm
