"""The minutes of a weight: the same words on page, interface and paper; signatures."""

import html
import json
import re
from hashlib import sha256
from typing import Any

import pytest
from django.test import Client
from reportlab.platypus import Flowable, KeepTogether, LongTable, Paragraph

from seeding.core.errors import MinutesChanged
from seeding.entries.models import Entry, Team, Tournament, User, WeightClass
from seeding.journal.core.errors import Invalid, NotAllowed
from seeding.models import Challenge, Signature
from seeding.paper.minutes import blocks, printed
from seeding.queries.minutes import Minutes, signable
from seeding.services import (
    adopt_order,
    challenge,
    lock_order,
    move_seed,
    open_challenges,
    refuse_challenge,
    set_own_teams,
    sign_minutes,
)
from tests.results.interface import with_role
from tests.seeding.entries.desks import CALL, NOW, enter, signed_in
from tests.seeding.rooms import beat, room, three

pytestmark = pytest.mark.django_db

API = "/tournaments/spring/weights/125/order"


@pytest.fixture
def tournament() -> Tournament:
    """The circle of three, and four more who met some of them."""
    made = three()
    enter(made, "125", "Abe Yarrow", "Lou Umber", "Max Tarn", "Юрий Šimić")
    for day, winner, loser in (
        (11, "Yarrow", "Reed"),
        (12, "Umber", "Yarrow"),
        (13, "Reed", "Umber"),
        (14, "Tarn", "Umber"),
        (15, "Quill", "Tarn"),
    ):
        beat(made, day, winner, loser)
    return made


@pytest.fixture
def weight(tournament: Tournament) -> WeightClass:
    return tournament.weights.get(key="125")


def entry(family: str) -> Entry:
    return Entry.objects.get(wrestler__family=family)


def words(page: str) -> str:
    """What a page says, without its tags."""
    return re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", "", page)))


def said(block: Flowable) -> str:
    """What a block of paper says."""
    if isinstance(block, Paragraph):
        return block.getPlainText()
    if isinstance(block, KeepTogether):
        return " ".join(said(one) for one in block._content)  # type: ignore[attr-defined]
    if isinstance(block, LongTable):
        return " ".join(said(cell) for row in rows_of(block) for cell in row)
    return ""


def rows_of(block: LongTable) -> list[list[Flowable]]:
    found: list[list[Flowable]] = block._cellvalues  # type: ignore[attr-defined]
    return found


def paper(weight: WeightClass) -> str:
    return re.sub(r"\s+", " ", " ".join(said(one) for one in blocks(signable(weight), 180)))


def test_page_interface_and_minutes_say_the_same_of_a_whole_weight(
    tournament: Tournament, weight: WeightClass
) -> None:
    move_seed(call=CALL, entry=entry("Tarn"), to=1, reason="Better of late")
    api = with_role(tournament, "committee")
    page = words(signed_in("director", tournament).get(room()).content.decode())
    told, minuted = api.get(f"{API}/"), api.get(f"{API}/minutes/")["minutes"]
    on_paper = paper(weight)
    assert len(told["reasons"]) == 6
    assert any(one["against"] for one in told["reasons"])
    for reason, line in zip(told["reasons"], minuted["order"], strict=False):
        assert (reason["text"], reason["bouts"]) == (line["why"], line["bouts"])
        assert reason["criterion"] == line["criterion"]
        for text in (reason["text"], *reason["bouts"]):
            assert text in page
            assert text in on_paper
        entries = [line["entry"] for line in minuted["order"]]
        two = entries[reason["above"] - 1 : reason["above"] + 1]
        pair = api.get(f"{API}/pair/?a={two[0]}&b={two[1]}")
        assert (pair["text"], pair["criterion"]) == (reason["text"], reason["criterion"])
        assert pair["bouts"][: len(reason["bouts"])] == reason["bouts"]
    assert told["flags"]
    assert told["flags"] == [flag for line in minuted["order"] for flag in line["flags"]]
    for flag in told["flags"]:
        assert flag in page
        assert flag in on_paper


def test_the_minutes_hold_all_that_the_order_rests_on(
    tournament: Tournament, weight: WeightClass
) -> None:
    open_challenges(call=CALL, weight=weight, until=None)
    challenge(call=CALL, entry=entry("Quill"), over=entry("Holm"), by="Coach Bly", reason="Jan 8")
    row = signable(weight).minutes.challenges[0]
    assert (row.name, row.over, row.state, row.answer) == ("Sam Quill", "Ira Holm", "open", "")
    made = Challenge.objects.get()
    refuse_challenge(call=CALL, challenge=made, answer="Lost two later ones")
    move_seed(call=CALL, entry=entry("Tarn"), to=3, reason="Better of late")
    kim = signed_in("committee", tournament)
    user, team = User.objects.get(username="committee"), Team.objects.get(name="Team Reed")
    set_own_teams(call=CALL, tournament=tournament, user=user, teams=[team])
    adopt_order(call=CALL, weight=weight)
    found = signable(weight).minutes
    assert (found.tournament, found.weight, found.state) == ("Spring Open", "125", "adopted")
    assert found.adopted_at == "2026-03-19 10:00"  # Chicago
    assert found.challenges[0].answer == "Lost two later ones"
    assert (found.moves[0].name, found.moves[0].to) == ("Max Tarn", 3)
    assert found.recusals[0].wrestlers == ("Tom Reed",)
    assert found.rules.bouts == 10
    assert any("head-to-head" in line for line in found.rules.criteria)
    assert any(line.startswith("head-to-head: decision") for line in found.rules.counted)
    assert found.lot_seed
    text = words(kim.get(room("desk-minutes")).content.decode())
    on_paper = paper(weight)
    for words_of in everything(found):
        assert words_of in text, words_of
        assert words_of in on_paper, words_of


