"""The line of each key, against a writer that knows it and against the standard parser."""

import tomllib

import pytest
from laws import law
from toml_writer import Path, paths_of, toml_texts

from powerplan.inputs.toml_lines import key_lines


@law(toml_texts(), usual=40, many=1000)
def test_the_keys_are_the_parsers_and_their_lines_the_writers(written: tuple[str, dict[Path, int]]):
    text, lines = written
    found = key_lines(text)
    assert found == lines
    assert set(found) == paths_of(tomllib.loads(text))


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("", {}),
        ("# only a comment", {}),
        ("a = 1", {("a",): 1}),
        ("\n\n[a.b]\nc = 1\n[a]\nd = 2\n",
         {("a",): 5, ("a", "b"): 3, ("a", "b", "c"): 4, ("a", "d"): 6}),
        ("[[a.b]]\nc = 1\n[[a.b]]\nc = 2\n[a.b.d]\ne = 1\n",
         {("a",): 1, ("a", "b"): 1, ("a", "b", 0): 1, ("a", "b", 0, "c"): 2, ("a", "b", 1): 3,
          ("a", "b", 1, "c"): 4, ("a", "b", 1, "d"): 5, ("a", "b", 1, "d", "e"): 6}),
        ('a = """\n""\n""""\nb = 1', {("a",): 1, ("b",): 4}),
    ],
)  # fmt: skip
def test_lines_by_hand(text: str, lines: dict[Path, int]):
    assert key_lines(text) == lines
