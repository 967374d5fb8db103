"""JSON on one line: the same bytes as the standard library's encoder writes, whatever the data."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup

from guidec.model.types import Kind
from guidec.outputs.json_line import exact, json_line

FLOATS = st.floats(allow_nan=False, allow_infinity=False).map(exact)
PLAIN = st.none() | st.booleans() | st.integers() | FLOATS | st.text()
DATA = st.recursive(PLAIN, lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner), max_leaves=30)


def standard(data: Any) -> bytes:
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(", ", ": "))
    return text.encode("utf-8", "backslashreplace")


@given(DATA)
def test_the_bytes_are_those_of_the_standard_library(data: Any) -> None:
    assert json_line(data) == standard(data)


@pytest.mark.parametrize("value", [2e-06, -1e-05, 9.9e-05, 1e-4, 0.00012, 1e15, 1e16, 1e22, 1.5e300, 0.0, -0.0])
def test_a_number_near_the_ends_is_written_as_python_writes_it(value: float) -> None:
    assert json_line({"x": exact(value)}) == b'{"x": %b}' % repr(value).encode()
    assert exact(value) == value


def test_a_lone_surrogate_comes_out_with_a_backslash() -> None:
    assert json_line(["\ud800 x"]) == b'["\\ud800 x"]'


def test_words_of_other_classes_are_texts() -> None:
    assert json_line([Markup("<b>"), Kind.PART]) == b'["<b>", "part"]'


def test_what_json_cannot_hold_is_refused() -> None:
    with pytest.raises(TypeError, match="Fraction is nothing that JSON holds"):
        json_line({"x": Fraction(1, 3)})
