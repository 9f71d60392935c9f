"""The commitment of a tournament file, written into the tables."""

from datetime import datetime

from brackets.core.commitment import commitment
from brackets.models import Commitment, TakenBack
from seeding.entries.services.document import Document, Ground, look_up
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import OPERATOR, Call

WHERE = "draw_commitment"


def load_commitment(call: Call, ground: Ground, document: Document) -> None:
    """Take the commitment over where the operator of the machine loads the file.

    Out of anybody else's hands its time would be no more than a claim. A secret that does not
    give the digest is refused.
    """
    item = document.get(WHERE)
    if not item or call.actor != OPERATOR:
        return
    secret = item.get("secret", "")
    if secret and commitment(secret) != item["digest"]:
        raise Invalid([Problem(f"{WHERE}.secret", "This is not the secret of the digest.")])
    told = item.get("revealed_at")
    Commitment.objects.create(
        tournament=ground.tournament,
        digest=item["digest"],
        secret=secret,
        at=datetime.fromisoformat(item["at"]),
        revealed_at=datetime.fromisoformat(told) if told else call.now if secret else None,
    )
    for at, one in enumerate(item.get("taken_back", ())):
        weight = look_up(ground.weights, one["weight_class"], f"{WHERE}.taken_back[{at}]")
        TakenBack.objects.create(
            weight_class=weight,
            number=one["number"],
            reason=one["reason"],
            at=datetime.fromisoformat(one["at"]),
        )
