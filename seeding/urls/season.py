"""Addresses of what is put in: the season, doubtful names and bouts, ranks and ballots."""

from django.urls import path

from seeding.api import doubts
from seeding.api import put_in as api
from seeding.views import names, put_in, twice

DESK = "desk/<slug:slug>/intake"
HERE = "api/v1/tournaments/<slug:slug>"
ORDER = f"{HERE}/weights/<str:weight>/order"
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
    path(f"{HERE}/season/doubles/", doubts.SeasonDoubles.as_view(), name="api-doubles"),
    path(f"{HERE}/season/apart/", doubts.SeasonApart.as_view(), name="api-apart"),
    path(f"{HERE}/season/merges/", doubts.SeasonMerges.as_view(), name="api-merges"),
    path(f"{HERE}/season/repeats/", doubts.SeasonRepeats.as_view(), name="api-repeats"),
    path(f"{HERE}/season/two-bouts/", doubts.SeasonTwoBouts.as_view(), name="api-two-bouts"),
    path(f"{HERE}/season/strikes/", doubts.SeasonStrikes.as_view(), name="api-strikes"),
    path(f"{HERE}/season/strikes/<int:bout>/", doubts.SeasonStrike.as_view(), name="api-strike"),
    path(f"{HERE}/put-in/plan/", api.PutInPlan.as_view(), name="api-put-in-plan"),
    path(f"{HERE}/put-in/", api.PutIn.as_view(), name="api-put-in"),
    path(f"{ORDER}/tables/", api.WeightTables.as_view(), name="api-tables"),
    path(f"{ORDER}/ballots/", api.Ballots.as_view(), name="api-ballots"),
    path(f"{ORDER}/ballots/<int:ballot>/", api.OneBallot.as_view(), name="api-ballot"),
]
