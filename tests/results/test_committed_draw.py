"""A draw that is committed to: its seeds, its secret, draws taken back."""

import json
from hashlib import sha256

import pytest
from django.test import Client

from brackets.core.errors import CommitTooLate, NothingToReveal, SecretElsewhere, SeedCommitted
from brackets.models import Commitment, Drawn, TakenBack
from brackets.serializers.verification import Sealed, verify
from brackets.services import commit_draw, reveal_secret
from results.serializers.document import dump
from results.services import draw_every, draw_weight, take_back_draw
from seeding.entries.models import Entry, Organisation, Tournament, WeightClass
from seeding.journal.core.errors import Invalid, NotAllowed
from seeding.journal.models import Act
from seeding.journal.services import Call
from tests.results.apart import event
from tests.results.championship import CALL, NOW, load
from tests.results.interface import Api
from tests.results.published import told
from tests.seeding.entries.desks import signed_in

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]


@pytest.fixture
def committed() -> Tournament:
    tournament = load(event())
    commit_draw(call=CALL, tournament=tournament)
    return tournament


def weight(key: str) -> WeightClass:
    return WeightClass.objects.select_related("division", "tournament").get(key=key)


def digest(text: str) -> str:
    return sha256(text.encode()).hexdigest()


def test_the_commitment_gives_every_seed(committed: Tournament) -> None:
    draw_every(call=CALL, tournament=committed)
    kept = Commitment.objects.get()
    assert kept.digest == digest(f"draw commitment/1|{kept.secret}")
    for row in Drawn.objects.select_related("weight_class"):
        assert row.lot_seed == digest(f"draw seed/1|{kept.secret}|{row.weight_class.key}|1")
        assert (row.committed, row.number, row.drawn_at) == (True, 1, NOW)


def test_another_seed_is_refused(committed: Tournament) -> None:
    with pytest.raises(SeedCommitted):
        draw_weight(call=CALL, weight=weight("120"), lot_seed="mine")
    assert not Drawn.objects.exists()


def test_the_secret_is_revealed_with_the_last_weight(committed: Tournament) -> None:
    draw_weight(call=CALL, weight=weight("120"))
    assert Commitment.objects.get().revealed_at is None
    draw_weight(call=CALL, weight=weight("126"))
    assert Commitment.objects.get().revealed_at == NOW


def test_or_before_where_a_weight_waits(committed: Tournament) -> None:
    with pytest.raises(NothingToReveal):
        reveal_secret(call=CALL, tournament=committed)
    draw_weight(call=CALL, weight=weight("120"))
    reveal_secret(call=CALL, tournament=committed)
    assert Commitment.objects.get().revealed_at == NOW
    with pytest.raises(NothingToReveal):
        reveal_secret(call=CALL, tournament=committed)


def test_committed_once_and_before_the_first_draw(committed: Tournament) -> None:
    with pytest.raises(CommitTooLate):
        commit_draw(call=CALL, tournament=committed)
    Commitment.objects.all().delete()
    draw_weight(call=CALL, weight=weight("120"))
    with pytest.raises(CommitTooLate):
        commit_draw(call=CALL, tournament=committed)


def test_nobody_commits_who_does_not_direct(committed: Tournament) -> None:
    with pytest.raises(NotAllowed):
        commit_draw(call=Call(999, NOW), tournament=committed)


def test_a_draw_taken_back_counts_and_says_why(committed: Tournament) -> None:
    draw_every(call=CALL, tournament=committed)
    first = Drawn.objects.get(weight_class__key="120")
    with pytest.raises(Invalid, match="reason: This draw was committed to"):
        take_back_draw(call=CALL, weight=weight("120"), reason="  ")
    take_back_draw(call=CALL, weight=weight("120"), reason="a scratch that was overlooked")
    draw_weight(call=CALL, weight=weight("120"))
    again = Drawn.objects.get(weight_class__key="120")
    secret = Commitment.objects.get().secret
    assert (again.number, again.lot_seed) == (2, digest(f"draw seed/1|{secret}|120|2"))
    assert again.lines != first.lines
    found = verify(dump(committed))
    assert found.holds
    assert [(one.number, one.sealed) for one in found.weights] == [(2, Sealed.YES), (1, Sealed.YES)]
    pages = told([f"/t/{committed.slug}/draw/", f"/t/{committed.slug}/weights/120/"])
    for _, page in pages.values():
        assert "a scratch that was overlooked" in page
    assert 'class="num">Draw</th>' in pages[f"/t/{committed.slug}/draw/"][1]
    assert "This is draw number 2" in pages[f"/t/{committed.slug}/weights/120/"][1]


