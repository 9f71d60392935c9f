"""Addresses of the desk."""

from django.urls import path

from seeding.views import challenges, grid, intake, lists, minutes, recusal, room

urlpatterns = [
    path("desk/<slug:slug>/seeding/", room.weights, name="desk-seeding"),
    path("desk/<slug:slug>/seeding/<str:weight>/", room.room, name="desk-seeding"),
    path("desk/<slug:slug>/seeding/<str:weight>/compare/", room.compare, name="desk-compare"),
    path("desk/<slug:slug>/seeding/<str:weight>/grid/", grid.grid, name="desk-grid"),
    path(
        "desk/<slug:slug>/seeding/<str:weight>/violations/",
        grid.violations,
        name="desk-violations",
    ),
    path(
        "desk/<slug:slug>/seeding/<str:weight>/challenges/",
        challenges.challenges,
        name="desk-challenges",
    ),
    path("desk/<slug:slug>/seeding/<str:weight>/minutes/", minutes.minutes, name="desk-minutes"),
    path(
        "desk/<slug:slug>/seeding/<str:weight>/minutes.pdf",
        minutes.paper,
        name="desk-minutes-paper",
    ),
    path("desk/<slug:slug>/criteria/", lists.criteria, name="desk-criteria"),
    path("desk/<slug:slug>/criteria/<slug:name>.toml", lists.text, name="desk-list-file"),
    path("desk/<slug:slug>/criteria/lists/<slug:name>/", lists.read, name="desk-list-read"),
    path("desk/<slug:slug>/criteria/<str:key>/used.toml", lists.used, name="desk-list-used"),
    path("desk/<slug:slug>/criteria/<str:key>/", lists.division, name="desk-list"),
    path("desk/<slug:slug>/own-teams/", recusal.recusals, name="desk-recusals"),
    path("desk/<slug:slug>/intake/", intake.intake, name="desk-intake"),
    path("desk/<slug:slug>/intake/season/<uuid:uid>/", intake.season, name="desk-season"),
    path("desk/<slug:slug>/intake/season.<str:kind>", intake.blank, name="desk-season-blank"),
]
