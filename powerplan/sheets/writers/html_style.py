"""How the web page of a set looks: on a phone, at a desk, and on paper."""

from __future__ import annotations

from base64 import b64encode
from pathlib import Path

from powerplan.sheets.fonts import FAMILY, WEB_BOLD_FONT, WEB_FONT

UPRIGHT_MM = 186.0
"""What an upright sheet of A4 holds between our margins; Letter holds 5.9 mm more. [mm]"""

_BASE = """\
:root { --ink: #000; --paper: #fff; --thin: 1px solid #000; }
*, *::before, *::after { box-sizing: border-box; }
html { background: var(--paper); color: var(--ink); -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; padding: 0 1rem 3rem; max-width: 62rem; line-height: 1.5;
  font-size: 16px; font-family: FAMILIES, "DejaVu Sans", Verdana, sans-serif;
  overflow-wrap: anywhere; }
h1, h2 { line-height: 1.2; margin: 1.5rem 0 .5rem; }
h1 { font-size: 1.75rem; }
h2 { font-size: 1.4rem; }
p, ul, ol, dl, figure, fieldset { margin: 0 0 1rem; }
p, li, dd { max-width: 46rem; }
ul, ol { padding-left: 1.5rem; }
li { margin: .25rem 0; }
a { color: inherit; text-underline-offset: .2em; }
:focus-visible { outline: 3px solid #000; outline-offset: 2px; box-shadow: 0 0 0 5px #fff; }
main:focus { outline: none; }
.skip { position: absolute; left: -200vw; }
.skip:focus { position: static; display: inline-block; margin: .5rem 0; padding: .5rem; }
.line { font-size: .875rem; border-bottom: var(--thin); padding-bottom: .25rem;
  max-width: none; }
.line span + span::before { content: "\\00b7  "; }
.caution { border: 2px solid #000; padding: .5rem .75rem; max-width: none; }
.caution.first, .line .also { display: none; }
.lead { margin-bottom: .25rem; font-weight: bold; break-after: avoid; }
nav ol { list-style: none; padding: 0; }
nav li { margin: 0; }
nav a { display: block; padding: .6rem 0; border-bottom: var(--thin); }
section { border-top: 4px solid #000; margin-top: 2.5rem; }
"""

_PARTS = """\
figure svg { display: block; background: #fff; }
figcaption { font-weight: bold; margin-bottom: .25rem; }
figcaption small { font-size: .875rem; font-weight: normal; display: block; }
.sized { overflow-x: auto; }
.size { display: none; align-items: center; gap: .5rem; padding: .5rem 0; }
input[type=checkbox] { flex: none; width: 1.5rem; height: 1.5rem; margin: 0;
  accent-color: #000; }
fieldset { border: var(--thin); padding: .5rem .75rem; min-width: 0; }
legend { font-weight: bold; padding: 0 .25rem; }
fieldset ul { list-style: none; padding: 0; margin: 0; }
fieldset li { display: flex; gap: .6rem; align-items: flex-start; padding: .4rem 0; }
.kept { font-size: .875rem; margin: .25rem 0 0; }
fieldset ~ fieldset .kept { display: none; }
.marked > div { border-left: 2px solid #000; padding: 0 0 0 .75rem; margin: 0 0 1rem;
  break-inside: avoid; }
.marked > .not-met { border-left: 8px solid #000; padding-left: .5rem; }
.marked > .not-checked { border-left: 8px double #000; padding-left: .5rem; }
dt { font-weight: bold; }
dd { margin: 0; }
dd p, dd ul { margin: 0 0 .25rem; }
pre { overflow-x: auto; font-size: .875rem; }
.scroll { overflow-x: auto; margin: 0 0 1rem; }
table { border-collapse: collapse; width: 100%; margin: 0 0 1rem; }
.scroll table { margin: 0; }
caption { text-align: left; font-weight: bold; padding: .25rem 0; }
th, td { border: var(--thin); padding: .3rem .45rem; text-align: left; vertical-align: top;
  overflow-wrap: anywhere; }
.scroll th, .scroll td { overflow-wrap: break-word; }
thead th { border-bottom-width: 2px; }
.short { white-space: nowrap; }
.blank { min-width: 5rem; }
"""

