"""Where the program starts: so little of it that Ctrl-C is answered while the rest is imported."""

import sys

_STOPPED = 130


def start() -> int:
    """Run the program and return its exit code; the console script.

    Returns
    -------
    int
        See ``powerplan.cli.codes``.
    """
    try:
        from powerplan.cli.main import main

        return main()
    except KeyboardInterrupt:
        sys.stderr.write("powerplan: stopped\n")
        return _STOPPED
