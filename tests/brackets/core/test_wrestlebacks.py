"""Who comes back, against the rule books' words."""

from collections import Counter
from collections.abc import Iterator

import networkx as nx
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from brackets.core.formats import build
from brackets.core.graph import Beaten, BoutKey, Exit, From, Section
from brackets.core.rules import Wrestleback
from brackets.core.standing import BoutState, Standing, Status
from tests.brackets.core.books import bracket, rules
from tests.brackets.core.wrestled import after, by_seeds, sides, status
from tests.strategies import Story, drawn, told

laws = settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
BACKS = [str(one) for one in Wrestleback]
EVERYONE, TO_FIFTH, WINNERS, LEADER, FINALISTS, NOBODY, DOUBLE = BACKS


@st.composite
def weights(draw: st.DrawFn, *backs: str) -> Story:
    """A weight without accidents, with one of these ways back, as many places as it gives."""
    used = rules(
        wrestleback=draw(st.sampled_from(backs)),
        thirds=draw(st.sampled_from(["wrestled", "two"])),
        pigtails_up_to=draw(st.sampled_from([0, 4])),
        always_lines=8,
    )
    entrants = draw(st.one_of(st.integers(2, 20), st.integers(2, 70)))
    return told(Story(drawn(entrants, 8, used), used), draw(st.integers(0, 2**32)))


def on_the_mat(standing: Standing) -> Iterator[BoutState]:
    return (state for state in standing.bouts.values() if state.status is Status.DECIDED)


def back(story: Story) -> set[str]:
    """Everyone who came to the consolation side."""
    built = story.bracket
    return {
        side
        for key, state in story.end.bouts.items()
        if built.round_of(key).section is Section.CONSOLATION
        for side in state.sides
        if isinstance(side, str)
    }


def beaten_by(story: Story, leaders: set[str], *but: str) -> set[str]:
    """Whom these beat on the championship side, rounds `but` left out."""
    return {
        str(state.loser)
        for state in on_the_mat(story.end)
        if story.bracket.round_of(state.key).section is Section.CHAMPIONSHIP
        and state.key.round not in but
        and state.winner in leaders
    }


def winners(story: Story, code: str) -> set[str]:
    states = story.end.bouts.values()
    return {state.winner for state in states if state.key.round == code and state.winner}


def losers(story: Story, code: str) -> set[str]:
    states = story.end.bouts.values()
    return {state.loser for state in states if state.key.round == code and state.loser}


@laws
@given(weights(WINNERS))
def test_only_whom_a_semifinalist_beat_comes_back(story: Story) -> None:
    expected = beaten_by(story, winners(story, "QF"), "1st")
    assert back(story) == expected


@laws
@given(weights(LEADER))
def test_a_loser_follows_his_leader(story: Story) -> None:
    expected = beaten_by(story, winners(story, "QF"), "SF", "1st")
    assert back(story) == expected | losers(story, "QF") | losers(story, "SF")


@laws
@given(weights(FINALISTS))
def test_only_whom_a_finalist_beat_comes_back(story: Story) -> None:
    assert back(story) == beaten_by(story, winners(story, "SF"), "1st")


@laws
@given(weights(NOBODY))
def test_nobody_comes_back_but_for_third(story: Story) -> None:
    two = story.rules.thirds == "two"
    assert back(story) == (set() if two else losers(story, "SF"))
    if two:
        assert set(story.end.places.get(3, ())) == losers(story, "SF")


@laws
@given(weights(EVERYONE, TO_FIFTH, DOUBLE))
def test_everyone_comes_back(story: Story) -> None:
    section = story.bracket.round_of
    lost = {
        str(state.loser)
        for state in on_the_mat(story.end)
        if section(state.key).section is Section.CHAMPIONSHIP and state.key.round[:3] != "1st"
    }
    assert back(story) == lost


@laws
@given(weights(TO_FIFTH))
def test_to_fifth_the_losers_of_the_semifinals_are_third_and_fourth(story: Story) -> None:
    places = {one: place for place, group in story.end.places.items() for one in group}
    assert {places[one] for one in losers(story, "SF")} <= {3, 4}
    assert {place for one, place in places.items() if one in back(story)} <= set(range(3, 9))


@laws
@given(weights(DOUBLE))
def test_two_losses_put_out_and_the_unbeaten_is_beaten_twice(story: Story) -> None:
    lost = Counter(state.loser for state in on_the_mat(story.end))
    (champion,) = story.end.places[1]
    before = {one.code for one in story.bracket.rounds if not one.placing}
    early = Counter(s.loser for s in on_the_mat(story.end) if s.key.round in before)
    final, again = (story.end.bouts[BoutKey(code, 1)] for code in ("1st", "1st2"))
    assert lost[champion] <= 1
    assert max(early.values(), default=0) <= 2
    assert (again.status is Status.DECIDED) == (final.winner == final.sides[1])
    assert all(lost[one] >= 2 for one in story.bracket.entries() if one != champion)


def test_places_to_sixteen_by_the_seeds() -> None:
    standing = by_seeds(bracket(32, 16), rules())
    assert standing.places == {place: (str(place),) for place in range(1, 17)}


