"""A real browser without a window, driven over the W3C WebDriver protocol.

Needs Debian's chromium and chromium-driver, and nothing else that Python has not got.
"""

import base64
import json
import shutil
import socket
import subprocess
import time
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

_NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")
_QUIET = (
    *("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
    *("--disable-dev-shm-usage", "--disable-extensions", "--hide-scrollbars"),
)
_START_S = 60.0
_TAB = "\ue004"
_INCH_CM = 2.54


class BrowserMissing(RuntimeError):
    """There is no browser on this machine; the message names the packages."""


def programs() -> tuple[str, str] | None:
    """The paths of the browser and its driver, or None where either is missing."""
    browser = next((path for name in _NAMES if (path := shutil.which(name))), None)
    driver = shutil.which("chromedriver")
    return None if browser is None or driver is None else (browser, driver)


class Browser:
    """One window of one browser. Close it when done."""

    def __init__(self, profile: Path) -> None:
        found = programs()
        if found is None:
            raise BrowserMissing(
                "these tests need a browser: install the packages chromium and chromium-driver, "
                'or leave the tests out with: pytest -m "not browser"'
            )
        browser, driver = found
        port = _free_port()
        self._address = f"http://127.0.0.1:{port}"
        self._driver = subprocess.Popen(
            [driver, f"--port={port}", "--silent"],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        try:
            self._wait_for_driver()
            self._session = f"/session/{self._begin(browser, profile)}"
        except BaseException:
            self._stop_driver()
            raise

    def close(self) -> None:
        """End the browser and its driver."""
        try:
            self._ask("DELETE", self._session)
        finally:
            self._stop_driver()

    def show(self, file: Path, width: int, height: int = 800) -> None:
        """Open a file in a window whose page is this wide. [px]"""
        size = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False}
        self._tell("Emulation.setDeviceMetricsOverride", size)
        self._tell("Emulation.setEmulatedMedia", {"media": "", "features": []})
        self._ask("POST", f"{self._session}/url", {"url": file.resolve().as_uri()})
        self.run("return document.fonts.ready.then(() => true)")

    def run(self, script: str) -> Any:
        """Run a script of ours in the page and return what it returns."""
        told = {"script": script, "args": []}
        return self._ask("POST", f"{self._session}/execute/sync", told)

    def press_tab(self) -> None:
        """Press the key that moves the focus on."""
        keys = [{"type": "keyDown", "value": _TAB}, {"type": "keyUp", "value": _TAB}]
        actions = [{"type": "key", "id": "keys", "actions": keys}]
        self._ask("POST", f"{self._session}/actions", {"actions": actions})

    def complaints(self) -> list[str]:
        """What the browser had to say about the page since it was last asked."""
        told = self._ask("POST", f"{self._session}/se/log", {"type": "browser"})
        return [entry["message"] for entry in told]

    def printed(self, width_mm: float, height_mm: float) -> bytes:
        """The page as it would come out of a printer, as PDF."""
        size = {"paperWidth": width_mm / 10 / _INCH_CM, "paperHeight": height_mm / 10 / _INCH_CM}
        told = self._tell("Page.printToPDF", {**size, "preferCSSPageSize": True})
        return base64.b64decode(told["data"])

    def picture(self, *, whole: bool = False) -> bytes:
        """What the window shows, or the whole page, as PNG."""
        told = self._tell("Page.captureScreenshot", {"captureBeyondViewport": whole})
        return base64.b64decode(told["data"])

    def dark(self) -> None:
        """Ask for dark pages, as somebody's system may."""
        dark = [{"name": "prefers-color-scheme", "value": "dark"}]
        self._tell("Emulation.setEmulatedMedia", {"features": dark})

    def on_paper(self) -> None:
        """Show the page as it is styled for paper."""
        self._tell("Emulation.setEmulatedMedia", {"media": "print"})

    def heard(self) -> list[dict[str, str]]:
        """What a screen reader is given: role and name of each thing, in order."""
        nodes = self._tell("Accessibility.getFullAXTree", {})["nodes"]
        by_id = {node["nodeId"]: node for node in nodes}
        told: list[dict[str, str]] = []
        waiting = [nodes[0]["nodeId"]]
        while waiting:
            node = by_id.get(waiting.pop())
            if node is None:
                continue
            waiting += reversed(node.get("childIds", []))
            if not node.get("ignored"):
                names = {key: str(node.get(key, {}).get("value", "")) for key in ("role", "name")}
                told.append(names)
        return told

    def _begin(self, browser: str, profile: Path) -> str:
        options = {"binary": browser, "args": [*_QUIET, f"--user-data-dir={profile}"]}
        wanted = {"goog:chromeOptions": options, "goog:loggingPrefs": {"browser": "ALL"}}
        told = self._ask("POST", "/session", {"capabilities": {"alwaysMatch": wanted}})
        return str(told["sessionId"])

    def _tell(self, command: str, params: dict[str, Any]) -> Any:
        told = {"cmd": command, "params": params}
        return self._ask("POST", f"{self._session}/goog/cdp/execute", told)

    def _ask(self, method: str, path: str, body: dict[str, Any] | None = None) -> Any:
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(self._address + path, data=data, method=method)
        request.add_header("Content-Type", "application/json")
        opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
        try:
            with opener.open(request, timeout=_START_S) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as error:
            with error:
                raise RuntimeError(f"{path}: {error.read().decode()[:2000]}") from None

    def _wait_for_driver(self) -> None:
        ends = time.monotonic() + _START_S
        while True:
            try:
                self._ask("GET", "/status")
                return
            except (urllib.error.URLError, ConnectionError):
                if time.monotonic() > ends or self._driver.poll() is not None:
                    raise
                time.sleep(0.05)

    def _stop_driver(self) -> None:
        self._driver.terminate()
        self._driver.wait(timeout=_START_S)


def _free_port() -> int:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return int(taken.getsockname()[1])
