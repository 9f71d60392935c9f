"""The addresses of this app: its pages and its part of the API."""

from seeding.urls import api, desk, qualifying, season

urlpatterns = [
    *desk.urlpatterns,
    *api.urlpatterns,
    *season.urlpatterns,
    *qualifying.urlpatterns,
]
