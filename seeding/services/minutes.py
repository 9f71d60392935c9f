"""Signing the minutes of a weight."""

from seeding.core.errors import MinutesChanged
from seeding.entries.models import User, WeightClass
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import OPERATOR, Call, Deed, act
from seeding.models import Signature
from seeding.queries.minutes import signable
from seeding.services.order import kept_order


@act
def sign_minutes(*, call: Call, weight: WeightClass, name: str, digest: str) -> Deed:
    """A member of the committee signs the minutes that he read, by typing his name.

    `digest`: that of the minutes before his eyes. Signing again under the same minutes changes the
    name alone. A later change of the minutes makes the signature lapse; it stays on record.
    """
    require(call, weight.tournament_id, Right.SEED)
    if problems := _problems(call, name):
        raise Invalid(problems)
    kept = kept_order(weight)
    if signable(weight).digest != digest:
        raise MinutesChanged(weight=weight.label)
    user = User.objects.get(pk=call.actor)
    row, _made = Signature.objects.update_or_create(
        order=kept, user=user, digest=digest, defaults={"name": name.strip(), "at": call.now}
    )
    subject = {"weight": weight.pk, "signature": row.pk, "digest": digest}
    return Deed(weight.tournament.log_id, "minutes.signed", subject)


def _problems(call: Call, name: str) -> list[Problem]:
    if call.actor == OPERATOR:
        return [Problem("name", "The operator at the machine signs nothing. Sign in first.")]
    if not name.strip():
        return [Problem("name", "Type your name.")]
    return []
