"""Addresses of qualifying: its pages at the desk, and its part of the API."""

from django.urls import path

from seeding.api import qualifying as api
from seeding.views import field, qualifying

DESK = "desk/<slug:slug>/qualifying"
HERE = "api/v1/tournaments/<slug:slug>"
WEIGHT = f"{HERE}/weights/<str:weight>/field"

urlpatterns = [
    path(f"{DESK}/", qualifying.qualifying, name="desk-qualifying"),
    path(f"{DESK}/regions/<str:letter>/", qualifying.region, name="desk-region"),
    path(f"{DESK}/weights/<str:weight>/", field.field, name="desk-field"),
    path(f"{DESK}/weights/<str:weight>/places/", field.places, name="desk-field-places"),
    path(f"{HERE}/qualifying/", api.Qualifying.as_view(), name="api-qualifying"),
    path(f"{HERE}/regions/", api.Regions.as_view(), name="api-regions"),
    path(f"{HERE}/regions/<str:letter>/", api.OneRegion.as_view(), name="api-region"),
    path(f"{WEIGHT}/", api.WeightField.as_view(), name="api-field"),
    path(f"{WEIGHT}/places/", api.FieldPlaces.as_view(), name="api-field-places"),
    path(f"{WEIGHT}/candidates/", api.Candidates.as_view(), name="api-candidates"),
    path(
        f"{HERE}/entries/<str:key>/alternate/", api.EntryAlternate.as_view(), name="api-alternate"
    ),
]
