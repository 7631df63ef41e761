"""Where the program starts: so little of it that Ctrl-C is answered while the rest is imported."""

import gc
import sys

_STOPPED = 130
# One command lives a few seconds and leaves hardly anything that the collector would find. It looks
# only where a room is so large that it might matter; this many objects take some 100 MB.
_OBJECTS = 500_000


def start() -> int:
    """Run the program and return its exit code; the console script.

    Returns
    -------
    int
        See ``powerplan.cli.codes``.
    """
    gc.set_threshold(_OBJECTS)
    try:
        from powerplan.cli.main import main

        return main()
    except KeyboardInterrupt:
        sys.stderr.write("powerplan: stopped\n")
        return _STOPPED
    finally:
        gc.freeze()  # what is left goes with the process, not piece by piece
