"""What a look ahead says of bouts: who meets there now, who would meet then."""

import re
from typing import Any

import pytest
from django.test import Client

from brackets.core.drafting import WantedAdvance
from brackets.core.replay import Choice
from brackets.core.sources import BoutKey, Seat
from results.core.outcomes import Kind, Outcome
from results.queries.consequences import Preview
from results.queries.foretold import asked, hands
from results.queries.preview import preview
from results.queries.rulings import look_at_ruling
from seeding.entries.models import Role, Tournament
from tests.results.championship import document, load, wrestle
from tests.results.desk import text
from tests.results.interface import Api, user
from tests.results.overruled import at, drawn, wrestled_through
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

SENT = {"winner": "1", "won": "5", "lost": "3", "do": "look"}
SEMI = BoutKey("SF", 1)


@pytest.fixture
def eight() -> Tournament:
    return wrestled_through()


@pytest.fixture
def director(eight: Tournament) -> Client:
    return signed_in("director", eight)


def who(*seeds: int) -> str:
    return " - ".join(f"Given{seed} Family125 (T{seed})" for seed in seeds)


def number(key: str) -> int:
    return at(key).number or 0


def changes(seen: Preview) -> dict[str, tuple[str, str]]:
    return {one.what: (one.before, one.after) for one in hands(seen)}


def page(director: Client, **more: str) -> str:
    shown = director.post(f"/desk/spring/bouts/{number('QF-1')}/", {**SENT, **more})
    return re.sub(r"\s+", " ", text(shown))


def test_every_bout_that_changes_hands_is_told_with_who_meets_then(
    eight: Tournament, director: Client
) -> None:
    """8 beats 1 after all, and everything behind is void: the rest waits for the semifinal."""
    shown = page(director, rest="void")
    table = shown.split("Bouts that change hands</h3>")[1].split("</table>")[0]
    cells = [re.findall(r"<span>(.*?)</span>", row) for row in table.split("<tr>")[2:]]
    heads = re.findall(r'<th scope="row">(.*?)</th>', table)
    told = dict(zip(heads, cells, strict=True))
    assert told[f"{number('SF-1')} (SF)"] == [who(1, 5), who(8, 5)]
    final = told[f"{number('1st-1')} (1st)"]
    assert final == [who(1, 3), f"winner of {number('SF-1')} - {who(3)}"]
    assert re.findall(r'<th scope="col">(.*?)</th>', table) == ["Bout", "now", "then"]


def test_each_question_says_who_wrestled_and_who_would_meet(
    eight: Tournament, director: Client
) -> None:
    wrestled = f"<p>Wrestled: {who(1, 5)}, Dec 5-3<br>Would be: {who(8, 5)}</p>"
    for choice in ("", "stands", "void", "again"):
        shown = page(director, **{"choice-SF-1": choice})
        assert wrestled in shown


def test_a_bout_that_is_not_known_yet_is_told_by_what_it_waits_for(eight: Tournament) -> None:
    seen = preview(at("QF-1"), None, {SEMI: Choice.VOID})
    semi = next(one for one in asked(seen) if one.affected.bout.round == "SF")
    assert semi.then == f"winner of {number('QF-1')} - {who(5)}"


def test_in_a_bout_that_is_not_needed_then_nobody_meets() -> None:
    """Two wrestle best of three; who has won twice need not wrestle again."""
    load(document(entries=2, settings={"bracket.of_two": "best-of-three"}))
    for key, side in (("RR1-1", 0), ("RR2-1", 1), ("RR3-1", 0)):
        wrestle(at(key), side)
    two = at("RR2-1")
    seen = preview(two, Outcome(Kind.DECISION, 0, (5, 3)))
    third = f"{number('RR3-1')} (RR3)"
    assert changes(seen)[third][1] == "nobody"
    assert [one.then for one in asked(seen)] == ["nobody"]


def test_the_mark_stands_for_who_meets(eight: Tournament) -> None:
    """The same bouts change hands whoever is ruled into the final for its winner."""
    final = BoutKey("1st", 1)
    looks = [
        look_at_ruling(drawn(), WantedAdvance(Seat(final, 0), f"125-{seed}"), {final: Choice.VOID})
        for seed in (7, 8)
    ]
    one, other = (seen for _ruling, seen in looks)
    rows = [[changed.bout for changed in seen.changed] for seen in (one, other)]
    assert rows[0] == rows[1]
    assert one.mark != other.mark


def test_the_interface_has_who_meets(eight: Tournament) -> None:
    person = user("boss")
    Role.objects.create(tournament=eight, user=person, name="director")
    sent: dict[str, Any] = {"outcome": {"kind": "decision", "winner": "bottom", "score": [5, 3]}}
    sent["choices"] = [{"bout": "125.SF-1", "choice": "stands"}]
    address = f"/tournaments/spring/bouts/{number('QF-1')}/result/preview/"
    seen = Api(person).ask("post", address, sent).json()
    assert [one["bout"] for one in seen["hands"]] == seen["changed"]
    assert seen["affected"][0]["after"]["top"]["entry"] == "125-8"
