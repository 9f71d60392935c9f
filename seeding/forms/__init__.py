"""The forms of the seeding room and of the season's intake."""

from seeding.forms.intake import SeasonForm
from seeding.forms.order import CompareForm, MoveForm
from seeding.forms.put_in import InputsForm

__all__ = ["CompareForm", "InputsForm", "MoveForm", "SeasonForm"]
