"""What a roster would do to a division."""

from hypothesis import given
from hypothesis import strategies as st

from seeding.entries.core.intake import Plan, plan_roster
from seeding.entries.core.names import Publish
from seeding.entries.core.pairing import Change, Known, KnownEntry
from seeding.entries.core.roster import Asked
from seeding.entries.core.table import read_table
from seeding.entries.core.teams import KnownTeam, NewTeam

WEIGHTS = ("125", "133", "141")
ALDER = KnownTeam("Alder Valley", "ALD", also=("Alder", "Birch Hollow"))
CEDAR = KnownTeam("Cedar Ford", "CED")
IRA = KnownEntry("e1", "125", "Alder Valley", "Ira", "Holm", seed=1)
NOA = KnownEntry("e2", "125", "Cedar Ford", "Noa", "Berg", seed=2)
KNOWN = Known(Asked(WEIGHTS), (ALDER, CEDAR), (IRA, NOA))


def plan(text: str, known: Known = KNOWN, *, strict: bool = False) -> Plan:
    return plan_roster(read_table(text.encode(), "roster.csv"), known, strict=strict)


def said(text: str, known: Known = KNOWN, *, strict: bool = False) -> list[str]:
    return [str(problem) for problem in plan(text, known, strict=strict).problems]


def warned(text: str, known: Known = KNOWN) -> list[str]:
    found = plan(text, known)
    assert found.problems == ()
    return [str(warning) for warning in found.warnings]


def carried_out(made: Plan, known: Known) -> Known:
    """The division after the plan, as a service would leave it."""
    entries = {entry.key: entry for entry in known.entries}
    for at, row in enumerate(made.adds):
        entries[f"new{len(entries)}-{at}"] = KnownEntry(
            f"new{len(entries)}-{at}",
            row.weight,
            row.team,
            row.given,
            row.family,
            row.seed,
            scoring=row.scoring is not False,
            publish=row.publish or Publish.FULL,
        )
    teams = (*known.teams, *(KnownTeam(team.name, team.short) for team in made.new_teams))
    return Known(known.asked, teams, tuple(entries.values()))


def test_new_rows_known_rows_and_changed_rows_are_told_apart() -> None:
    made = plan(
        "name,weight,team,seed,publish\n"
        "Ira Holm,125,ALD,1,\n"
        "noa berg,125,Cedar Ford,3,hidden\n"
        "Ada Moss,133,Birch Hollow,,\n"
    )
    assert made.problems == ()
    assert made.unchanged == ("e1",)
    assert made.changes == (
        Change(3, "e2", "publish", Publish.FULL, Publish.HIDDEN),
        Change(3, "e2", "seed", 2, 3),
    )
    assert [(row.row, row.team, row.family) for row in made.adds] == [(4, "Alder Valley", "Moss")]
    assert [str(warning) for warning in made.warnings] == [
        "row 3, column name: noa berg is entered as Noa Berg; the spelling stays"
    ]


def test_two_entries_may_exchange_their_seeds() -> None:
    made = plan("name,weight,team,seed\nIra Holm,125,ALD,2\nNoa Berg,125,CED,1\n")
    assert made.problems == ()
    assert [(change.key, change.before, change.after) for change in made.changes] == [
        ("e1", 1, 2),
        ("e2", 2, 1),
    ]


def test_a_row_at_another_weight_moves_the_entry_and_its_seed_lapses() -> None:
    made = plan("name,weight,team\nIra Holm,133,ALD\n")
    assert [(change.field, change.before, change.after) for change in made.changes] == [
        ("weight", "125", "133"),
        ("seed", 1, None),
    ]


def test_of_two_entries_of_a_person_the_row_speaks_of_the_one_at_its_weight() -> None:
    second = KnownEntry("e3", "133", "Alder Valley", "Ira", "Holm")
    known = Known(Asked(WEIGHTS), (ALDER,), (IRA, second))
    assert plan("name,weight,team\nIra Holm,133,ALD\n", known).unchanged == ("e3",)


def test_new_teams_are_listed_with_a_short_form() -> None:
    made = plan(
        "name,weight,team,code\n"
        "Ada Moss,133,Dune Park,\n"
        "Eli Roth,141,dune park,\n"
        "Uri Vale,141,Étang,ETG\n"
        "Jo Finch,125,Dune Point,\n"
        "Al Reed,133,,ELM\n"
    )
    assert made.problems == ()
    assert made.new_teams == (
        NewTeam("Dune Park", "DP"),
        NewTeam("Étang", "ETG"),
        NewTeam("Dune Point", "DUN"),
        NewTeam("ELM", "ELM"),
    )
    assert [row.team for row in made.adds][:2] == ["Dune Park", "Dune Park"]


