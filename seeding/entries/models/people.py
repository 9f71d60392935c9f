"""Organisations, users and their roles, wrestlers."""

import secrets
from typing import ClassVar

from django.contrib.auth.models import AbstractUser
from django.db import models
from django.utils.translation import gettext_lazy as _


def opaque() -> str:
    """An id that says nothing about the person: used in every address of a person."""
    return secrets.token_hex(6)


class Organisation(models.Model):
    """Who holds tournaments; owns wrestlers and seasons, and shares neither."""

    slug = models.SlugField(unique=True)
    name = models.CharField(max_length=120)

    def __str__(self) -> str:
        return self.name


class User(AbstractUser):
    """A person who signs in. `founds`: he may hold tournaments for his organisation."""

    organisation = models.ForeignKey(
        Organisation, on_delete=models.PROTECT, null=True, blank=True, related_name="users"
    )
    founds = models.BooleanField(default=False)


class Role(models.Model):
    """What one user may do in one tournament."""

    class Name(models.TextChoices):
        OWNER = "owner", _("owner")
        DIRECTOR = "director", _("director")
        COMMITTEE = "committee", _("seeding committee")
        TABLE = "table", _("table worker")
        READER = "reader", _("reader")

    tournament = models.ForeignKey(
        "entries.Tournament", on_delete=models.PROTECT, related_name="roles"
    )
    user = models.ForeignKey(User, on_delete=models.PROTECT, related_name="roles")
    name = models.CharField(max_length=10, choices=Name.choices)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["tournament", "user"], name="one_role_per_tournament")
        ]


class Wrestler(models.Model):
    """A person who wrestles, as the organisation knows him; `home` is his team of the season."""

    organisation = models.ForeignKey(
        Organisation, on_delete=models.PROTECT, related_name="wrestlers"
    )
    uid = models.CharField(max_length=40, default=opaque, editable=False)
    given = models.CharField(max_length=80, blank=True)
    family = models.CharField(max_length=80)
    home = models.CharField(max_length=120, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["organisation", "given", "family", "home"], name="wrestler_once"
            ),
            models.UniqueConstraint(fields=["organisation", "uid"], name="wrestler_uid_once"),
        ]

    def __str__(self) -> str:
        return self.uid

    @property
    def name(self) -> str:
        """The whole name, as a person would say it."""
        return f"{self.given} {self.family}".strip()