def everything(found: Minutes) -> list[str]:
    """Every sentence that has to be found on the page and on paper."""
    one, move, recusal = found.challenges[0], found.moves[0], found.recusals[0]
    return [
        *(found.rules.name, found.rules.shape, found.rules.source, found.lot_seed),
        *found.rules.criteria,
        *found.rules.counted,
        *(one.by, one.reason, one.answer, one.at, move.reason, move.author, move.at),
        *(recusal.member, recusal.wrestlers[0], found.adopted_at),
        *(line.name for line in found.order),
        *(line.team for line in found.order),
        *found.proposal,
    ]


def sign(client: Client, name: str, digest: str = "") -> Any:
    page = room("desk-minutes")
    digest = digest or client.get(page).context["found"].digest
    return client.post(page, {"do": "sign", "name": name, "digest": digest})


def test_a_signature_lapses_when_the_minutes_change(
    tournament: Tournament, weight: WeightClass
) -> None:
    client = signed_in("committee", tournament)
    old = signable(weight).digest
    assert "This field is required." in sign(client, "").content.decode()
    assert sign(client, "Kim Aldous").status_code == 302
    assert [one.stands for one in signable(weight).signatures] == [True]
    move_seed(call=CALL, entry=entry("Tarn"), to=1, reason="Better of late")
    text = client.get(room("desk-minutes")).content.decode()
    assert "lapsed: the minutes changed since" in text
    late = sign(client, "Kim Aldous", old).content.decode()
    assert "The minutes of 125 changed while you read them." in late
    assert 'value="Kim Aldous"' in late
    assert sign(client, "Kim Aldous").status_code == 302
    assert [one.stands for one in signable(weight).signatures] == [False, True]
    assert "Kim Aldous" in paper(weight)
    assert "lapsed" in paper(weight)


def test_the_draw_leaves_signatures_as_they_are(
    tournament: Tournament, weight: WeightClass
) -> None:
    client = signed_in("committee", tournament)
    adopt_order(call=CALL, weight=weight)
    sign(client, "Kim Aldous")
    lock_order(CALL, weight)
    weight.refresh_from_db()
    found = signable(weight)
    assert found.locked
    assert found.signatures[0].stands
    assert sign(client, "K. Aldous").status_code == 302  # signing late is open, once a person
    assert Signature.objects.get().name == "K. Aldous"


def test_who_may_sign(tournament: Tournament, weight: WeightClass) -> None:
    digest = signable(weight).digest
    with pytest.raises(Invalid, match="operator"):
        sign_minutes(call=CALL, weight=weight, name="x", digest=digest)
    reader = with_role(tournament, "reader")
    assert reader.ask("get", f"{API}/minutes/").status_code == 200
    sent = {"name": "x", "digest": digest}
    assert reader.ask("post", f"{API}/minutes/signatures/", sent).status_code == 403
    member = with_role(tournament, "committee")
    member.act("post", f"{API}/minutes/signatures/", sent, status=201)
    wrong = member.ask("post", f"{API}/minutes/signatures/", sent | {"digest": "0" * 64})
    assert wrong.status_code == 409
    assert wrong.json()["errors"][0]["code"] == MinutesChanged.code
    with pytest.raises(NotAllowed):
        sign_minutes(
            call=type(CALL)(User.objects.get(username="spring-reader").pk, NOW),
            weight=weight,
            name="x",
            digest=digest,
        )


def test_the_digest_can_be_worked_out_from_the_interface(tournament: Tournament) -> None:
    found = with_role(tournament, "reader").get(f"{API}/minutes/")
    text = json.dumps(found["minutes"], sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    assert found["digest"] == sha256(text.encode()).hexdigest()


def test_the_paper(tournament: Tournament, weight: WeightClass) -> None:
    client = signed_in("committee", tournament)
    answer = client.get(room("desk-minutes-paper"))
    assert answer["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF-")
    assert b"/MediaBox [ 0 0 612 792 ]" in answer.content
    a4 = client.get(room("desk-minutes-paper"), {"paper": "a4"})
    assert b"/MediaBox [ 0 0 595.2756 841.8898 ]" in a4.content
    found = signable(weight)
    assert printed(found, NOW, "") == printed(found, NOW, "")
    assert "Юрий Šimić" in paper(weight)


def test_an_empty_weight_has_minutes_too(tournament: Tournament) -> None:
    client = signed_in("committee", tournament)
    for name in ("desk-minutes", "desk-minutes-paper", "desk-grid", "desk-violations"):
        assert client.get(room(name, "285")).status_code == 200
    assert client.get(room("desk-challenges", "285")).status_code == 200


def test_pair_refuses_what_is_not_there(tournament: Tournament) -> None:
    api = with_role(tournament, "reader")
    one = entry("Holm").key
    for query in (f"a={one}&b={one}", f"a={one}&b=nobody", f"a={one}"):
        assert api.ask("get", f"{API}/pair/?{query}").status_code == 400
