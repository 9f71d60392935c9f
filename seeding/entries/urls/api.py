"""Addresses of the API."""

from django.urls import path

from seeding.entries.api import (
    divisions,
    entries,
    groups,
    log,
    people,
    roster,
    rulebooks,
    teams,
    tournaments,
    weights,
)

API = "api/v1"
HERE = f"{API}/tournaments/<slug:slug>"
DIVISION = f"{HERE}/divisions/<str:key>"
ENTRY = f"{HERE}/entries/<str:key>"

urlpatterns = [
    path(f"{API}/rule-books/", rulebooks.RuleBooks.as_view(), name="api-rule-books"),
    path(f"{API}/rule-books/<str:name>/", rulebooks.OneRuleBook.as_view(), name="api-rule-book"),
    path(f"{API}/organisations/", people.Organisations.as_view(), name="api-organisations"),
    path(f"{API}/tournaments/", tournaments.Tournaments.as_view(), name="api-tournaments"),
    path(f"{HERE}/", tournaments.OneTournament.as_view(), name="api-tournament"),
    path(f"{HERE}/gates/", tournaments.TournamentGates.as_view(), name="api-gates"),
    path(f"{HERE}/divisions/", divisions.Divisions.as_view(), name="api-divisions"),
    path(f"{DIVISION}/", divisions.OneDivision.as_view(), name="api-division"),
    path(
        f"{DIVISION}/weight-sets/", divisions.DivisionWeightSets.as_view(), name="api-weight-sets"
    ),
    path(f"{DIVISION}/roster/", roster.Roster.as_view(), name="api-roster"),
    path(f"{DIVISION}/roster/plan/", roster.RosterPlan.as_view(), name="api-roster-plan"),
    path(f"{DIVISION}/grouping/", groups.DivisionGrouping.as_view(), name="api-grouping"),
    path(f"{DIVISION}/weighing/", groups.DivisionWeighing.as_view(), name="api-weighing"),
    path(f"{DIVISION}/groups/", groups.DivisionGroups.as_view(), name="api-groups"),
    path(f"{HERE}/weights/", weights.Weights.as_view(), name="api-weights"),
    path(f"{HERE}/weights/<str:weight>/", weights.OneWeight.as_view(), name="api-weight"),
    path(
        f"{HERE}/weights/<str:weight>/entries/",
        entries.WeightEntries.as_view(),
        name="api-weight-entries",
    ),
    path(f"{HERE}/teams/", teams.Teams.as_view(), name="api-teams"),
    path(f"{HERE}/teams/<str:team>/", teams.OneTeam.as_view(), name="api-team"),
    path(f"{ENTRY}/", entries.OneEntry.as_view(), name="api-entry"),
    path(f"{ENTRY}/name/", entries.EntryName.as_view(), name="api-entry-name"),
    path(f"{ENTRY}/weigh-in/", entries.EntryWeighIn.as_view(), name="api-entry-weigh-in"),
    path(f"{ENTRY}/scratch/", entries.EntryScratch.as_view(), name="api-entry-scratch"),
    path(f"{HERE}/roles/", people.Roles.as_view(), name="api-roles"),
    path(f"{HERE}/roles/<str:username>/", people.OneRole.as_view(), name="api-role"),
    path(f"{HERE}/acts/", log.Acts.as_view(), name="api-acts"),
    path(f"{HERE}/jobs/", log.Jobs.as_view(), name="api-jobs"),
    path(f"{HERE}/jobs/<uuid:uid>/", log.OneJob.as_view(), name="api-job"),
]
