"""The lot must give the same numbers for ever: the stream is pinned, not only its fairness."""

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seeding.core.lot import LOT_VERSION, Lot


def test_the_stream_is_pinned() -> None:
    """Calculated with sha256sum: the first block of lot/1|1912|example|0."""
    lot = Lot("1912", "example")
    assert LOT_VERSION == 1
    assert [lot.below(2**64) for _ in range(4)] == [
        5185660525720951778,
        12645436304113957888,
        909609737201009909,
        17726149174787349869,
    ]


def test_a_shuffle_is_pinned() -> None:
    assert Lot("1912", "example").shuffled("ABCDE") == ["E", "B", "C", "A", "D"]


def test_purposes_are_unrelated() -> None:
    assert Lot("1", "draw").shuffled(range(20)) != Lot("1", "ties").shuffled(range(20))


def test_words_at_the_uneven_end_are_thrown_away() -> None:
    """Just above half the range, about every second word is refused, the rest stay in range."""
    n = 2**63 + 1
    lot, plain = Lot("7", "rejection"), Lot("7", "rejection")
    words = [plain.below(2**64) for _ in range(40)]
    kept = [word for word in words if word < n]
    assert 0 < len(kept) < 40
    assert [lot.below(n) for _ in kept] == kept


@pytest.mark.parametrize("n", [0, -1])
def test_a_lot_among_nobody_is_refused(n: int) -> None:
    with pytest.raises(ValueError, match="is not possible"):
        Lot("1", "x").below(n)


@given(st.text(max_size=8), st.lists(st.integers(), max_size=40))
def test_a_shuffle_keeps_every_member(seed: str, members: list[int]) -> None:
    drawn = Lot(seed, "members").shuffled(members)
    assert Counter(drawn) == Counter(members)
    assert drawn == Lot(seed, "members").shuffled(members)


def test_orders_are_even() -> None:
    counts = Counter("".join(Lot(str(i), "even").shuffled("ABC")) for i in range(3000))
    assert len(counts) == 6
    assert max(counts.values()) - min(counts.values()) < 130
