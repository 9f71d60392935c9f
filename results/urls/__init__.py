"""The addresses of this app: its pages and its part of the API."""

from results.urls import api, desk, public

urlpatterns = [*public.urlpatterns, *desk.urlpatterns, *api.urlpatterns]
