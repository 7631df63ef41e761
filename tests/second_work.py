"""Work for a second process: done, failed, cut short, or never done."""

import os
import signal
import tempfile
import threading


def ready() -> None:
    """Nothing to load."""
    print("loading")


def not_ready() -> None:
    """A library that cannot be loaded."""
    raise ImportError("no such library")


def doubled(data: bytes, *, end: bytes = b"") -> bytes:
    """What was handed, twice, and an end."""
    print("working")
    return data * 2 + end


def fails(*_: object) -> bytes:
    """An error of the work itself."""
    raise RuntimeError("no")


def killed(*_: object) -> bytes:
    """Cut short by the system, as where memory has run out."""
    os.kill(os.getpid(), signal.SIGTERM)
    return b"never"


def aside(*_: object) -> bytes:
    """Where something is laid aside and left."""
    return tempfile.mkdtemp().encode()


def text(*_: object) -> str:
    """No bytes."""
    return "text"


def waits(*_: object) -> bytes:
    """Never done."""
    threading.Event().wait()
    return b""
