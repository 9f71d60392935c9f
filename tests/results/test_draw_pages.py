"""What pages and the interface tell of a draw, and what they do to it."""

import pytest
from django.test import Client

from brackets.models import Commitment, Drawn
from brackets.serializers.verification import verify
from deploy.scenario.staged import load_demo
from results.queries.draws import about, draw_told
from results.serializers.document import dump
from results.services import draw_every, swap_lines
from seeding.entries.models import Entry, Tournament, WeightClass
from tests.results.apart import event
from tests.results.championship import CALL, load
from tests.results.desk import buttons, press, text
from tests.results.interface import Api
from tests.results.published import told
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

DRAW = "/desk/spring/draw/"
HERE = "/tournaments/spring"


@pytest.fixture
def spring() -> Tournament:
    return load(event())


def page(path: str = "draw/") -> str:
    address = f"/t/spring/{path}"
    status, found = told([address])[address]
    assert status == 200
    return found


def test_the_head_table_commits_and_everybody_sees_it(spring: Tournament) -> None:
    draws = 'class="num">Draw</th>'
    assert "not committed to beforehand" in page()
    assert draws not in page()
    Tournament.objects.update(shows_entries=False, shows_draw=False, shows_team_points=False)
    director = signed_in("director", spring)
    assert told(["/t/spring/draw/"])["/t/spring/draw/"][0] == 404
    answer = press(director, f"{DRAW}commitment/", "commit")
    digest = Commitment.objects.get().digest
    assert "The draw is committed." in text(answer)
    for path in ("", "draw/"):
        assert digest in page(path)
    assert "commit" not in buttons(director, f"{DRAW}commitment/")
    assert "reveal" not in buttons(director, f"{DRAW}commitment/")


def test_a_committed_weight_asks_for_no_seed_and_then_for_a_reason(spring: Tournament) -> None:
    director = signed_in("director", spring)
    press(director, f"{DRAW}commitment/", "commit")
    at = f"{DRAW}weights/120/"
    assert 'name="lot_seed"' not in text(director.get(at))
    press(director, at, "draw")
    assert "given by the commitment" in text(director.get(at))
    press(director, at, "take-back", reason="")
    assert Drawn.objects.count() == 1
    press(director, at, "take-back", reason="a late scratch")
    press(director, at, "draw")
    seen = text(director.get(at))
    assert "This is draw number 2 of the weight." in seen
    assert "a late scratch" in seen
    assert "reveal" in buttons(director, f"{DRAW}commitment/")
    press(director, f"{DRAW}commitment/", "reveal")
    assert Commitment.objects.get().secret in page()


def test_who_draws_anew_is_told_that_the_secret_is_out(spring: Tournament) -> None:
    director = signed_in("director", spring)
    press(director, f"{DRAW}commitment/", "commit")
    press(director, f"{DRAW}weights/120/", "draw")
    warning = "anybody can work out beforehand what the next draw gives"
    assert warning not in text(director.get(f"{DRAW}weights/120/anew/"))
    press(director, f"{DRAW}commitment/", "reveal")
    assert warning in text(director.get(f"{DRAW}weights/120/anew/"))


def test_too_late_for_a_commitment(spring: Tournament) -> None:
    draw_every(call=CALL, tournament=spring)
    director = signed_in("director", spring)
    assert "Too late for a commitment." in text(director.get(f"{DRAW}commitment/"))


def test_the_page_draws_again_when_asked(spring: Tournament) -> None:
    assert "Not drawn yet." in page()
    draw_every(call=CALL, tournament=spring)
    assert "Draw again and compare" in page()
    assert page("draw/?again=1").count("✓ same") == 2
    answer = Client().get("/t/spring/draw/?again=1")
    assert answer["Cache-Control"] == "public, max-age=2"  # never an old answer to a protest
    row = Drawn.objects.get(weight_class__key="126")
    row.drawn_lines = row.lines = [*row.lines[1::-1], *row.lines[2:]]
    row.save()
    seen = page("draw/?again=1")
    assert (seen.count("✓ same"), seen.count("✕ DIFFERENT")) == (1, 1)
    assert "something differs" in seen


def test_in_how_many_rounds_team_mates_can_meet(spring: Tournament) -> None:
    """Fourteen of four teams: two of four and two of three, so two in a half, three times."""
    draw_every(call=CALL, tournament=spring)
    told_ = draw_told(WeightClass.objects.get(key="120"))
    assert told_
    (parted,) = told_.parted
    assert [(one.round, one.pairs) for one in parted.found] == [("SF", 6)]
    assert parted.certified
    seen = page("weights/120/")
    assert "Team-mates can meet at the earliest in: Semifinals (6 pairs)." in " ".join(seen.split())
    assert "No draw keeps them apart longer: that is proven." in seen
    Tournament.objects.update(shows_entries=False)
    assert "Team-mates can meet" not in page("weights/120/")


