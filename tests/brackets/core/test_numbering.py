from collections.abc import Sequence

import pytest

from brackets.core.graph import BoutKey, Bracket
from brackets.core.numbering import mats, number
from tests.brackets.core.books import bracket, rules


def rounds_of(*fields: int) -> list[str]:
    """Weight and round of each run of numbers, in order of number."""
    return runs_of([(f"n{n}", bracket(n)) for n in fields])


def runs_of(weights: Sequence[tuple[str, Bracket]]) -> list[str]:
    runs: list[str] = []
    for weight, key in sorted(numbers := number(weights), key=lambda bout: numbers[bout]):
        if not runs or runs[-1] != f"{weight} {key.round}":
            runs.append(f"{weight} {key.round}")
    return runs


@pytest.mark.parametrize(
    ("entrants", "expected"),
    [
        (8, "QF SF C1 C2 7th 5th 3rd 1st"),
        (9, "P QF SF CP C1 C2 7th 5th 3rd 1st"),
        (16, "R1 QF C1 SF C2 C3 C4 7th 5th 3rd 1st"),
        (33, "P R1 R2 CP C1 QF C2 C3 SF C4 C5 C6 7th 5th 3rd 1st"),
        (64, "R1 R2 C1 R3 C2 C3 QF C4 C5 SF C6 C7 C8 7th 5th 3rd 1st"),
    ],
)
def test_rounds_of_one_weight(entrants: int, expected: str) -> None:
    # 33: read off a published college championship; the others: the same rule
    assert [run.split()[1] for run in rounds_of(entrants)] == expected.split()


def test_sizes_are_aligned_from_the_end() -> None:
    # common sense, no source
    runs = rounds_of(16, 33)
    together = [run for run in runs if run.split()[1] in ("QF", "SF", "3rd", "1st")]
    assert together == [f"n{n} {code}" for code in ("QF", "SF", "3rd", "1st") for n in (16, 33)]
    assert runs[:4] == ["n33 P", "n33 R1", "n16 R1", "n33 R2"]
    assert runs[-2:] == ["n16 1st", "n33 1st"]


def test_a_round_robin_ends_before_the_finals() -> None:
    # common sense, no source
    runs = rounds_of(5, 8)
    assert runs == [
        *("n5 RR1", "n5 RR2", "n8 QF", "n5 RR3", "n8 SF", "n5 RR4", "n8 C1", "n5 RR5", "n8 C2"),
        *("n8 7th", "n8 5th", "n8 3rd", "n8 1st"),
    ]


def test_a_chain_goes_with_the_bouts_before_9th_and_13th() -> None:
    # common sense, no source
    chain = bracket(32, 6, rules(wrestleback="finalists"))
    runs = runs_of([("light", bracket(16, 16)), ("middle", chain), ("heavy", bracket(16, 16))])
    first = runs.index("light 13SF")
    assert runs[first : first + 6] == [
        *("light 13SF", "middle C1", "heavy 13SF"),
        *("light 9SF", "middle C2", "heavy 9SF"),
    ]


@pytest.mark.parametrize("entrants", [3, 6, 11, 20, 33, 40, 100])
def test_numbers_run_from_one_without_byes_and_never_against_the_bracket(entrants: int) -> None:
    built = bracket(entrants)
    numbers = {key: value for (_, key), value in number([("a", built)]).items()}
    assert sorted(numbers.values()) == list(range(1, len(built.bouts) + 1))
    for earlier, later in built.graph.edges:
        if earlier in numbers and later in numbers:
            assert numbers[earlier] < numbers[later]


def test_mats_take_turns_within_a_column() -> None:
    weights = [(str(i), bracket(33, 8, rules())) for i in range(3)]
    numbers = number(weights)
    columns = {bout: weights[0][1].round_of(bout[1]).column for bout in numbers}
    given = mats(numbers, columns, ["1", "2", "3", "4"])
    first = [given[("0", BoutKey("R1", i))] for i in range(1, 7)]
    assert first == ["1", "2", "3", "4", "1", "2"]
    for column in set(columns.values()):
        loads = [
            sum(given[bout] == mat for bout in numbers if columns[bout] == column) for mat in "1234"
        ]
        assert max(loads) - min(loads) <= 1
