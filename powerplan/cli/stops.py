"""Ctrl-C while libraries load one another."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def stop_waits() -> Iterator[None]:
    """Answer Ctrl-C at the end of what is done inside: a library that loads another from C would
    make a fault of it. Where Ctrl-C is not answered anyway, nothing changes.

    Raises
    ------
    KeyboardInterrupt
        If it came meanwhile.
    """
    usual = signal.getsignal(signal.SIGINT)
    if (
        usual is not signal.default_int_handler
        or threading.current_thread() is not threading.main_thread()
    ):
        yield
        return
    came: list[int] = []
    signal.signal(signal.SIGINT, lambda number, _: came.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, usual)
        if came:
            raise KeyboardInterrupt