def test_what_was_drawn_is_no_claim_about_lines_that_were_changed(spring: Tournament) -> None:
    draw_every(call=CALL, tournament=spring)
    director, desk = signed_in("director", spring), f"{DRAW}weights/120/"

    def pages() -> list[str]:
        return [" ".join(one.split()) for one in (page("weights/120/"), text(director.get(desk)))]

    weight = WeightClass.objects.get(key="120")
    for seen in pages():
        assert "As drawn:" not in seen
        assert "Its lines were changed since" not in seen
    for changes in ("1 change", "2 changes"):
        lines = (1, 3) if changes == "1 change" else (2, 4)
        swap_lines(call=CALL, weight=weight, lines=lines, reason="x")
        for seen in pages():
            assert "<strong>As drawn:</strong> Team-mates can meet at the earliest" in seen
            assert f"Its lines were changed since ({changes}); what was drawn no longer" in seen
    for lines in ((1, 3), (2, 4)):
        swap_lines(call=CALL, weight=weight, lines=lines, reason="back")
    assert not any("As drawn:" in seen for seen in pages())


def test_who_draws_again_is_told_which_lines_are_others_now(spring: Tournament) -> None:
    draw_every(call=CALL, tournament=spring)
    note = "lines were changed after the draw; compared are those drawn."
    assert note not in page("draw/?again=1")
    weight = WeightClass.objects.get(key="120")
    swap_lines(call=CALL, weight=weight, lines=(1, 3), reason="x")
    seen = page("draw/?again=1")
    assert "everything is the same" in seen
    assert f"<p>120: {note}</p>" in seen
    assert f"126: {note}" not in seen


def test_a_gap_is_shown_as_one(spring: Tournament) -> None:
    draw_every(call=CALL, tournament=spring)
    row = Drawn.objects.get(weight_class__key="120")
    row.parting = {
        "kept": [{"criterion": "met", "pairs": [0, 1, 0, 2], "bound": [0, 0, 0, 2]}],
        "patterns": "0",
    }
    row.save()
    seen = " ".join(page("weights/120/").split())
    assert "meet again at the earliest in: Round 1 (1 pair), Semifinals (2 pairs)." in seen
    assert "proven is that none is better than: Semifinals (2 pairs)." in seen


def test_large_numbers_as_people_read_them() -> None:
    assert (about("12345"), about("123456789"), about("1234567890")) == (
        *("12,345", "123,456,789"),
        "1.2 · 10^9",
    )


def test_by_the_interface(spring: Tournament) -> None:
    signed_in("owner", spring)
    owner = Api(spring.roles.get().user)
    empty = Api().ask("get", f"{HERE}/commitment/").json()
    assert empty["digest"] is None
    owner.act("post", f"{HERE}/commitment/")
    assert Api().ask("get", f"{HERE}/commitment/").json()["secret"] is None
    refused = owner.ask("post", f"{HERE}/weights/120/draw/", {"lot_seed": "mine"})
    assert (refused.status_code, refused.json()["errors"][0]["code"]) == (409, "seed-committed")
    owner.act("post", f"{HERE}/weights/120/draw/", {})
    assert owner.ask("delete", f"{HERE}/weights/120/draw/").status_code == 400
    owner.act("post", f"{HERE}/weights/120/draw/taken-back/", {"reason": "a late scratch"})
    owner.act("post", f"{HERE}/weights/120/draw/", {})
    owner.act("post", f"{HERE}/commitment/secret/")
    open_ = Api().ask("get", f"{HERE}/commitment/").json()
    assert open_["secret"] == Commitment.objects.get().secret
    found = Api().ask("get", f"{HERE}/draws/verification/").json()
    assert found["same"]
    (item,) = found["items"]
    assert (item["number"], item["outcome"], item["committed"]) == (2, "same", "yes")


def test_the_demo_can_be_drawn_again_and_was_committed_to() -> None:
    load_demo(last=1)
    found = verify(dump(Tournament.objects.get()))
    assert found.holds
    assert {(str(one.outcome), str(one.sealed)) for one in found.weights} == {("same", "yes")}


def test_nobody_else_commits(spring: Tournament) -> None:
    for role in ("table", "reader", "committee"):
        sent = signed_in(role, spring).post(f"{DRAW}commitment/", {"do": "commit"})
        assert sent.status_code == 403
    assert Client().post(f"{DRAW}commitment/", {"do": "commit"}).status_code == 302
    assert not Commitment.objects.exists()
    assert Entry.objects.exists()


def test_of_two_pools_it_is_told_who_meets_in_his_pool_and_who_in_a_semifinal() -> None:
    """Three seeds have an unseeded team-mate: that of 1 goes to B, of those of 2 and 3 one can go
    to A; the other two are drawn for two lines."""
    spring = load(event({"bracket.two_pools": [7]}, seeded=4, entries=7))
    draw_every(call=CALL, tournament=spring)
    seen = " ".join(page("weights/120/").split())
    assert "Team-mates can meet at the earliest in: Pool (1 pair), Semifinals (2 pairs)." in seen
    assert "No draw keeps them apart longer: that is proven." in seen
    assert "could go to the teams in 4 equally good ways" in seen
