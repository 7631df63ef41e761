"""The PDF read back by another library: scale, words, what every sheet carries, and its bytes."""

import hashlib
import subprocess
import sys
from pathlib import Path

import pytest
from pdf_reading import lengths_mm, reader, text_of, texts
from pdf_set import HASH, five_pages, line_view, make_set, page, room_view

from powerplan.sheets.caution import CAUTION
from powerplan.sheets.paper import A4, LETTER
from powerplan.sheets.parts import Figure, Items, Marked, Say, Table, Ticks
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.writers.pdf import pdf_bytes

HERE = Path(__file__).parent
HOSTILE = (
    "\x00\x07\x1b[31m\r\n\t end",
    "\u202eright to left\u202c \u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627",
    "chair \U0001f6cb\ufe0f and \U0001f468\u200d\U0001f469\u200d\U0001f467",
    "x" * 5000,
    "word " * 1000,
    "(unbalanced \\) ) endstream endobj %%EOF",
    "e\u0301\u0301\u0301\u0301",
    "\ud800",
    "",
)


def has_length(found: list[float], wanted_mm: float, within_mm: float) -> bool:
    return any(abs(length - wanted_mm) <= within_mm for length in found)


@pytest.mark.parametrize(
    ("end", "scale", "paper_mm"),
    [
        ((6.0, 0.0), 50, 120.0),
        ((0.0, 6.0), 50, 120.0),
        ((6.0, 0.0), 48, 125.0),
        ((3.6, 4.8), 50, 120.0),
        ((2.4, 0.0), 20, 120.0),
    ],
)
def test_a_line_of_six_meters_has_its_length_on_paper(end, scale, paper_mm):
    data = pdf_bytes(make_set(page("2", Figure(line_view((0, 0), end, scale=scale)))), LETTER)
    assert has_length(lengths_mm(reader(data).pages[0]), paper_mm, 0.1)


def test_a_line_is_true_in_a_part_of_a_drawing_and_on_a_turned_sheet():
    parts = make_set(page("2", Figure(line_view((0, 0), (30, 0), (30, 6.0)))))
    assert has_length(lengths_mm(reader(pdf_bytes(parts, A4)).pages[-1]), 120.0, 0.1)
    turned = make_set(page("2", Figure(line_view((0, 0), (11.5, 0)))))
    sheet = reader(pdf_bytes(turned, A4)).pages[0]
    assert sheet.mediabox.width > sheet.mediabox.height
    assert has_length(lengths_mm(sheet), 230.0, 0.1)


@pytest.mark.parametrize(
    ("units", "bar_mm", "words"),
    [
        ("ft-in", 50.8, "2 in when printed at 100 %"),
        ("m", 50.0, "50 mm when printed at 100 %"),
    ],
)
def test_a_bar_of_known_length_stands_under_a_drawing(units, bar_mm, words):
    view = line_view((0, 0), (3.0, 0))
    data = pdf_bytes(make_set(page("2", Figure(view)), units=units), LETTER)
    sheet = reader(data).pages[0]
    assert has_length(lengths_mm(sheet), bar_mm, 0.01)
    assert words in text_of(sheet)


def test_fractions_can_be_searched():
    view = line_view((0, 0), (3.0, 0), words="6 ft 3 1/4 in")
    marks = "⅛ ¼ ⅜ ½ ⅝ ¾ ⅞ ″ ′ ° Ω ± ≤ ≥ × – — “quoted” … ☐ ☑ é"
    cells = (("box A1", "7 ft 2 5/8 in"),)
    table = Table("Boxes", ("Box", "From back wall"), cells)
    sheets = make_set(page("2", Say(f"The marks {marks}."), Figure(view), table))
    (text,) = texts(pdf_bytes(sheets, LETTER))
    for wanted in ("6 ft 3 1/4 in", "7 ft 2 5/8 in", f"The marks {marks}."):
        assert wanted in text


def test_every_sheet_carries_the_caution_and_the_title_block():
    rows = tuple((f"A{n}", f"{n} ft") for n in range(120))
    sheets = make_set(
        page("1", Say("Works."), title="Decision"),
        page("2", Figure(room_view(11.0, 4.0, 50)), Table("Boxes", ("Box", "Place"), rows)),
    )
    pages = texts(pdf_bytes(sheets, LETTER))
    assert len(pages) > 3
    for text in pages:
        assert CAUTION in text
        for cell in (
            "Harbour den",
            "electrician",
            "2026-11-25",
            "powerplan 9.9",
            "NFPA 70, 2023 (us-nec-2023)",
            HASH[:12],
            "Revision B",
        ):
            assert cell in text


