"""The words of brackets on pages: `{% load rounds %}`."""

from django import template

from brackets.queries.words import consolation_at, crossing_name, round_name

register = template.Library()
register.filter(round_name)
register.filter(crossing_name)
register.filter(consolation_at)
