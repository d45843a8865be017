"""What a sheet is printed from, and the code that leads back from paper to the job."""

from __future__ import annotations

import io
from dataclasses import dataclass
from urllib.parse import quote

import segno


class UnknownSheet(KeyError):
    """No sheet of that name in the plan."""


@dataclass(frozen=True)
class SheetSource:
    """`revision` of the job; `source` as screens show it; `date`: the day of printing in words, handed in since a sheet
    reads no clock; `origin`: the server's address as phones reach it, or None: then marks are typed instead of scanned.
    """

    revision: int
    source: str
    date: str
    origin: str | None = None

    def code_svg(self, job_id: str, *place: str) -> str | None:
        """A QR code to a place in the job, without any token; None where the origin is not known."""
        if self.origin is None:
            return None
        address = "/".join(quote(part, safe="") for part in ("job", job_id, *place))
        out = io.BytesIO()
        code = segno.make(f"{self.origin.rstrip('/')}/#/{address}", error="m", micro=False)
        code.save(out, kind="svg", xmldecl=False, border=2)
        return out.getvalue().decode("ascii")