def test_sheets_are_numbered_through_the_set_and_say_of_which_page_they_are():
    rows = tuple((f"A{n}", f"{n} ft") for n in range(120))
    sheets = make_set(
        page("1", Say("Works.")),
        page("2", Table("Boxes", ("Box", "Place"), rows)),
        page("3"),
    )
    pages = texts(pdf_bytes(sheets, LETTER))
    count = len(pages)
    parts = ["1", *["2"] * (count - 2), "3"]
    for number, (text, part) in enumerate(zip(pages, parts, strict=True), 1):
        assert f"Sheet {number} of {count}" in text
        assert f"Page {part} Floor boxes" in text


def test_the_scale_of_a_sheet_is_that_of_its_drawings():
    one, other = line_view((0, 0), (3, 0), scale=48), line_view((0, 0), (1, 0), scale=24)
    sheets = make_set(
        page("1", Say("Works.")), page("2", Figure(one)), page("3", Figure(one), Figure(other))
    )
    first, second, third = texts(pdf_bytes(sheets, LETTER))
    assert "Scale no drawing" in first
    assert 'Scale 1/4" = 1\'-0"' in second
    assert "Scale as noted" in third
    assert '1/2" = 1\'-0"' in third


def test_the_same_set_gives_the_same_bytes():
    assert pdf_bytes(five_pages(), LETTER) == pdf_bytes(five_pages(), LETTER)


def test_another_process_gives_the_same_bytes():
    program = (
        "import hashlib, sys\n"
        f"sys.path.insert(0, {str(HERE)!r})\n"
        "from pdf_set import five_pages\n"
        "from powerplan.sheets.paper import LETTER\n"
        "from powerplan.sheets.writers.pdf import pdf_bytes\n"
        "print(hashlib.sha256(pdf_bytes(five_pages(), LETTER)).hexdigest())\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONHASHSEED": "7"},
    )
    here = hashlib.sha256(pdf_bytes(five_pages(), LETTER)).hexdigest()
    assert done.stdout.strip() == here


def test_loading_the_writer_loads_no_pdf_library():
    program = "import sys, powerplan.sheets.writers.pdf; print('reportlab' in sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "False"


def test_every_font_is_embedded_and_cut_to_the_letters_in_use():
    for sheet in reader(pdf_bytes(five_pages(), LETTER)).pages:
        fonts = [font.get_object() for font in sheet["/Resources"]["/Font"].values()]
        assert fonts
        for font in fonts:
            prefix, plus, name = font["/BaseFont"].partition("+")
            assert (len(prefix), plus) == (len("/ABCDEF"), "+")
            assert name.startswith("DejaVuSansCondensed")
            assert "/FontFile2" in font["/FontDescriptor"].get_object()


def test_the_file_says_what_it_is_and_prints_at_its_own_size():
    read = reader(pdf_bytes(five_pages(), LETTER))
    assert read.metadata.title == "Power plan: Harbour den"
    assert HASH in read.metadata.subject
    assert read.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert [entry.title for entry in read.outline][1] == "Sheet 2: 2 Floor boxes"
    assert read.trailer["/Root"]["/Lang"] == "en-US"


@pytest.mark.parametrize(("paper", "size"), [(LETTER, (612.0, 792.0)), (A4, (595.28, 841.89))])
def test_a_sheet_has_the_size_of_its_paper(paper, size):
    for sheet in reader(pdf_bytes(five_pages(), paper)).pages:
        box = sheet.mediabox
        assert (float(box.width), float(box.height)) == pytest.approx(size, abs=0.01)


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_text_is_harmless_wherever_it_stands(text):
    parts = (
        Say(text),
        Items(text, (text, text), True),
        Table(text, (text, "B"), ((text, text), ("after", ""))),
        Marked(text, (text,)),
        Marked("", (text, f"- {text}")),
        Ticks(text, (text,)),
        Figure(line_view((0, 0), (1, 0), words=text)),
        Say("The end is reached."),
    )
    sheets = make_set(SheetPage("2", text, text, parts), project=text)
    sheets = sheets._replace(rules=text, program=text, date=text, revision=text)
    pages = texts(pdf_bytes(sheets, LETTER))
    assert any("The end is reached." in found for found in pages)
    assert all(CAUTION in found for found in pages)
    assert all(f"of {len(pages)}" in found for found in pages)
