"""How near two words are: properties of an edit distance, and cases."""

from __future__ import annotations

from functools import cache

from hypothesis import given
from hypothesis import strategies as st

from guidec.trade.likeness import distance, fold, nearest

WORDS = st.text(alphabet="abcd", max_size=8)


def plain(one: str, other: str) -> int:
    """Optimal string alignment by its recurrence (Boytsov 2011, section 3), without a limit."""

    @cache
    def upto(i: int, j: int) -> int:
        if not i or not j:
            return i + j
        best = min(upto(i - 1, j) + 1, upto(i, j - 1) + 1, upto(i - 1, j - 1) + (one[i - 1] != other[j - 1]))
        if i > 1 and j > 1 and one[i - 1] == other[j - 2] and one[i - 2] == other[j - 1]:
            best = min(best, upto(i - 2, j - 2) + 1)
        return best

    return upto(len(one), len(other))


@given(WORDS, WORDS, st.integers(0, 8))
def test_the_distance_is_that_of_optimal_string_alignment(one: str, other: str, limit: int):
    assert distance(one, other, limit) == min(plain(one, other), limit + 1)


def test_a_swap_of_neighbours_is_one_edit():
    assert distance("lable", "label", 2) == 1


def test_the_nearest_come_first_and_far_ones_not_at_all():
    assert nearest("tourque", ["torque", "toque", "colour", "holds"]) == ("torque", "toque")
    assert nearest("zzz", ["torque", "holds"]) == ()


def test_names_fold_case_and_white_space():
    assert fold("  Front\n Housing ") == "front housing"
    assert fold("Geha\u0308use") == fold("GEHÄUSE"), "however the letters were typed"
