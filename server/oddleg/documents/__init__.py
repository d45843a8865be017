"""Documents in and out: the job file, entry payloads, and the one grammar for typed numbers."""

from .job_file import dump_job, job_text, load_job
from .job_schema import job_schema
from .payload import PayloadError, parsed_entry, read_payload
from .strict_json import DocumentError, parse_json

__all__ = [
    "DocumentError",
    "PayloadError",
    "dump_job",
    "job_schema",
    "job_text",
    "load_job",
    "parse_json",
    "parsed_entry",
    "read_payload",
]
