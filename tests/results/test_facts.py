"""Who is out of a weight, and from when on."""

import pytest

from brackets.core.sources import BoutKey
from results.core.outcomes import Kind, Outcome
from results.queries.facts import Facts, Left

FIRST, SECOND, THIRD = (BoutKey(f"RR{number}", 1) for number in (1, 2, 3))
THROWN = Outcome(Kind.DOUBLE_DISQUALIFICATION, None, misconduct=True)


@pytest.mark.parametrize(
    ("behind", "since"), [(None, None), (FIRST, FIRST), (SECOND, SECOND), (THIRD, SECOND)]
)
def test_who_left_and_was_thrown_out_is_out_from_the_earlier_on(
    behind: BoutKey | None, since: BoutKey | None
) -> None:
    known = Facts(
        order={FIRST: 0, SECOND: 1, THIRD: 2},
        outcomes={THIRD: THROWN, SECOND: THROWN},
        sides=dict.fromkeys((SECOND, THIRD), ("1", "2")),
        left=(Left("2", "injury", behind),),
        keeps=True,
    )
    assert known.out == {"1": SECOND, "2": since}
    assert known.removed == {"1", "2"}
