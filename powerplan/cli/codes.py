"""What the program returns to whoever called it."""

from __future__ import annotations

WORKS = 0
NOT_MET = 1
USAGE = 2
NOT_POSSIBLE = 3
HANGS = 4
OUR_FAULT = 70
STOPPED = 130
