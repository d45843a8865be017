"""Content to PDF by typst. Content travels as JSON data: no text in it is ever read as markup."""

from __future__ import annotations

import json
import threading
import unicodedata
from pathlib import Path
from typing import Any

import typst

from oddleg.drawings.lettering import FONTS

TEMPLATES = Path(__file__).parent

# A Compiler must not be shared by threads.
_own = threading.local()


def typeset(content: dict[str, Any]) -> bytes:
    """The sheet that `content` describes. No clock goes in, so the same content gives the same bytes."""
    text = unicodedata.normalize("NFC", json.dumps(content, ensure_ascii=False))
    pdf = _compiler().compile(TEMPLATES / "sheet.typ", format="pdf", sys_inputs={"sheet": text}, timestamp=0)
    assert isinstance(pdf, bytes)
    return pdf


def _compiler() -> typst.Compiler:
    """This thread's compiler, with our font and no other."""
    if not hasattr(_own, "compiler"):
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS])
        _own.compiler = typst.Compiler(TEMPLATES / "sheet.typ", root=TEMPLATES, font_paths=fonts)
    compiler: typst.Compiler = _own.compiler
    return compiler
