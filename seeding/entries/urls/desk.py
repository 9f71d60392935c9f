"""Addresses of the desk."""

from django.urls import path

from seeding.entries.views import (
    entries,
    entry,
    frame,
    groups,
    home,
    log,
    people,
    roster,
    teams,
    weights,
)

urlpatterns = [
    path("desk/", home.home, name="desk"),
    path("desk/<slug:slug>/frame/", frame.frame, name="desk-frame"),
    path("desk/<slug:slug>/weights/", weights.weights, name="desk-weights"),
    path("desk/<slug:slug>/weights/<str:key>/", weights.weight, name="desk-weight"),
    path("desk/<slug:slug>/divisions/<str:key>/", weights.division, name="desk-division"),
    path("desk/<slug:slug>/groups/<str:key>/", groups.groups, name="desk-groups"),
    path("desk/<slug:slug>/teams/", teams.teams, name="desk-teams"),
    path("desk/<slug:slug>/teams/<str:key>/", teams.team, name="desk-team"),
    path("desk/<slug:slug>/entries/", entries.overview, name="desk-entries"),
    path("desk/<slug:slug>/entries/<str:weight>/", entries.weight, name="desk-entries"),
    path("desk/<slug:slug>/entry/<str:key>/", entry.entry, name="desk-entry"),
    path("desk/<slug:slug>/intake/roster/", roster.upload, name="desk-roster"),
    path("desk/<slug:slug>/intake/roster/<uuid:uid>/", roster.plan, name="desk-roster-plan"),
    path(
        "desk/<slug:slug>/intake/roster.<str:kind>",
        roster.blank,
        name="desk-roster-blank",
    ),
    path("desk/<slug:slug>/people/", people.people, name="desk-people"),
    path("desk/<slug:slug>/log/", log.log, name="desk-log"),
    path("desk/<slug:slug>/jobs/<uuid:uid>/", log.job, name="desk-job"),
    path("desk/<slug:slug>/jobs/<uuid:uid>/file", log.product, name="desk-job-file"),
]
