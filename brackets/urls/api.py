"""Addresses of the API."""

from django.urls import path

from brackets.api import floor, rematches

HERE = "api/v1/tournaments/<slug:slug>"

urlpatterns = [
    path(f"{HERE}/numbers/", floor.Numbers.as_view(), name="api-numbers"),
    path(f"{HERE}/bouts/<str:bout>/mat/", floor.BoutMat.as_view(), name="api-bout-mat"),
    path(
        f"{HERE}/divisions/<str:key>/rematches/",
        rematches.DivisionRematches.as_view(),
        name="api-rematches",
    ),
]
