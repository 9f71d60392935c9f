"""The addresses of this app: its pages and its part of the API."""

from seeding.entries.urls import api
from seeding.entries.urls import desk

urlpatterns = [*desk.urlpatterns, *api.urlpatterns]
