"""Which program made a plan: its version and a hash over its own files, so no kept plan outlives a change."""

from __future__ import annotations

import hashlib
from functools import cache
from importlib.metadata import version
from pathlib import Path

THAT_SHAPE_A_PLAN = ("job", "plan", "charts", "drawings", "documents")


@cache
def program() -> str:
    package = Path(__file__).parent.parent
    files = [path for folder in THAT_SHAPE_A_PLAN for path in (package / folder).rglob("*") if path.is_file()]
    digest = hashlib.sha256()
    for path in sorted(files):
        if path.suffix in (".py", ".csv"):
            digest.update(path.relative_to(package).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return f"{version('oddleg')}-{digest.hexdigest()[:8]}"
