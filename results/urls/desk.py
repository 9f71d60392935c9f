"""Addresses of the desk."""

from django.urls import URLPattern, path

from results.views.desk import (
    bout,
    bouts,
    commitment,
    draw,
    giving_back,
    groups,
    mat,
    overview,
    points,
    qualifiers,
    rulings,
    sheets,
    teams,
    withdrawals,
)

urlpatterns: list[URLPattern] = [
    path("desk/<slug:slug>/", overview.home, name="desk-home"),
    path("desk/<slug:slug>/draw/", draw.draw, name="desk-draw"),
    path("desk/<slug:slug>/draw/commitment/", commitment.commitment, name="desk-commitment"),
    path("desk/<slug:slug>/draw/mats/", draw.mats, name="desk-draw-mats"),
    path("desk/<slug:slug>/draw/weights/<str:weight>/", draw.weight, name="desk-draw-weight"),
    path("desk/<slug:slug>/bouts/", bouts.bouts, name="desk-bouts"),
    path("desk/<slug:slug>/bouts/find/", bouts.find, name="desk-bouts-find"),
    path("desk/<slug:slug>/bouts/<int:number>/", bout.bout, name="desk-bout"),
    path("desk/<slug:slug>/bouts/<int:number>/kind/", bout.kind, name="desk-bout-kind"),
    path("desk/<slug:slug>/bouts/<int:number>/ruling/", rulings.on_bout, name="desk-rule-bout"),
    path("desk/<slug:slug>/rulings/", rulings.listed, name="desk-rulings"),
    path("desk/<slug:slug>/rulings/<int:ruling>/", rulings.taking_back, name="desk-ruling"),
    path("desk/<slug:slug>/rulings/places/<str:weight>/", rulings.on_place, name="desk-rule-place"),
    path("desk/<slug:slug>/mats/<str:mat>/", mat.mat, name="mat-table"),
    path("desk/<slug:slug>/mats/<str:mat>/undo/", mat.undo, name="mat-undo"),
    path("desk/<slug:slug>/withdrawals/", withdrawals.withdrawals, name="desk-withdrawals"),
    path("desk/<slug:slug>/qualifying/take/", qualifiers.qualifiers, name="desk-qualifiers"),
    path("desk/<slug:slug>/groups/<str:key>/change/", groups.groups, name="desk-regroup"),
    path("desk/<slug:slug>/points/", points.points, name="desk-points"),
    path("desk/<slug:slug>/points/teams/", teams.teams, name="desk-team-moves"),
    path("desk/<slug:slug>/season/", giving_back.season, name="desk-giving-back"),
    path("desk/<slug:slug>/sheets/weights/<str:weight>/", sheets.paper, name="desk-sheet-paper"),
    path("desk/<slug:slug>/sheets/", sheets.sheets, name="desk-sheets"),
    path("desk/<slug:slug>/sheets/<uuid:uid>/", sheets.download, name="desk-sheets-file"),
]
