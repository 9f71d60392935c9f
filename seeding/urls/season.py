"""Addresses of what is put in: the season, doubtful names and bouts, ranks and ballots."""

from django.urls import path

from seeding.views import names, put_in, twice

DESK = "desk/<slug:slug>/intake"
ROOM = "desk/<slug:slug>/seeding/<str:weight>"

urlpatterns = [
    path(f"{DESK}/names/", names.names, name="desk-names"),
    path(f"{DESK}/names/<str:one>/<str:other>/", names.pair, name="desk-names-pair"),
    path(f"{DESK}/twice/", twice.twice, name="desk-twice"),
    path(f"{DESK}/put-in/", put_in.upload, name="desk-put-in"),
    path(f"{DESK}/put-in/<uuid:uid>/", put_in.plan, name="desk-put-in-plan"),
    path(f"{DESK}/blank/<str:what>.<str:kind>", put_in.blank, name="desk-put-in-blank"),
    path(f"{ROOM}/ranks/", put_in.tables, name="desk-ranks"),
    path(f"{ROOM}/ballots/", put_in.ballots, name="desk-ballots"),
]
