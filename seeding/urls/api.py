"""Addresses of the API."""

from django.urls import path

from seeding.api import challenges, evidence, lists, minutes, order, recusal, season

HERE = "api/v1/tournaments/<slug:slug>"
ORDER = f"{HERE}/weights/<str:weight>/order"

urlpatterns = [
    path(f"{ORDER}/", order.WeightOrder.as_view(), name="api-order"),
    path(f"{ORDER}/moves/", order.Moves.as_view(), name="api-moves"),
    path(f"{ORDER}/moves/<int:move>/", order.OneMove.as_view(), name="api-move"),
    path(f"{ORDER}/adoption/", order.Adoption.as_view(), name="api-adoption"),
    path(f"{ORDER}/inputs/", order.Inputs.as_view(), name="api-inputs"),
    path(f"{ORDER}/pair/", evidence.OrderPair.as_view(), name="api-pair"),
    path(f"{ORDER}/violations/", evidence.OrderViolations.as_view(), name="api-violations"),
    path(f"{ORDER}/challenges/", challenges.OrderChallenges.as_view(), name="api-challenges"),
    path(
        f"{ORDER}/challenges/window/",
        challenges.ChallengeWindow.as_view(),
        name="api-challenge-window",
    ),
    path(
        f"{ORDER}/challenges/<int:challenge>/",
        challenges.OneChallenge.as_view(),
        name="api-challenge",
    ),
    path(
        f"{ORDER}/challenges/<int:challenge>/answer/",
        challenges.ChallengeAnswer.as_view(),
        name="api-challenge-answer",
    ),
    path(f"{ORDER}/minutes/", minutes.OrderMinutes.as_view(), name="api-minutes"),
    path(
        f"{ORDER}/minutes/signatures/",
        minutes.MinutesSignatures.as_view(),
        name="api-signatures",
    ),
    path("api/v1/criteria-lists/", lists.CriteriaLists.as_view(), name="api-lists"),
    path("api/v1/criteria-lists/<slug:name>/", lists.OneCriteriaList.as_view(), name="api-list"),
    path(
        f"{HERE}/divisions/<str:key>/list/", lists.DivisionList.as_view(), name="api-division-list"
    ),
    path(f"{HERE}/own-teams/", recusal.OwnTeams.as_view(), name="api-own-teams"),
    path(f"{HERE}/own-teams/<str:username>/", recusal.OwnTeamsOf.as_view(), name="api-own-team"),
    path(f"{HERE}/season/", season.Season.as_view(), name="api-season"),
    path(f"{HERE}/season/<uuid:uid>/", season.KeptSeason.as_view(), name="api-season-kept"),
]
