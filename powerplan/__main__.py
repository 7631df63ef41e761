"""``python -m powerplan`` is the same as ``powerplan``."""

import sys

from powerplan.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
