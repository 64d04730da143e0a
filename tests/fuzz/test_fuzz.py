"""A slice of the hostile conversations, the same each time; `tests/fuzz/hostile.py` says more of them by hand."""

import pytest

from tests.fuzz.hostile import found


@pytest.mark.parametrize("seed", range(0, 40, 10))
def test_no_conversation_finds_a_fault(seed: int) -> None:
    assert [fault for one in range(seed, seed + 10) for fault in found(one)] == []
