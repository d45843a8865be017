"""Imports the program before any test imports numpy: it says how many threads linear algebra takes."""

import oddleg  # noqa: F401
