"""Marks that must carry their source, and a tally of them at the end of a run."""

from collections import Counter

import pytest
from hypothesis import is_hypothesis_test, settings
from laws import hold_over_many

from powerplan.model.findings import Standing

settings.register_profile(
    "suite", deadline=None, derandomize=True, print_blob=True, max_examples=30
)
settings.register_profile("longer", settings.get_profile("suite"), max_examples=100)
settings.load_profile("suite")

_TALLY: Counter[str] = Counter()


def pytest_configure(config: pytest.Config) -> None:
    if config.option.markexpr == "slow":
        hold_over_many()
        settings.load_profile("longer")


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if config.option.markexpr == "slow":
        for item in items:
            if is_hypothesis_test(getattr(item, "obj", None)):
                item.add_marker("slow")
    standings = {str(standing) for standing in Standing}
    for item in items:
        for mark in item.iter_markers("published"):
            source, standing = mark.kwargs.get("source"), mark.kwargs.get("standing")
            if mark.args or not source or standing not in standings:
                raise pytest.UsageError(f"{item.nodeid}: published needs a source and a standing")
            _TALLY[standing] += 1
    if not config.option.markexpr:
        slow = [item for item in items if item.get_closest_marker("slow")]
        if slow:
            config.hook.pytest_deselected(items=slow)
            items[:] = [item for item in items if not item.get_closest_marker("slow")]


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    if _TALLY:
        told = ", ".join(f"{count} {standing}" for standing, count in sorted(_TALLY.items()))
        terminalreporter.write_line(f"checks against the world: {told}")
