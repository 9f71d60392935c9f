"""Shapes that every part of the API shares."""

from typing import Any

from rest_framework import serializers


class StrictSerializer(serializers.Serializer[Any]):
    """Refuses keys that it does not know, with their path, together with all other problems."""

    def to_internal_value(self, data: Any) -> Any:
        known = [name for name, field in self.fields.items() if not field.read_only]
        unknown = [str(name) for name in data if name not in known] if _is_map(data) else []
        hint = f"There is no such field; there are: {', '.join(known) or 'none'}."
        problems: dict[str, Any] = {name: [hint] for name in unknown}
        try:
            found = super().to_internal_value(data)
        except serializers.ValidationError as error:
            detail = error.detail
            raise serializers.ValidationError(
                {**problems, **detail} if isinstance(detail, dict) else detail
            ) from error
        if problems:
            raise serializers.ValidationError(problems, code="unknown-field")
        return found


def _is_map(data: object) -> bool:
    return isinstance(data, dict)


class NothingSerializer(StrictSerializer):
    """No field at all."""


class FollowingSerializer(StrictSerializer):
    """Query parameters of a document that is followed."""

    after = serializers.IntegerField(
        required=False,
        min_value=0,
        max_value=2**62,
        help_text="The newest `seq` that you know. The answer is 204 where nothing is newer.",
    )


class PageSerializer(StrictSerializer):
    """Query parameters of a list."""

    limit = serializers.IntegerField(default=200, min_value=1, max_value=1000)
    offset = serializers.IntegerField(default=0, min_value=0, max_value=1_000_000)


class FollowedPageSerializer(FollowingSerializer, PageSerializer):
    """Query parameters of a list that is followed."""


class DoneSerializer(serializers.Serializer[Any]):
    """An act that is in the log."""

    seq = serializers.IntegerField(help_text="Its number in the tournament's log.")
    verb = serializers.CharField(help_text="What was done, such as `result.entered`.")
    subject = serializers.DictField(help_text="What it concerned, by the ids of the log.")
    key = serializers.CharField(required=False, help_text="How what was made is called here.")
    address = serializers.CharField(required=False, help_text="Where what was made is found.")


class ErrorSerializer(serializers.Serializer[Any]):
    """One thing that is wrong."""

    code = serializers.CharField(help_text="For programs, such as `bout-already-decided`.")
    detail = serializers.CharField(help_text="For people: what is wrong and what to do.")
    attr = serializers.CharField(
        allow_null=True, help_text="The path of the field, row or parameter, if there is one."
    )


class ErrorsSerializer(serializers.Serializer[Any]):
    """Why nothing was done: everything that is wrong."""

    type = serializers.ChoiceField(choices=["validation_error", "client_error", "server_error"])
    errors = ErrorSerializer(many=True)  # type: ignore[assignment]
