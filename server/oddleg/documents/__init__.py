"""Documents in and out: the job file, entry payloads, and the one grammar for typed numbers."""
