"""Addresses of what is put in: the season, doubtful names and bouts, ranks and ballots."""

from django.urls import path

from seeding.views import names, twice

DESK = "desk/<slug:slug>/intake"

urlpatterns = [
    path(f"{DESK}/names/", names.names, name="desk-names"),
    path(f"{DESK}/names/<str:one>/<str:other>/", names.pair, name="desk-names-pair"),
    path(f"{DESK}/twice/", twice.twice, name="desk-twice"),
]
