"""A headless Chromium at the size of a phone with its network off, driven over its own pipe.

Nothing but the standard library: commands and events are JSON ended by a zero byte.
"""

import base64
import json
import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

NAMES = ("chromium", "chromium-browser", "google-chrome")
PHONE = (390, 844)  # pixels


def browser() -> str | None:
    """Return the program, or None if there is none."""
    return next((path for name in NAMES if (path := shutil.which(name))), None)


class Phone:
    """One open page."""

    def __init__(self, reading: int, writing: int) -> None:
        self._reading, self._writing = reading, writing
        self._rest = b""
        self._last = 0
        self._session: str | None = None
        self.events: list[dict[str, Any]] = []

    def call(self, method: str, **params: Any) -> dict[str, Any]:
        """Send a command and return its result; events that come before it are kept."""
        self._last += 1
        message: dict[str, Any] = {"id": self._last, "method": method, "params": params}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._writing, json.dumps(message).encode() + b"\0")
        while True:
            got = self._next()
            if got.get("id") == self._last:
                assert "error" not in got, got
                result: dict[str, Any] = got["result"]
                return result
            self.events.append(got)

    def _next(self) -> dict[str, Any]:
        while b"\0" not in self._rest:
            piece = os.read(self._reading, 1 << 16)
            assert piece, "the browser ended"
            self._rest += piece
        line, self._rest = self._rest.split(b"\0", 1)
        message: dict[str, Any] = json.loads(line)
        return message

    def open(self, page: Path, *, dark: bool = False, script: bool = True) -> None:
        """Open a file with the network off, and wait until it is loaded."""
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.call(f"{domain}.enable")
        off = {"offline": True, "latency": 0, "downloadThroughput": 0, "uploadThroughput": 0}
        self.call("Network.emulateNetworkConditions", **off)
        wide, high = PHONE
        screen = {"width": wide, "height": high, "deviceScaleFactor": 1, "mobile": True}
        self.call("Emulation.setDeviceMetricsOverride", **screen)
        self.call("Emulation.setTouchEmulationEnabled", enabled=True)
        scheme = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
        self.call("Emulation.setEmulatedMedia", features=[scheme])
        self.call("Emulation.setScriptExecutionDisabled", value=not script)
        self.events.clear()
        self.call("Page.navigate", url=page.as_uri())
        while not any(event.get("method") == "Page.loadEventFired" for event in self.events):
            self.events.append(self._next())

    def run(self, expression: str) -> Any:
        """Return the value of an expression on the page."""
        found = self.call("Runtime.evaluate", expression=expression, returnByValue=True)
        assert "exceptionDetails" not in found, found
        return found["result"].get("value")

    def tap(self, x: float, y: float) -> None:
        """Tap a place on the screen."""
        self.call("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x, "y": y}])
        self.call("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])

    def picture(self, path: Path) -> bytes:
        """Take a picture of the screen."""
        data = base64.b64decode(self.call("Page.captureScreenshot", format="png")["data"])
        path.write_bytes(data)
        return data

    def requests(self) -> list[str]:
        """Return what was fetched, in order."""
        return [
            event["params"]["request"]["url"]
            for event in self.events
            if event.get("method") == "Network.requestWillBeSent"
        ]

    def complaints(self) -> list[str]:
        """Return what the console shows, errors and warnings of the page among it."""
        named = ("Log.entryAdded", "Runtime.exceptionThrown", "Runtime.consoleAPICalled")
        return [json.dumps(event["params"]) for event in self.events if event.get("method") in named]


@contextmanager
def phone(program: str, folder: Path) -> Iterator[Phone]:
    """Start the browser with a fresh profile in a folder, and end it."""
    to_browser, writing = os.pipe()
    reading, from_browser = os.pipe()
    command = [
        program, "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run",
        "--remote-debugging-pipe", "--disable-dev-shm-usage", f"--user-data-dir={folder / 'profile'}",
    ]  # fmt: skip
    # the browser reads commands from 3 and writes to 4
    starter = ["bash", "-c", f'exec "$@" 3<&{to_browser} 4>&{from_browser}', "start", *command]
    with (folder / "browser.log").open("wb") as log:
        running = subprocess.Popen(
            starter, pass_fds=(to_browser, from_browser), stdin=subprocess.DEVNULL, stdout=log, stderr=log
        )
        os.close(to_browser)
        os.close(from_browser)
        try:
            yield Phone(reading, writing)
        finally:
            os.close(writing)
            os.close(reading)
            running.terminate()
            running.wait(10)