def test_strict_mode_refuses_unknown_teams_and_helps() -> None:
    text = "name,weight,team\nAda Moss,133,Cedar Frd\nEli Roth,141,Dune Park\n"
    assert said(text, strict=True) == [
        "row 2, column team: Cedar Frd is not a team of this tournament; did you mean Cedar Ford?",
        (
            "row 3, column team: Dune Park is not a team of this tournament; "
            "known: Alder Valley, Cedar Ford"
        ),
    ]
    assert said(text) == []


def test_name_and_short_form_must_mean_the_same_team() -> None:
    text = "name,weight,team,short\nAda Moss,133,Alder,CED\nEli Roth,141,Dune Park,ALD\n"
    assert said(text) == [
        "row 2, column short: CED is the short form of Cedar Ford, not of Alder; change one",
        "row 3, column short: ALD is the short form of Alder Valley, not of Dune Park; change one",
    ]


def test_a_person_twice_in_the_file_is_a_problem() -> None:
    text = "name,weight,team\nAda Moss,133,Alder\nADA MOSS,133,ALD\nAda Moss,141,Alder Valley\n"
    assert said(text) == [
        f"row {row}, column name: {name} of Alder Valley stands in row 2 already, at 133; take "
        "one of the two rows out, or tell two persons of one name apart by a middle initial"
        for row, name in ((3, "ADA MOSS"), (4, "Ada Moss"))
    ]


def test_a_seed_stands_once_in_a_weight() -> None:
    text = "name,weight,team,seed\nAda Moss,125,CED,1\nEli Roth,133,ALD,1\nJo Finch,133,CED,1\n"
    assert said(text) == [
        (
            "row 2, column seed: seed 1 at 125 belongs to Ira Holm of Alder Valley, who is entered "
            "already; change one of them"
        ),
        "row 4, column seed: seed 1 at 133 belongs to row 3; change one of them",
    ]


def test_doubts_are_warnings() -> None:
    assert warned(
        "name,weight,team\n"
        "Ira Hollm,125,ALD\n"
        "John Moss,133,CED\n"
        "Jon Moss,133,CED\n"
        "Eli Roth,141,Ceder Ford\n"
    ) == [
        "row 2, column name: “Ira Hollm” is spelled almost like “Ira Holm”, entered already",
        "row 2: Alder Valley has Ira Holm and Ira Hollm both scoring at 125",
        "row 4, column name: “Jon Moss” is spelled almost like “John Moss”, in row 3",
        "row 4: Cedar Ford has John Moss and Jon Moss both scoring at 133",
        "row 5, column team: the new team “Ceder Ford” is spelled almost like “Cedar Ford”",
    ]


def test_a_scratched_entry_stays_scratched_and_holds_no_seed() -> None:
    gone = KnownEntry("e1", "125", "Alder Valley", "Ira", "Holm", seed=1, scratched=True)
    known = Known(Asked(WEIGHTS), (ALDER,), (gone,))
    text = "name,weight,team,seed\nIra Holm,125,ALD,1\nAda Moss,125,ALD,1\n"
    assert warned(text, known) == ["row 2: Ira Holm is scratched and stays scratched"]


NAMES = st.sampled_from(["Ira Holm", "Noa Berg", "Ada Moss", "Holm, Ida", "Zoë Łuk", "roth"])
ROWS = st.tuples(NAMES, st.sampled_from(WEIGHTS), st.sampled_from(["ALD", "Alder", "New One"]))


@given(st.lists(ROWS, min_size=1, unique_by=lambda row: row[0]))
def test_the_same_file_twice_adds_nothing_twice(rows: list[tuple[str, str, str]]) -> None:
    lines = [f'"{name}",{weight},{team},{at + 11}' for at, (name, weight, team) in enumerate(rows)]
    text = "\n".join(["name,weight,team,seed", *lines])
    known = Known(Asked(WEIGHTS), (ALDER, CEDAR))
    first = plan(text, known)
    assert first.problems == ()
    assert len(first.adds) == len(rows)
    second = plan(text, carried_out(first, known))
    assert (second.adds, second.changes, second.new_teams) == ((), (), ())
    assert len(second.unchanged) == len(rows)
