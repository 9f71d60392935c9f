"""Addresses of the desk."""

from django.urls import URLPattern, path

from results.views.desk import draw

urlpatterns: list[URLPattern] = [
    path("desk/<slug:slug>/draw/", draw.draw, name="desk-draw"),
    path("desk/<slug:slug>/draw/mats/", draw.mats, name="desk-draw-mats"),
    path("desk/<slug:slug>/draw/weights/<str:weight>/", draw.weight, name="desk-draw-weight"),
]
