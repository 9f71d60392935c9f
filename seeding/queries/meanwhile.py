"""What others did to an order since somebody last saw it."""

from collections.abc import Mapping
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from seeding.entries.models import WeightClass
from seeding.entries.queries import names_in
from seeding.journal.models import Act
from seeding.journal.services import OPERATOR
from seeding.models import Override, SeedOrder

KINDS = ("seed.", "order.", "ranks.", "challenge.", "ballot.")
"""The acts that raise the version of an order begin with one of these."""
LOOKED_AT = 300
"""So many acts of the tournament are looked through; who was away for longer looks at the log."""
SAID = {
    "seed.moved": gettext_lazy("moved %(entry)s to place %(to)s"),
    "seed.move-taken-back": gettext_lazy("took the move of %(entry)s back"),
    "order.adopted": gettext_lazy("adopted the order"),
    "ranks.set": gettext_lazy("put in ranks and places"),
    "ranks.taken-in": gettext_lazy("took in a file of ranks, places or ballots"),
    "ballot.set": gettext_lazy("put in a ballot"),
    "ballot.taken": gettext_lazy("took a ballot away"),
    "challenge.opened": gettext_lazy("set how long challenges are heard"),
    "challenge.made": gettext_lazy("recorded a challenge for %(entry)s"),
    "challenge.granted": gettext_lazy("granted the challenge for %(entry)s"),
    "challenge.refused": gettext_lazy("refused the challenge for %(entry)s"),
    "challenge.withdrawn": gettext_lazy("withdrew the challenge for %(entry)s"),
}


def since(weight: WeightClass, version: int) -> tuple[str, ...]:
    """In words, oldest first, every act on the weight's order after that version of it."""
    current = SeedOrder.objects.get(weight_class=weight).version
    rows = Act.objects.filter(log=weight.tournament.log_id).order_by("-seq")[:LOOKED_AT]
    acts = [act for act in rows if act.verb.startswith(KINDS) and _about(act, weight)]
    latest = acts[: max(current - version, 0)][::-1]
    names = names_in(latest)
    moves = Override.objects.in_bulk([act.subject.get("move", 0) for act in latest])
    return tuple(_said(act, names, weight) + _reason(act, moves) for act in latest)


def _about(act: Act, weight: WeightClass) -> bool:
    subject = act.subject
    return subject.get("weight") == weight.pk or weight.pk in subject.get("weights", ())


def _said(act: Act, names: Mapping[tuple[str, int], str], weight: WeightClass) -> str:
    who = _("operator") if act.actor == OPERATOR else names.get(("actor", act.actor), "?")
    one = act.subject.get("entry")  # of ranks there are several, and the words name none
    entry = names.get(("entry", one), "") if isinstance(one, int) else ""
    words = SAID.get(act.verb, act.verb.replace(".", " ").replace("-", " "))
    what = str(words) % {"entry": entry, "to": act.subject.get("to", "")}
    at = act.at.astimezone(ZoneInfo(weight.tournament.time_zone))
    return f"{at:%H:%M} {who} {what}"


def _reason(act: Act, moves: Mapping[int, Override]) -> str:
    move = moves.get(act.subject.get("move", 0))
    return f" (“{move.reason}”)" if move else ""
