"""What of groups is told in words."""

from collections.abc import Iterable
from decimal import Decimal

from django import template
from django.utils.translation import gettext as _

from seeding.entries.core.group_rules import ANY, GroupRules, SpreadIn
from seeding.entries.core.groups import Broken, Left, Limit, Why, spread
from seeding.entries.queries.groups import Member

register = template.Library()


@register.filter
def figure(value: Decimal | int | None) -> str:
    """A number without idle zeros; nothing where it is not known."""
    if value is None:
        return ""
    text = format(Decimal(value), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


@register.filter
def broken_words(one: Broken, unit: str) -> str:
    """A limit that a group breaks."""
    words = {
        Limit.FEW: _("%(found)s wrestlers, at least %(allowed)s are wanted"),
        Limit.MANY: _("%(found)s wrestlers, at most %(allowed)s are wanted"),
        Limit.WEIGHT: _("spread %(found)s %(unit)s, allowed %(allowed)s %(unit)s"),
        Limit.AGE: _("%(found)s years of age apart, allowed %(allowed)s"),
        Limit.EXPERIENCE: _("%(found)s years of experience apart, allowed %(allowed)s"),
        Limit.UNKNOWN: _("of %(found)s a needed figure is not known"),
    }
    named = {"found": figure(one.found), "allowed": figure(_cut(one.allowed)), "unit": unit}
    return words[one.limit] % named


def _cut(value: Decimal) -> Decimal:
    return value.quantize(Decimal("0.01")) if value % 1 else value


@register.filter
def left_words(left: Left) -> str:
    """Why somebody is in no group."""
    if left.why is Why.NOBODY_NEAR and not left.near:
        return _("nobody else is within the limits")
    words = {
        Why.NOT_WEIGHED: _("no weight yet"),
        Why.NO_AGE: _("no age given"),
        Why.NO_EXPERIENCE: _("no experience given"),
        Why.NOBODY_NEAR: _("too few others are within the limits: %(near)s"),
        Why.NO_ROOM: _(
            "%(near)s are within the limits, but any further group would be too small or too large"
        ),
    }
    return words[left.why] % {"near": left.near}


@register.filter
def spread_words(people: Iterable[Member], unit: str) -> str:
    """The spread of weights in a group."""
    found = spread([one.figures for one in people])
    return _("spread %(spread)s %(unit)s") % {"spread": figure(found), "unit": unit}


@register.filter
def limit_words(rules: GroupRules) -> str:
    """The limits of a group in one line."""
    share = "%" if rules.spread_in is SpreadIn.PERCENT else f" {rules.unit}"
    parts = [
        _("Groups of %(size)s, from %(least)s to %(most)s")
        % {"size": rules.size, "least": rules.least, "most": rules.most},
        _("weights at most %(spread)s apart")
        % {"spread": f"{figure(rules.largest_spread)}{share}"},
    ]
    if rules.age_spread < ANY:
        parts.append(_("ages at most %(years)s apart") % {"years": rules.age_spread})
    if rules.experience_spread < ANY:
        parts.append(
            _("experience at most %(years)s years apart") % {"years": rules.experience_spread}
        )
    return "; ".join(parts) + "."
