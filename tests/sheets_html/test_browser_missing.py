"""What a machine without a browser is told."""

import browser as browsers
import pytest


def test_a_machine_without_a_browser_is_told_which_packages_to_install(monkeypatch, tmp_path):
    monkeypatch.setenv("PATH", str(tmp_path))
    assert browsers.programs() is None
    with pytest.raises(browsers.BrowserMissing, match="chromium and chromium-driver"):
        browsers.Browser(tmp_path)
