"""Committing the draw, and telling its secret."""

import secrets

from brackets.core.commitment import commitment, seed_of
from brackets.core.errors import CommitTooLate, NothingToReveal, SecretElsewhere, SeedCommitted
from brackets.models import Commitment, TakenBack
from brackets.queries.commitment import anything_drawn, commitment_of, draws_before, waiting
from seeding.entries.models import Tournament, WeightClass
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act

BYTES = 32


@act
def commit_draw(*, call: Call, tournament: Tournament) -> Deed:
    """Draw a secret and publish its commitment: from now on it gives every draw its seed.

    A commitment whose secret did not come with its file is replaced.
    """
    require(call, tournament.pk, Right.DIRECT)
    hold_draws(tournament)
    kept = commitment_of(tournament)
    if anything_drawn(tournament) or (kept and kept.secret):
        raise CommitTooLate
    secret = secrets.token_hex(BYTES)
    found = {"secret": secret, "digest": commitment(secret), "at": call.now, "revealed_at": None}
    Commitment.objects.update_or_create(tournament=tournament, defaults=found)
    subject = {"commitment": found["digest"]}
    return Deed(tournament.log_id, "draw.committed", subject)


@act
def reveal_secret(*, call: Call, tournament: Tournament) -> Deed:
    """Tell the secret before everything is drawn; the seeds of later draws can be foreseen."""
    require(call, tournament.pk, Right.DIRECT)
    kept = commitment_of(tournament)
    if not (kept and kept.secret and not kept.revealed_at and anything_drawn(tournament)):
        raise NothingToReveal
    Commitment.objects.filter(pk=kept.pk).update(revealed_at=call.now)
    return Deed(tournament.log_id, "draw.secret-revealed", {"tournament": tournament.pk})


def reveal_when_drawn(call: Call, tournament: Tournament) -> None:
    """Tell the secret once no weight waits to be drawn (part of the act that drew the last)."""
    if not waiting(tournament):
        rows = Commitment.objects.filter(tournament=tournament, revealed_at=None)
        rows.exclude(secret="").update(revealed_at=call.now)


def hold_draws(tournament: Tournament) -> None:
    """No draw while the commitment is made, and none made while a weight is drawn.

    SQLite lets one writer in at a time anyway.
    """
    Tournament.objects.select_for_update().filter(pk=tournament.pk).first()


def committed_seed(weight: WeightClass, number: int, wanted: str) -> str:
    """The seed that the commitment gives the n-th draw of a weight; "" where there is none.

    Refuses another seed, and a draw whose secret is not here.
    """
    kept = commitment_of(weight.tournament)
    if not kept:
        return ""
    if not kept.secret:
        raise SecretElsewhere
    seed = seed_of(kept.secret, weight.key, number)
    if wanted not in ("", seed):
        raise SeedCommitted
    return seed


def next_number(weight: WeightClass) -> int:
    """Which draw of the weight comes next."""
    return len(draws_before(weight)) + 1


def note_taken_back(call: Call, weight: WeightClass, number: int, reason: str) -> None:
    """Keep why a draw was taken back; a committed one needs a reason."""
    if not reason.strip():
        hint = "This draw was committed to: say why it is taken back. The reason is published."
        raise Invalid([Problem("reason", hint)])
    TakenBack.objects.create(
        weight_class=weight,
        number=number,
        reason=reason.strip(),
        author_id=call.author,
        at=call.now,
    )
