"""Everything that is kept: jobs, entries, records, people and their phones."""
