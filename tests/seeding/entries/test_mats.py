"""Mats have names that can stand in an address."""

import pytest

from seeding.entries.models import Tournament
from seeding.journal.core.errors import Invalid
from tests.results.championship import document, load

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("mats", "message"),
    [
        (["A/B"], "“A/B”: a mat is named by up to 20 letters, digits, blanks or hyphens."),
        (["1", "1"], "Name at least one mat, and no name twice"),
        ([" "], "Name at least one mat"),
    ],
)
def test_a_mat_without_a_usable_name_is_refused(mats: list[str], message: str) -> None:
    file = document(entries=8)
    with pytest.raises(Invalid, match=message):
        load(file | {"tournament": file["tournament"] | {"mats": mats}})
    assert not Tournament.objects.exists()


def test_words_and_numbers_name_mats() -> None:
    file = document(entries=8)
    mats = ["1", "Mat 2", "Große Halle"]
    tournament = load(file | {"tournament": file["tournament"] | {"mats": mats}})
    assert tournament.mats == mats
