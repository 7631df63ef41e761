"""One browser for all tests that need one; where there is none, they are left out and it is said.

With CI=true, or when asked for by name (pytest -m browser), a missing browser is a failure.
"""

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import browser as browsers
import pytest

_LEFT_OUT = pytest.StashKey[int]()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    wanted = os.environ.get("CI") == "true" or "browser" in config.option.markexpr
    if wanted or browsers.programs() is not None:
        return
    left_out = [item for item in items if item.get_closest_marker("browser")]
    config.stash[_LEFT_OUT] = len(left_out)
    config.hook.pytest_deselected(items=left_out)
    items[:] = [item for item in items if not item.get_closest_marker("browser")]


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    count = terminalreporter.config.stash.get(_LEFT_OUT, 0)
    if count:
        terminalreporter.write_line(
            f"LEFT OUT: {count} tests need the packages chromium and chromium-driver"
        )


@pytest.fixture(scope="session")
def chromium(tmp_path_factory: pytest.TempPathFactory) -> Iterator[browsers.Browser]:
    """A browser without a window."""
    opened = browsers.Browser(tmp_path_factory.mktemp("profile"))
    yield opened
    opened.close()


@pytest.fixture
def shown(chromium: browsers.Browser, tmp_path: Path) -> Callable[..., browsers.Browser]:
    """Show a page of HTML at a width, and return the browser. [px]"""

    def show(html: str, width: int = 1200) -> browsers.Browser:
        file = tmp_path / "page.html"
        file.write_text(html, encoding="utf-8", newline="")
        chromium.complaints()
        chromium.show(file, width)
        return chromium

    return show
