"""Addresses of the desk."""

from django.urls import path

from seeding.views import intake, room

urlpatterns = [
    path("desk/<slug:slug>/seeding/", room.weights, name="desk-seeding"),
    path("desk/<slug:slug>/seeding/<str:weight>/", room.room, name="desk-seeding"),
    path("desk/<slug:slug>/seeding/<str:weight>/compare/", room.compare, name="desk-compare"),
    path("desk/<slug:slug>/seeding/<str:weight>/ranks/", room.inputs, name="desk-ranks"),
    path("desk/<slug:slug>/intake/", intake.intake, name="desk-intake"),
    path("desk/<slug:slug>/intake/season/<uuid:uid>/", intake.season, name="desk-season"),
    path("desk/<slug:slug>/intake/season.<str:kind>", intake.blank, name="desk-season-blank"),
]
