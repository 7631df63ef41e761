"""Words in the CAD file: what every reader shows alike."""

import pytest

from powerplan.sheets.writers.dxf_words import dxf_words, mtext_words


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("6′-3½″", "6'-3 1/2\""),
        ("45° ± 2", "45%%d %%p 2"),
        ("0.5 Ω", "0.5 ohm"),
        ("a ≤ b ≥ c", "a <= b >= c"),
        ("2 × 3", "2 x 3"),
        ("Café Zürich", "Cafe Zurich"),
        ("⌀ 4", "%%c 4"),
        ("A3–A4", "A3-A4"),
    ],
)
def test_marks_become_plain_forms(text: str, shown: str):
    assert dxf_words(text) == shown
    assert dxf_words(text).isascii()


def test_codes_that_a_person_typed_do_nothing():
    assert dxf_words("50%%d") == "50% %d"
    assert dxf_words("a^Jb") == "a^ Jb"
    assert "\n" not in dxf_words("a\nb")
    assert mtext_words("{a\\Pb}") == "\\{a\\\\Pb\\}"


def test_letters_of_other_scripts_stay():
    assert dxf_words("客厅") == "客厅"
