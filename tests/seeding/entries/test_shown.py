"""Figures and times as pages write them."""

from datetime import UTC, datetime
from decimal import Decimal

import pytest

from seeding.entries.templatetags.shown import clock, minutes, moment, points, signed


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Decimal("102.0"), "102"), (Decimal("75.5"), "75.5"), (Decimal("0.50"), "0.5"),
        (Decimal(100), "100"), (Decimal("1E+2"), "100"), (Decimal("-0.0"), "0"), (0, "0"),
        (Decimal("-1.0"), "\N{MINUS SIGN}1"), (None, ""),
    ],
)  # fmt: skip
def test_points_carry_no_idle_zeros(value: Decimal | int | None, text: str) -> None:
    assert points(value) == text


def test_signed_points_say_their_sign() -> None:
    assert signed(Decimal("1.0")) == "+1"
    assert signed(Decimal("-0.5")) == "\N{MINUS SIGN}0.5"
    assert signed(Decimal(0)) == "0"
    assert signed(None) == ""


def test_times() -> None:
    at = datetime(2025, 3, 20, 18, 3, 22, tzinfo=UTC)
    assert minutes(265) == "4:25"
    assert minutes(None) == ""
    assert clock(at, "America/New_York") == "14:03"
    assert moment(at, "Asia/Tokyo") == "2025-03-21 03:03:22"
    assert clock(None) == moment(None) == ""
