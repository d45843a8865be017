"""Packers: whole mm from those at hand, the fewest, the thickest first."""

from itertools import combinations_with_replacement

import pytest

from oddleg.plan.packs import packed, packs_words

AT_HAND = (1.0, 2.0, 3.0, 5.0, 6.0, 10.0)


def test_packers_are_written_as_they_are_stacked():
    # Trap 34: packers are 1, 2, 3, 5, 6, 10; 7 is "5 + 2". CP
    assert packs_words(packed(7, AT_HAND)) == "5 + 2"
    assert packs_words(packed(10, AT_HAND)) == "10"
    assert packs_words(packed(0, AT_HAND)) == "none"


@pytest.mark.parametrize("whole_mm", range(1, 31))
def test_no_other_stack_of_fewer_makes_the_same(whole_mm):
    found = packed(whole_mm, AT_HAND)
    assert sum(found) == whole_mm and list(found) == sorted(found, reverse=True)
    fewer = (sum(stack) for count in range(len(found)) for stack in combinations_with_replacement(AT_HAND, count))
    assert whole_mm not in set(fewer)


def test_fewest_is_not_thickest_first():
    # 8 out of 1, 4, 5: 5 + 1 + 1 + 1 by the thickest, 4 + 4 by count. FP
    assert packed(8, (1.0, 4.0, 5.0)) == (4.0, 4.0)


def test_of_as_few_the_thin_ones_are_kept_out_whatever_the_order():
    # 8: 6 + 2 or 5 + 3; 22: 10 + 10 + 2 or 10 + 6 + 6. FP
    assert packed(8, AT_HAND) == packed(8, AT_HAND[::-1]) == (5.0, 3.0)
    assert packed(22, AT_HAND) == (10.0, 6.0, 6.0)


def test_half_packers_make_whole_mm_together():
    assert packed(5, (2.5, 10.0)) == (2.5, 2.5)


def test_what_they_cannot_make_they_do_not_make():
    assert packed(7, (5.0, 10.0)) is None
    assert packed(3, ()) is None
    assert packed(301, AT_HAND) is None


def test_nothing_is_packed_less_than_nought():
    with pytest.raises(ValueError, match="nought"):
        packed(-1, AT_HAND)
