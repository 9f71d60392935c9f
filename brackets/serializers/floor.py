"""Shapes of what is done to numbers and mats."""

from rest_framework import serializers

from seeding.journal.serializers import StrictSerializer


class MatSerializer(StrictSerializer):
    """The mat that a bout is sent to."""

    mat = serializers.CharField(max_length=20)
