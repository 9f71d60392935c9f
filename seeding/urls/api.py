"""Addresses of the API."""

from django.urls import path

from seeding.api import order, season

HERE = "api/v1/tournaments/<slug:slug>"
ORDER = f"{HERE}/weights/<str:weight>/order"

urlpatterns = [
    path(f"{ORDER}/", order.WeightOrder.as_view(), name="api-order"),
    path(f"{ORDER}/moves/", order.Moves.as_view(), name="api-moves"),
    path(f"{ORDER}/moves/<int:move>/", order.OneMove.as_view(), name="api-move"),
    path(f"{ORDER}/adoption/", order.Adoption.as_view(), name="api-adoption"),
    path(f"{ORDER}/inputs/", order.Inputs.as_view(), name="api-inputs"),
    path(f"{HERE}/season/", season.Season.as_view(), name="api-season"),
    path(f"{HERE}/season/<uuid:uid>/", season.KeptSeason.as_view(), name="api-season-kept"),
]
