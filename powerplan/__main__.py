"""``python -m powerplan`` is the same as ``powerplan``."""

import sys

from powerplan.start import start

if __name__ == "__main__":
    sys.exit(start())
