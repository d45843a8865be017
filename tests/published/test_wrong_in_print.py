"""A worked book that books a rise as a fall (civinnovate.com): a negative test.

Start 100, back 1.855, then 2.410, 1.280, fore 0.995, back 2.165, fore 1.720.
"""

import pytest
from level_book import Book, levels_m

ROWS = [
    {"point": "start", "back": 1.855, "intermediate": "", "fore": ""},
    {"point": "a", "back": "", "intermediate": 2.410, "fore": ""},
    {"point": "b", "back": "", "intermediate": 1.280, "fore": ""},
    {"point": "turn", "back": 2.165, "intermediate": "", "fore": 0.995},
    {"point": "last", "back": "", "intermediate": "", "fore": 1.720},
]


def test_the_last_move_is_a_rise():
    found = levels_m(Book(ROWS, 100.0).levels())
    assert found["turn"] == pytest.approx(100 + 1.855 - 0.995)
    assert found["last"] == pytest.approx(101.305)
    as_printed = found["turn"] - (2.165 - 1.720)
    assert abs(found["last"] - as_printed) == pytest.approx(2 * 0.445)
