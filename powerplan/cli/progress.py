"""What is being done, on standard error, once it has taken longer than a second."""

from __future__ import annotations

import threading
from types import TracebackType

from powerplan.cli.tell import tell

PATIENCE_S = 1.0


class Progress:
    """Tells each stage of a long job; a short job stays silent."""

    def __init__(self) -> None:
        self._stage = ""
        self._late = False
        self._lock = threading.Lock()
        self._timer = threading.Timer(PATIENCE_S, self._speak)
        self._timer.daemon = True

    def __enter__(self) -> Progress:
        self._timer.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        fault: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._timer.cancel()

    def stage(self, words: str) -> None:
        """Say what begins now."""
        with self._lock:
            self._stage = words
            if self._late:
                tell(f"powerplan: {words} ...")

    def _speak(self) -> None:
        with self._lock:
            self._late = True
            if self._stage:
                tell(f"powerplan: {self._stage} ...")
