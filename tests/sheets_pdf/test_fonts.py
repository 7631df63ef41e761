"""The letters that are shipped: held against the font files by another library."""

import csv

import pytest
from fontTools.ttLib import TTFont

from powerplan.sheets.fonts import (
    BOLD_FONT,
    CAP,
    FONT,
    LICENSE,
    REPLACEMENT,
    WEB_BOLD_FONT,
    WEB_FONT,
    drawable,
    text_width_mm,
)

NEEDED = "½¼¾⅛⅜⅝⅞″′°Ω±≤≥×–—“”‘’…☐☑éßøçñłőžŵ" + "".join(map(chr, range(32, 127)))


@pytest.mark.parametrize("file", [FONT, BOLD_FONT, WEB_FONT, WEB_BOLD_FONT])
def test_the_characters_of_the_trade_are_in_every_font(file):
    assert set(NEEDED) <= set(map(chr, TTFont(file).getBestCmap()))


@pytest.mark.parametrize(("file", "bold"), [(FONT, False), (BOLD_FONT, True)])
def test_the_table_of_widths_is_that_of_the_font(file, bold):
    font = TTFont(file)
    for code, name in font.getBestCmap().items():
        advance = font["hmtx"].metrics[name][0] / font["head"].unitsPerEm
        assert text_width_mm(chr(code), CAP, bold=bold) == pytest.approx(advance)


def test_the_height_of_capitals_is_that_of_the_font():
    font = TTFont(FONT)
    assert font["glyf"]["H"].yMax / font["head"].unitsPerEm == pytest.approx(CAP, abs=0.001)


def test_the_width_of_words_is_the_sum_of_their_letters():
    one = text_width_mm("n", 2.0)
    assert text_width_mm("n" * 12, 2.0) == pytest.approx(12 * one)
    assert text_width_mm("n", 4.0) == pytest.approx(2 * one)
    assert text_width_mm("n", 2.0, bold=True) > one


def test_the_license_of_the_letters_is_shipped_with_them():
    text = LICENSE.read_text(encoding="utf-8")
    notice = TTFont(FONT)["name"].getDebugName(0)
    assert all(line in text for line in notice.splitlines())
    assert "Permission is hereby granted, free of charge" in text


def test_no_width_stands_twice():
    table = FONT.parent / "letters-widths.csv"
    with table.open(encoding="utf-8", newline="") as stream:
        codes = [row["code"] for row in csv.DictReader(stream)]
    assert len(codes) == len(set(codes)) > len(NEEDED)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("6 ft 3 1/4 in", "6 ft 3 1/4 in"),
        ("⅛ ″ é", "⅛ ″ é"),
        ("cafe\u0301", "café"),
        ("den \U0001f3ac", f"den {REPLACEMENT}"),
        ("\u05e9\u05dc", REPLACEMENT * 2),
        ("a\tb\nc\u00a0d", "a b c d"),
        ("bell\x07", "bell\\x07"),
        ("\u202eback", "\\u202eback"),
        ("", ""),
    ],
)
def test_what_the_font_lacks_is_seen_and_does_no_harm(text, shown):
    assert drawable(text) == shown


def test_what_cannot_be_drawn_has_the_width_of_what_stands_for_it():
    assert text_width_mm("\U0001f3ac", 2.0) == text_width_mm(REPLACEMENT, 2.0)
