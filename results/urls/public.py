"""Addresses that everyone may open."""

from django.urls import path

from results.views.public import bouts, draw, front, paper, people, points, sheet

urlpatterns = [
    path("", front.tournaments, name="tournaments"),
    path("t/<slug:slug>/", front.front, name="front"),
    path("t/<slug:slug>/weights/<str:weight>/", sheet.sheet, name="sheet"),
    path("t/<slug:slug>/weights/<str:weight>/sheet.pdf", paper.paper, name="sheet-paper"),
    path("t/<slug:slug>/draw/", draw.draw, name="public-draw"),
    path("t/<slug:slug>/bouts/", bouts.bouts, name="bouts"),
    path("t/<slug:slug>/points/", points.points, name="points"),
    path("t/<slug:slug>/teams/<str:team>/", people.team, name="team"),
    path("t/<slug:slug>/wrestlers/<str:uid>/", people.wrestler, name="wrestler"),
]
