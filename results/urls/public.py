"""Addresses that everyone may open."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
