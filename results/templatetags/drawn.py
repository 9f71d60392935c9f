"""The words of a draw on pages: `{% load drawn %}`."""

from django import template
from django.utils.translation import gettext as _

from brackets.core.late import ChangeKind, LineChange
from brackets.core.rules import Apart
from brackets.serializers.verification import Fault, Outcome, Sealed

register = template.Library()


@register.filter
def kept_apart(criterion: str) -> str:
    """Of whom it is told in which rounds they can meet."""
    return {
        str(Apart.TEAM): _("Team-mates can meet at the earliest in:"),
        str(Apart.REGION): _("Wrestlers of one region can meet at the earliest in:"),
        str(Apart.MET): _("Wrestlers who met before can meet again at the earliest in:"),
    }[criterion]


@register.filter
def none_before_final(criterion: str) -> str:
    """That nobody can meet whom he should not."""
    return {
        str(Apart.TEAM): _("No two team-mates can meet before the final."),
        str(Apart.REGION): _("No two of one region can meet before the final."),
        str(Apart.MET): _("No two who met before can meet before the final."),
    }[criterion]


@register.filter
def outcome_words(outcome: Outcome) -> str:
    """What drawing again came to."""
    return {
        Outcome.SAME: _("✓ same"),
        Outcome.DIFFERENT: _("✕ DIFFERENT"),
        Outcome.GIVEN: _("lines were given, not drawn"),
    }[outcome]


@register.filter
def sealed_words(sealed: Sealed) -> str:
    """Whether the seed was committed to."""
    return {
        Sealed.YES: _("yes"),
        Sealed.NO: _("no"),
        Sealed.UNREVEALED: _("yes, not yet revealed"),
    }[sealed]


@register.filter
def fault_words(fault: Fault) -> str:
    """What does not fit."""
    return {
        Fault.LINES: _("the lines are not those that this draw gives"),
        Fault.FIELD: _("what it was drawn from is not what is told now"),
        Fault.RECORD: _("what is recorded of the draw is not what it comes to"),
        Fault.VERSION: _("it was drawn in a way that is not known here"),
        Fault.SEED: _("the seed is not the one that the commitment gives"),
        Fault.OTHER: _("it does not name the commitment of the tournament"),
        Fault.LATE: _("it was drawn before the commitment was published"),
        Fault.NUMBER: _("the draws that were taken back are not all told"),
        Fault.COMMITMENT: _("The secret does not give the published commitment."),
    }[fault]


@register.filter
def change_words(change: LineChange, weight: str) -> str:
    """What was changed, without names: who may be named is not said here."""
    lines = ", ".join(str(line) for line in change.lines)
    if change.among:
        text = _(
            "A late entry took line {line} by lot among the lines {among} "
            "(seed {seed}, purpose “late entry/{weight}”)."
        )
        among = ", ".join(str(line) for line in change.among)
        return text.format(line=lines, among=among, seed=change.lot_seed, weight=weight)
    words = {
        ChangeKind.EMPTIED: _("Line {lines} was vacated."),
        ChangeKind.REPLACED: _("Line {lines} went to another wrestler."),
        ChangeKind.FILLED: _("A late entry took line {lines}."),
        ChangeKind.SWAPPED: _("The lines {lines} changed places."),
    }
    return words[change.kind].format(lines=lines)
