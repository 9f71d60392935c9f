"""Addresses of the desk."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
