"""True second and true placement: a place is challenged by who has not met its holder."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from brackets.core.formats import without_true_places
from brackets.core.graph import BoutKey, Format
from brackets.core.numbering import number
from brackets.core.progress import Status, play
from brackets.core.standing import Standing, Verdict
from tests.brackets.core.books import bracket, rules
from tests.brackets.core.wrestled import after, by_seeds, sides, status
from tests.strategies import Story, stories

SECOND = rules(true_places=[2])
ALL = rules(true_places=[2, 4, 6])


def test_no_place_is_challenged_in_a_double_elimination() -> None:
    """The unbeaten must be beaten twice: who is second has met the first; nothing is wrestled for
    the sake of a challenge of 4th (common sense, no source)."""
    rounds = {
        tuple(one.code for one in bracket(8, 4, used).rounds)
        for used in (
            rules(wrestleback="double-elimination"),
            rules(wrestleback="double-elimination", true_places=[2, 4]),
        )
    }
    assert len(rounds) == 1
    assert "5th" not in rounds.pop()


def test_by_the_seeds_third_has_not_met_second() -> None:
    # the semifinals are 1 v 4 and 2 v 3, so 2 and 3 have met there
    standing = by_seeds(bracket(8, 8, SECOND), SECOND)
    assert status(standing, "2nd-1") is Status.SPARED
    assert sides(standing, "2nd-1") == ["2", "3"]
    assert standing.places == {place: (str(place),) for place in range(1, 9)}
    assert all(state.key.round != "2nd" or not state.winner for state in standing.walked()["2"])


def upset(**last: int | None) -> Standing:
    """2 loses the final, 4 is third and has not met him."""
    given: dict[str, int | None] = {
        "QF-1": 0, "QF-2": 1, "QF-3": 0, "QF-4": 1, "SF-1": 0, "SF-2": 1,
        "C1-1": 1, "C1-2": 0, "C2-1": 1, "C2-2": 1, "3rd-1": 1, "1st-1": 0,
    }  # fmt: skip
    more = {key.replace("_", "-"): side for key, side in last.items()}
    return after(bracket(8, 8, SECOND), {**given, **more}, SECOND)


def test_who_is_third_challenges_second_when_they_have_not_met() -> None:
    standing = upset()
    assert sides(standing, "2nd-1") == ["2", "4"]
    assert status(standing, "2nd-1") is Status.READY
    assert (standing.guaranteed["2"], standing.guaranteed["4"]) == (3, 3)
    assert upset(**{"2nd_1": 1}).places[2] == ("4",)
    assert upset(**{"2nd_1": 1}).places[3] == ("2",)
    assert upset(**{"2nd_1": None}).places[3] == ("2", "4")


def test_a_challenge_that_was_wrestled_stands_though_the_two_have_met() -> None:
    """After a correction an earlier bout is wrestled again, now between these two."""
    standing = by_seeds(bracket(8, 8, SECOND), SECOND)
    two = standing.bouts[BoutKey("2nd", 1)]
    assert (two.sides, two.status) == (("2", "3"), Status.SPARED)
    for verdict, second in ((Verdict(0), "2"), (Verdict(1), "3")):
        told = {
            key: Verdict(0 if state.winner == state.sides[0] else 1)
            for key, state in standing.bouts.items()
            if state.status is Status.DECIDED
        }
        again = play(bracket(8, 8, SECOND), {**told, two.key: verdict}, SECOND)
        assert again.places[2] == (second,)


def test_after_a_final_without_a_loser_nobody_is_challenged() -> None:
    standing = by_seeds(bracket(8, 8, SECOND), SECOND, nobody=["1st-1"])
    assert status(standing, "2nd-1") is Status.SPARED
    assert (standing.places[2], standing.places[3]) == (("1", "2"), ("3",))


def test_without_a_third_second_keeps_his_place() -> None:
    standing = by_seeds(bracket(8, 8, SECOND), SECOND, nobody=["3rd-1"])
    assert (standing.places[2], standing.places[4]) == (("2",), ("3", "4"))


@pytest.mark.parametrize(
    ("places", "entrants", "expected"),
    [
        (8, 16, ["6th", "4th", "2nd"]),
        (6, 16, ["6th", "4th", "2nd"]),
        (4, 16, ["4th", "2nd"]),
        (2, 16, ["2nd"]),
        (8, 4, []),
        (8, 3, []),
    ],
)
def test_only_where_both_bouts_are_there(places: int, entrants: int, expected: list[str]) -> None:
    built = bracket(entrants, places, ALL)
    found = [one.code for one in built.rounds if one.needed]
    assert found == expected
    assert built.places == min(places, entrants)


def test_its_number_comes_after_all_finals() -> None:
    numbers = number([(name, bracket(33, 8, SECOND)) for name in "ab"])
    assert [numbers[name, BoutKey("1st", 1)] for name in "ab"] == [127, 128]
    assert [numbers[name, BoutKey("2nd", 1)] for name in "ab"] == [129, 130]


laws = settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


@laws
@given(story=stories(), place=st.sampled_from([2, 4, 6]))
def test_a_challenge_is_wrestled_only_by_two_who_have_not_met(story: Story, place: int) -> None:
    key = BoutKey({2: "2nd", 4: "4th", 6: "6th"}[place], 1)
    state = story.end.bouts.get(key)
    if state is not None and all(isinstance(side, str) for side in state.sides):
        earlier = [
            other
            for other in story.end.bouts.values()
            if set(other.sides) == set(state.sides)
            and other.status is Status.DECIDED
            and story.bracket.round_of(other.key).needed is None
        ]
        assert (state.status is Status.SPARED) == bool(earlier)


@laws
@given(story=stories())
def test_the_same_weight_without_challenges(story: Story) -> None:
    if story.bracket.format is not Format.ELIMINATION:
        return
    plain = without_true_places(story.bracket, story.rules)
    assert plain.places == story.bracket.places
    assert plain.lines == story.bracket.lines
    assert not [one for one in plain.rounds if one.code in ("2nd", "4th", "6th")]
    assert set(plain.sources) <= set(story.bracket.sources)
