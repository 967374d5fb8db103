"""A real Chromium for tests, driven by the WebDriver that comes with it: pages from files, no network."""

from __future__ import annotations

import base64
import json
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service

__all__ = ["Browser", "browser"]

FLAGS = (
    "--headless=new --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync --hide-scrollbars"
)


class Browser:
    """One window. Every page it opens is watched: what it asks for, and what its console says."""

    def __init__(self, driver: webdriver.Chrome) -> None:
        self.driver = driver

    def window(self, width: int, *, dark: bool = False, media: str = "screen", scripts: bool = True) -> None:
        """Set the window's width, the colour scheme, the medium, and whether scripts run."""
        metrics = {"width": width, "height": 1000, "deviceScaleFactor": 1, "mobile": False}
        features = [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": media, "features": features})
        self.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": not scripts})

    def open(self, path: Path, fragment: str = "") -> None:
        """Open a file; what was watched before is forgotten."""
        self.driver.get_log("performance")
        self.driver.get_log("browser")
        self.driver.get(path.as_uri() + fragment)

    def run(self, script: str, *values: object) -> Any:
        """Run a function body in the page."""
        return self.driver.execute_script(script, *values)

    def axe(self, source: str) -> list[dict[str, Any]]:
        """All violations that axe-core finds: WCAG 2.2 A and AA, and its best practices."""
        self.driver.execute_script(source)
        tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
        script = "const end = arguments[1]; axe.run({runOnly: arguments[0]}).then(r => end(r.violations))"
        found: list[dict[str, Any]] = self.driver.execute_async_script(script, tags)
        return found

    def console(self) -> list[str]:
        """What the console said since the page was opened."""
        return [entry["message"] for entry in self.driver.get_log("browser")]

    def requests(self) -> list[str]:
        """The addresses asked for since the page was opened."""
        events = [json.loads(entry["message"])["message"] for entry in self.driver.get_log("performance")]
        sent = [event for event in events if event["method"] == "Network.requestWillBeSent"]
        return [event["params"]["request"]["url"] for event in sent]

    def print(self) -> bytes:
        """The page as the browser would print it."""
        return base64.b64decode(self.driver.execute_cdp_cmd("Page.printToPDF", {"printBackground": False})["data"])


@contextmanager
def browser(profile: Path) -> Iterator[Browser]:
    """A browser with a fresh profile."""
    options = Options()
    options.binary_location = shutil.which("chromium") or "/usr/bin/chromium"
    for flag in (*FLAGS.split(), f"--user-data-dir={profile}"):
        options.add_argument(flag)
    options.set_capability("goog:loggingPrefs", {"performance": "ALL", "browser": "ALL"})
    driver = webdriver.Chrome(options=options, service=Service(shutil.which("chromedriver")))
    driver.set_script_timeout(60)
    try:
        yield Browser(driver)
    finally:
        driver.quit()
