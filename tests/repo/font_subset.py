"""Cut the letters that sheets need out of DejaVu Sans Condensed: run this to make them anew.

    python tests/repo/font_subset.py FOLDER

FOLDER is where DejaVuSansCondensed.ttf and DejaVuSansCondensed-Bold.ttf of release 2.37 lie. Needs
fonttools. Writes the fonts, the same for browsers, their license, and the widths of the letters.
"""

import csv
import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

DATA = Path(__file__).parents[2] / "powerplan" / "sheets" / "data"
SOURCES = {
    "letters": "DejaVuSansCondensed.ttf",
    "letters-bold": "DejaVuSansCondensed-Bold.ttf",
}
RANGES = (
    (0x0020, 0x007E),  # ASCII
    (0x00A0, 0x017F),  # Latin-1 and Latin of Europe
    (0x0192, 0x0192),
    (0x0218, 0x021B),  # Romanian
    (0x0384, 0x03CE),  # Greek
    (0x0400, 0x045F),  # Cyrillic
    (0x0490, 0x0491),
    (0x1E80, 0x1E85),  # Welsh
    (0x1EA0, 0x1EF9),  # Vietnamese
)
MARKS = "–—−‐‑‘’‚“”„†•…‰′″‹›⁄€№™Ω⅛⅜⅝⅞⅓⅔←↑→↓↔∅√∞≈≠≤≥□■▲△▼○●☐☑☒✓✗⌀⏚"
ASKED = {*MARKS, *(chr(code) for first, last in RANGES for code in range(first, last + 1))}
REPLACEMENT = "□"


def _cut(source: Path) -> TTFont:
    """The font with the letters asked for only, and no instructions for coarse screens."""
    font = TTFont(source, recalcTimestamp=False)
    options = Options()
    options.layout_features = []
    options.hinting = False
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]
    options.name_languages = [0x409]
    options.notdef_outline = True
    options.drop_tables += ["FFTM", "GPOS", "GSUB", "GDEF", "kern"]
    subsetter = Subsetter(options=options)
    subsetter.populate(text="".join(sorted(ASKED)))
    subsetter.subset(font)
    return font


def _widths(font: TTFont) -> dict[int, int]:
    """The advance of each character. [1/2048 of the letter size]"""
    advances = font["hmtx"].metrics
    return {code: advances[name][0] for code, name in sorted(font.getBestCmap().items())}


def main(folder: Path) -> None:
    """Write everything that is made from the fonts in a folder."""
    widths = []
    for name, file in SOURCES.items():
        font = _cut(folder / file)
        font.save(DATA / f"{name}.ttf")
        widths.append(_widths(font))
        license_text = f"{font['name'].getDebugName(0)}\n{font['name'].getDebugName(13)}"
        font.flavor = "woff"
        font.save(DATA / f"{name}.woff")
    (DATA / "letters-license.txt").write_text(_ended(license_text), encoding="utf-8")
    plain, bold = widths
    with (DATA / "letters-widths.csv").open("w", encoding="utf-8", newline="") as stream:
        writer = csv.writer(stream, lineterminator="\n")
        writer.writerow(("code", "plain", "bold"))
        writer.writerows((f"{code:04X}", plain[code], bold[code]) for code in plain)


def _ended(text: str) -> str:
    return "\n".join(line.rstrip() for line in text.splitlines()).rstrip() + "\n"


if __name__ == "__main__":
    main(Path(sys.argv[1]))
