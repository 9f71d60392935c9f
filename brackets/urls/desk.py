"""Addresses of the desk."""

from django.urls import URLPattern, path

from brackets.views import rematches

urlpatterns: list[URLPattern] = [
    path("desk/<slug:slug>/rematches/<str:division>/", rematches.rematches, name="desk-rematches"),
]