_SCREEN = """\
@media screen and (max-width: 62rem) {
  .size { display: flex; }
  .size:has(:checked) + .sized svg { max-width: none !important; }
}
@media screen and (max-width: 48rem) {
  .card, .card tbody, .card tr, .card th, .card td, .card caption { display: block; }
  .card thead { position: absolute; width: 1px; height: 1px; overflow: hidden;
    clip-path: inset(50%); }
  .card tr { border: var(--thin); border-left-width: 4px; margin: 0 0 .75rem;
    padding: .25rem .5rem; }
  .card th, .card td { border: 0; padding: .15rem 0; white-space: normal;
    overflow-wrap: anywhere; }
  .card tbody th { font-size: 1.1rem; }
  .card tbody [data-head]::before { font-weight: normal; content: attr(data-head) ": ";
    content: attr(data-head) ": " / ""; }
  .card tbody td { font-weight: bold; }
  .card .blank { border-bottom: var(--thin); padding-top: 1rem; }
}
"""

_PRINT = """\
@page { size: auto; margin: 17mm 12mm 21mm;
  @top-left { content: RUNNING; font: 7pt FAMILIES, sans-serif; width: 92%; }
  @top-right { content: counter(page) " of " counter(pages); font: 7pt FAMILIES, sans-serif; }
  @bottom-left { content: CAUTION; font: 6.5pt/1.25 FAMILIES, sans-serif; width: 100%; } }
@page sideways { size: landscape; }
@media print {
  body { max-width: none; padding: 0 .3mm; margin: 0; font-size: 10pt; line-height: 1.35; }
  h1 { font-size: 17pt; }
  h2 { font-size: 14pt; }
  h1, h2, legend, caption, figcaption { break-after: avoid; }
  p, li, dd { max-width: none; orphans: 3; widows: 3; }
  .skip, .size, .kept { display: none; }
  nav a { padding: .3mm 0; border: 0; }
  .caution.first { display: block; }
  .line .also { display: inline; }
  section { break-before: page; border: 0; margin: 0; }
  section:first-child { break-before: auto; }
  section:first-child .first, section:first-child .also { display: none; }
  section > :last-child { break-before: avoid; }
  h1, h2 { margin: 0 0 3mm; }
  a { text-decoration: none; }
  thead { display: table-header-group; }
  tr, li, figure, fieldset, .brief, .marked > div, .caution { break-inside: avoid; }
  .caution { font-size: 8.5pt; padding: 1mm 2mm; border-width: 1.5px; }
  li { margin: .6mm 0; }
  p, ul, ol, dl, figure, fieldset, table, .scroll { margin-bottom: 3mm; }
  .scroll, .sized { overflow: visible; }
  table { font-size: 9pt; }
  .many { font-size: 8pt; }
  .many th, .many td { padding: .6mm 1mm; }
  .scroll thead th, .scroll td { white-space: normal; }
  .blank { min-width: 15mm; }
  input[type=checkbox] { width: 4mm; height: 4mm; }
  fieldset li { padding: .8mm 0; }
  figure svg { max-height: 230mm; }
  figcaption small { display: inline; font-size: 8.5pt; }
  .sideways { page: sideways; }
  .sideways svg { max-height: 150mm; }
}
"""


def style_text(running: str, caution: str) -> str:
    """Return the whole style, letters included.

    Parameters
    ----------
    running : str
        What stands at the top of every sheet of paper.
    caution : str
        What stands at the bottom of every sheet of paper.
    """
    style = _BASE + _PARTS + _SCREEN + _PRINT
    style = style.replace("FAMILIES", f'"{FAMILY}"')
    style = style.replace("RUNNING", _quoted(running)).replace("CAUTION", _quoted(caution))
    return f"{_face(WEB_FONT, 'normal')}{_face(WEB_BOLD_FONT, 'bold')}{style}"


def _face(file: Path, weight: str) -> str:
    letters = b64encode(file.read_bytes()).decode("ascii")
    return (
        f'@font-face {{ font-family: "{FAMILY}"; font-weight: {weight}; '
        f"src: url(data:font/woff;base64,{letters}) format('woff'); }}\n"
    )


def _quoted(text: str) -> str:
    """A text in the quotes of a style; all but letters, digits and blanks as code points, each
    ended by a blank that is part of it."""
    plain = (c if c == " " or (c.isascii() and c.isalnum()) else f"\\{ord(c):x} " for c in text)
    return f'"{"".join(plain)}"'