def test_three_places() -> None:
    assert list(by_seeds(bracket(16, 3), rules()).places) == [1, 2, 3]


def test_a_chain_begins_with_the_earliest_loser() -> None:
    used = rules(wrestleback=FINALISTS, thirds="two")
    standing = by_seeds(bracket(16, 6, used), used, "R1", "QF", "SF")
    assert sides(standing, "C1-1") == ["16", "8"]
    assert sides(standing, "C1-2") == ["15", "7"]
    assert sides(standing, "3rd-1") == ["open", "4"]
    end = by_seeds(bracket(16, 6, used), used)
    assert end.places == {1: ("1",), 2: ("2",), 3: ("4", "3"), 5: ("8", "7")}


def test_nobody_waits_in_a_chain_for_a_bye_of_the_leader() -> None:
    used = rules(wrestleback=FINALISTS, thirds="two")
    standing = by_seeds(bracket(12, 6, used), used, "R1", "QF", "SF")
    chain = standing.bouts[BoutKey("C1", 1)]
    assert (chain.status, chain.winner, chain.drawn) == (Status.BYE, "8", True)
    upset = after(bracket(12, 6, used), {"R1-2": 1, "QF-1": 1}, used)
    assert sides(upset, "C1-1") == ["open", "open"]


def test_nobody_waits_in_a_chain_where_two_rounds_brought_nobody() -> None:
    used = rules(wrestleback=FINALISTS, thirds="two")
    field = ("1", None, "8", "9", "5", "12", "4", "13", ("3", "16"), *"abcdefg")
    built = build(field, used, 6)
    standing = after(
        built, {"R1-2": 0, "R1-3": 0, "R1-4": 0, "QF-1": 0, "QF-2": 0, "SF-1": 0}, used
    )
    assert status(standing, "C1-1") is Status.VACANT
    chain = standing.bouts[BoutKey("C2", 1)]
    assert (chain.status, chain.winner, chain.drawn) == (Status.BYE, "8", True)
    assert built.awaited(BoutKey("C2", 2), 0) == From(BoutKey("C1", 2), Exit.WINNER)


def test_byes_are_looked_through_to_a_chain() -> None:
    used = rules(wrestleback=FINALISTS, thirds="two")
    built = bracket(6, 6, used)
    assert built.awaited(BoutKey("3rd", 1), 0) == Beaten(BoutKey("SF", 1), "QF")
    built = build((("1", "9"), *"2345678"), used, 6)
    assert built.awaited(BoutKey("C1", 2), 1) == Beaten(BoutKey("SF", 2), "QF")
    assert built.awaited(BoutKey("3rd", 2), 0) == Beaten(BoutKey("SF", 2), "QF")


def test_who_left_after_his_win_still_has_his_victims_come_back() -> None:
    used = rules(wrestleback=LEADER)
    built = bracket(16, 8, used)
    before = by_seeds(built, used, "R1", "QF")
    standing = by_seeds(built, used, out={"1": before.behind("1")})
    assert "16" in sides(standing, "C1-1")
    assert standing.places[6] == ("1",)


def test_a_quarterfinal_without_a_winner_gives_no_leader() -> None:
    used = rules(wrestleback=LEADER)
    standing = by_seeds(bracket(16, 8, used), used, "R1", "QF", nobody=["QF-1"])
    assert sides(standing, "C1-1")[0] == "empty"
    dropping = rules(wrestleback=LEADER, double_loss="drop")
    standing = by_seeds(bracket(16, 8, dropping), dropping, "R1", nobody=["R1-1"])
    assert sides(standing, "C1-1")[0] == "9"
    assert not {"1", "16"} & standing.guaranteed.keys()


def test_a_follower_of_eight_lines_waits_for_his_leaders_quarterfinal() -> None:
    used = rules(wrestleback=LEADER)
    built = bracket(9, 8, used)
    waiting = after(built, {"P-1": 0}, used)
    assert sides(waiting, "CP-1")[0] == "open"
    assert sides(after(built, {"P-1": 0, "QF-1": 1}, used), "CP-1")[0] == "9"
    assert sides(after(built, {"P-1": 0, "QF-1": 0}, used), "CP-1")[0] == "empty"


def test_a_change_touches_also_who_only_may_come_back() -> None:
    built = bracket(16, 8, rules(wrestleback=LEADER))
    assert BoutKey("C1", 1) in nx.descendants(built.graph, BoutKey("R1", 1))
    seat = built.chance(BoutKey("R1", 1))
    assert seat is not None
    assert (str(seat.bout), seat.slot) == ("C1-1", 0)
    assert built.chance(BoutKey("QF", 1)) is None


def test_the_unbeaten_is_beaten_twice_or_stays_champion() -> None:
    used = rules(wrestleback=DOUBLE)
    standing = by_seeds(bracket(8, 4, used), used)
    assert status(standing, "1st2-1") is Status.SPARED
    assert [standing.places[place] for place in (1, 2, 3, 4)] == [("1",), ("2",), ("3",), ("4",)]
    one = by_seeds(bracket(8, 4, used), used, nobody=["1st-1"])
    assert one.places == {2: ("1", "2"), 3: ("3",), 4: ("4",)}
