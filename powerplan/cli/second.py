"""A second process of the program, for one piece of work that can be done beside the first.

It loads what its work needs while the first still plans. It is a new interpreter, not a fork:
libraries of the first may have threads of their own by then. Whatever goes wrong with it, it gives
nothing, and the first does the work itself; so no answer depends on it, only how soon it comes.
"""

from __future__ import annotations

import importlib
import os
import pickle
import subprocess
import sys
import tempfile
import threading
from types import TracebackType
from typing import Any

_CODE = (
    "import sys; sys.path[:] = {path!r}; from powerplan.cli.second import serve; serve({words!r})"
)


class Second:
    """A process that gets ready, is handed its work once, and gives bytes.

    Parameters
    ----------
    module : str
        Where its two functions are.
    ready : str
        The one that loads what takes long.
    work : str
        The one that returns bytes; what it is given and where it is are sent by ``pickle``.
    loads : str
        The library that takes long. Where it is loaded here already, and where there is one core
        only, no process is started: there would be nothing to gain.
    """

    def __init__(self, module: str, *, ready: str, work: str, loads: str) -> None:
        self._words = (module, ready, work)
        self._loads = loads
        self._process: subprocess.Popen[bytes] | None = None
        self._talk: threading.Thread | None = None
        self._told = b""
        self._aside: tempfile.TemporaryDirectory[str] | None = None

    def __enter__(self) -> Second:
        if self._loads not in sys.modules and cores() > 1 and sys.executable:
            try:
                self._aside = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
                self._process = _started(self._words, self._aside.name)
            except OSError:
                self._end()  # the system starts none; the first does it all
            except BaseException:
                self._end()
                raise
        return self

    def hand(self, *args: Any, **named: Any) -> None:
        """Hand it its work and return at once; what cannot be sent is not handed."""
        if self._process is None:
            return
        try:
            data = pickle.dumps((args, named), pickle.HIGHEST_PROTOCOL)
        except (pickle.PicklingError, TypeError, AttributeError):
            return
        self._talk = threading.Thread(target=self._exchange, args=(self._process, data))
        self._talk.start()

    def result(self) -> bytes | None:
        """Wait until it has ended; return what it made, None where it made nothing."""
        if self._process is None or self._talk is None:
            return None
        self._talk.join()
        return self._told if self._process.returncode == 0 else None

    def _exchange(self, process: subprocess.Popen[bytes], data: bytes) -> None:
        self._told, _ = process.communicate(data)

    def __exit__(
        self,
        kind: type[BaseException] | None,
        fault: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._end()

    def _end(self) -> None:
        """Leave no process behind, and nothing that it laid aside."""
        if self._process is not None:
            self._process.kill()
            if self._talk is None:
                self._process.communicate()
            else:
                self._talk.join()
        if self._aside is not None:
            self._aside.cleanup()


def cores() -> int:
    """Return how many cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _started(words: tuple[str, str, str], aside: str) -> subprocess.Popen[bytes]:
    """The process, in a group of its own so that Ctrl-C is for the first alone to answer; what it
    lays aside is in a folder that the first takes away."""
    return subprocess.Popen(
        [sys.executable, "-P", "-c", _CODE.format(path=sys.path, words=words)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={**os.environ, **dict.fromkeys(("TMPDIR", "TEMP", "TMP"), aside)},
        process_group=0,
        creationflags=getattr(subprocess, "CREATE_NEW_PROCESS_GROUP", 0),
    )


def serve(words: tuple[str, str, str]) -> None:
    """Get ready, do what comes on standard input, write what came of it, and end.

    Where nothing comes the first has ended, or did not need it.

    Parameters
    ----------
    words : tuple of str
        The module, and its functions that get ready and that do the work.
    """
    module, ready, work = words
    place = importlib.import_module(module)
    output, sys.stdout = sys.stdout, sys.stderr  # what libraries say is no part of the answer
    getattr(place, ready)()
    data = sys.stdin.buffer.read()
    if data:
        args, named = pickle.loads(data)
        output.buffer.write(getattr(place, work)(*args, **named))
        output.flush()
    os._exit(0 if data else 1)  # all is said; what was loaded goes with the process
