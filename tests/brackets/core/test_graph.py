from dataclasses import replace

import pytest

from brackets.core.assembly import Design, assemble
from brackets.core.errors import BracketBroken, NoSuchBout
from brackets.core.formats import build
from brackets.core.graph import (
    Beaten,
    BoutKey,
    Exit,
    Format,
    From,
    Line,
    Round,
    Section,
    Sources,
)
from brackets.core.laws import check
from brackets.core.rules import Wrestleback
from tests.brackets.core.books import bracket, rules


@pytest.mark.parametrize("text", ["R1-9", "1st-1", "CP-1", "RR5-2", "C10-2"])
def test_a_key_is_read_as_it_is_written(text: str) -> None:
    assert str(BoutKey.parse(text)) == text


@pytest.mark.parametrize("text", ["", "R1", "R1-", "-1", "R1-x", "R1-²"])
def test_no_key(text: str) -> None:
    with pytest.raises(NoSuchBout):
        BoutKey.parse(text)


def test_a_bracket_knows_its_bouts_only() -> None:
    with pytest.raises(NoSuchBout):
        bracket(8).round_of(BoutKey("R1", 1))
    with pytest.raises(NoSuchBout) as caught:
        bracket(8).onward(BoutKey("C1", 3), Exit.LOSER)
    assert str(caught.value) == "There is no bout C1-3 in this bracket."


def test_rounds_stand_in_running_order() -> None:
    # read off a published college championship
    codes = [one.code for one in bracket(33).rounds]
    assert " ".join(codes) == "P R1 R2 CP C1 QF C2 C3 SF C4 C5 C6 7th 5th 3rd 1st"
    assert [one.column for one in bracket(33).rounds] == list(range(1, 17))


def winner(code: str, position: int) -> From:
    return From(BoutKey(code, position), Exit.WINNER)


def loser(code: str, position: int) -> From:
    return From(BoutKey(code, position), Exit.LOSER)


@pytest.mark.parametrize("entrants", [*range(2, 40), 47, 64, 65, 100, 128])
def test_byes_are_looked_through(entrants: int) -> None:
    built = bracket(entrants)
    for key in built.bouts:
        for slot in (0, 1):
            came = built.awaited(key, slot)
            if isinstance(came, From):
                assert came.bout in built.bouts
            else:
                assert isinstance(came, Line)
                assert built.lines[came.number - 1] is not None


def test_of_seven_the_first_seeds_bye_gives_no_loser() -> None:
    assert bracket(7).sources[BoutKey("C2", 1)][0] == winner("C1", 1)
    assert bracket(7).awaited(BoutKey("C2", 1), 0) == loser("QF", 2)
    assert bracket(7).awaited(BoutKey("SF", 1), 0) == Line(1)


FINAL, THIRD, LAST = BoutKey("1st", 1), BoutKey("3rd", 1), BoutKey("C2", 1)


@pytest.mark.parametrize(
    ("changes", "law"),
    [
        ({FINAL: (winner("SF", 1), winner("SF", 1))}, "one source fills one side"),
        (
            {BoutKey("QF", 1): (Line(1), Line(1))},
            "one source fills one side",
        ),
        (
            {BoutKey("QF", 1): (Line(1), winner("SF", 1))},
            "no bout comes before itself",
        ),
        (
            {BoutKey("SF", 1): (winner("QF", 1), winner("C1", 1))},
            "what feeds a bout comes before it",
        ),
        ({BoutKey("QF", 1): (Line(1), Line(9))}, "every entry starts somewhere"),
        (
            {FINAL: (winner("SF", 1), winner("C2", 1)), THIRD: (winner("SF", 2), winner("C2", 2))},
            "a winner goes on in his section",
        ),
        (
            {
                LAST: (winner("C1", 1), loser("C1", 2)),
                BoutKey("7th", 1): (loser("C1", 1), loser("SF", 2)),
            },
            "a first loss leads to the consolation side",
        ),
    ],
)
def test_laws(changes: dict[BoutKey, Sources], law: str) -> None:
    built = bracket(8)
    lines = (*built.lines, None) if law.startswith("every entry") else built.lines
    with pytest.raises(BracketBroken) as caught:
        assemble(Format.ELIMINATION, lines, 8, Design(built.rounds, {**built.sources, **changes}))
    assert str(caught.value).startswith(f"The bracket breaks a law: {law}")


LINES = (*"abcdefgh",)


def test_laws_of_chains_and_places() -> None:
    built = build(LINES, rules(wrestleback="nobody"), 4)

    def broken(wrestleback: Wrestleback, *rounds: Round, **sources: Sources) -> str:
        more = {BoutKey(code.removeprefix("_"), 1): sides for code, sides in sources.items()}
        design = Design(
            [*built.rounds[:-1], *rounds, built.rounds[-1]],
            {**built.sources, **more},
            wrestleback,
        )
        with pytest.raises(BracketBroken) as caught:
            assemble(Format.ELIMINATION, LINES, 4, design)
        return str(caught.value).removeprefix("The bracket breaks a law: ")

    back = Wrestleback.FINALISTS
    side = Section.CONSOLATION
    fifth, seventh = Round("5th", side, (5, 6), column=4), Round("7th", side, (7, 8), column=4)
    first = Beaten(BoutKey("SF", 1), "QF")
    twice = broken(back, fifth, _5th=(first, loser("QF", 1)))
    assert twice == (
        "who may come back from a loss has no other way on (QF-1). "
        "This is a fault of the program, please report it."
    )
    assert broken(back, seventh, _7th=(first, loser("QF", 3))).startswith("a place is one more")
    leads = broken(back, fifth, Round("C1", side, column=4), _5th=(loser("3rd", 1), loser("QF", 1)))
    assert leads.startswith("a first loss leads to the consolation side")
    assert broken(back, Round("C1", side, column=4), _C1=(first, loser("QF", 3))).startswith(
        "a winner goes on in his section"
    )


def test_nobody_who_lost_twice_goes_on() -> None:
    built = bracket(8)
    rounds = [replace(one, places=None) if one.code == "5th" else one for one in built.rounds]
    with pytest.raises(BracketBroken) as caught:
        assemble(Format.ELIMINATION, built.lines, 8, Design(rounds, built.sources))
    assert "a winner goes on in his section" in str(caught.value)


def test_a_lawful_bracket_passes() -> None:
    check(replace(bracket(33), places=8))