def test_without_a_commitment_nobody_asks_why() -> None:
    load(event())
    for _ in range(2):
        draw_weight(call=CALL, weight=weight("120"), lot_seed="drawn by the mayor")
        take_back_draw(call=CALL, weight=weight("120"))
    assert not TakenBack.objects.exists()


def everything(tournament: Tournament, director: Client) -> str:
    """Every byte that anybody gets of a tournament: public, desk, interface, file, log."""
    here = f"/t/{tournament.slug}/"
    public = ["/", here, f"{here}draw/", f"{here}draw/?again=1", f"{here}weights/120/"]
    found = [text for _, text in told(public).values()]
    desk = f"/desk/{tournament.slug}/"
    pages = ("", "draw/", "draw/commitment/", "draw/weights/120/", "log/")
    found += [director.get(f"{desk}{page}", follow=True).content.decode() for page in pages]
    api = "/api/v1/tournaments/spring/"
    names = ("", "commitment/", "draws/verification/", "weights/120/bracket/", "acts/", "file/")
    found += [director.get(f"{api}{name}").content.decode() for name in names]
    found += [json.dumps(dump(tournament))]
    found += [json.dumps(row.subject) for row in Act.objects.all()]
    return "\n".join(found)


def test_the_secret_is_in_no_byte_before_it_is_revealed(committed: Tournament) -> None:
    kept, director = Commitment.objects.get(), signed_in("owner", committed)
    assert kept.secret not in everything(committed, director)
    draw_weight(call=CALL, weight=weight("120"))
    text = everything(committed, director)
    assert kept.secret not in text
    assert kept.digest in text
    Entry.objects.filter(weight_class__key="126").update(status="scratched")
    take_back_draw(call=CALL, weight=weight("120"), reason="x")
    draw_weight(call=CALL, weight=weight("120"))
    assert kept.secret in everything(committed, director)


def test_nor_in_public_before_the_draw_is_published(committed: Tournament) -> None:
    draw_every(call=CALL, tournament=committed)
    Tournament.objects.update(shows_draw=False)
    kept = Commitment.objects.get()
    here = f"/t/{committed.slug}/"
    for _, page in told([here, f"{here}draw/", f"{here}draw/?again=1"]).values():
        assert kept.secret not in page
        assert kept.digest in page
        assert not [row for row in Drawn.objects.all() if row.lot_seed in page]
    answer = Api().ask("get", "/tournaments/spring/commitment/").json()
    assert (answer["digest"], answer["secret"]) == (kept.digest, None)
    assert Api().ask("get", "/tournaments/spring/draws/verification/").status_code == 404


def reloaded(file: dict[str, object]) -> Tournament:
    Organisation.objects.filter(slug="home").update(slug="before")
    Tournament.objects.update(slug="before")
    return load(json.loads(json.dumps(file)))


def test_a_file_carries_a_commitment_and_later_its_secret(committed: Tournament) -> None:
    draw_every(call=CALL, tournament=committed)
    take_back_draw(call=CALL, weight=weight("120"), reason="overlooked")
    draw_weight(call=CALL, weight=weight("120"))
    file = json.loads(json.dumps(dump(committed)))
    again = json.loads(json.dumps(dump(reloaded(file))))
    assert again == file
    assert verify(again).holds


def test_elsewhere_the_secret_is_missing(committed: Tournament) -> None:
    made = reloaded(dump(committed))
    row = WeightClass.objects.get(tournament=made, key="120")
    with pytest.raises(SecretElsewhere):
        draw_weight(call=CALL, weight=row)
    commit_draw(call=CALL, tournament=made)
    draw_weight(call=CALL, weight=row)
    assert verify(dump(made)).weights[0].sealed is Sealed.UNREVEALED


def test_a_secret_of_another_digest_is_not_loaded(committed: Tournament) -> None:
    draw_every(call=CALL, tournament=committed)
    file = dump(committed)
    file["draw_commitment"]["secret"] = "ab"
    with pytest.raises(Invalid, match=r"draw_commitment.secret: This is not the secret"):
        reloaded(file)
