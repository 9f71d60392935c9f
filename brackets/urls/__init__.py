"""The addresses of this app: its pages and its part of the API."""

from brackets.urls import api, desk

urlpatterns = [*desk.urlpatterns, *api.urlpatterns]
