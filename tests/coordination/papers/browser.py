"""A headless Chromium, spoken to over two pipes: opens a page as a person would.

Knows the browser's protocol, not what is on the page. Every request and every message of the
console is kept, so that a test can ask for there to be none.
"""

from __future__ import annotations

import base64
import json
import os
import select
import shutil
import subprocess
import time
from pathlib import Path
from typing import Any

PROGRAM = shutil.which("chromium") or shutil.which("chromium-browser")
#: Seconds that an answer may take on a busy machine.
PATIENCE = 90.0
_OPTIONS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-extensions",
    "--hide-scrollbars", "--remote-debugging-pipe",
)  # fmt: skip


class Browser:
    """One browser with one tab."""

    def __init__(self, folder: Path) -> None:
        assert PROGRAM is not None
        to_read, self._to = os.pipe()
        self._from, from_write = os.pipe()
        command = [PROGRAM, *_OPTIONS, f"--user-data-dir={folder / 'chromium'}", "about:blank"]
        # The browser reads from 3 and writes to 4; the shell puts the pipes there.
        script = f'exec "$@" 3<&{to_read} 4>&{from_write}'
        self._process = subprocess.Popen(
            ["bash", "-c", script, "bash", *command],
            pass_fds=(to_read, from_write),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        os.close(to_read)
        os.close(from_write)
        self._number, self._rest, self._session = 0, b"", ""
        self.events: list[dict[str, Any]] = []
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        attached = self.ask("Target.attachToTarget", targetId=target, flatten=True)
        self._session = attached["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.ask(f"{domain}.enable")

    def close(self) -> None:
        """End the browser, its own process only."""
        os.close(self._to)
        try:
            self._process.wait(10)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        os.close(self._from)

    def ask(self, method: str, **arguments: Any) -> dict[str, Any]:
        """Send a command and wait for its answer. Raises AssertionError where it is an error."""
        self._number += 1
        message: dict[str, Any] = {"id": self._number, "method": method, "params": arguments}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._to, json.dumps(message).encode() + b"\0")
        while True:
            came = self._next()
            if came.get("id") == self._number:
                assert "error" not in came, f"{method}: {came}"
                result: dict[str, Any] = came["result"]
                return result
            self.events.append(came)

    def _next(self) -> dict[str, Any]:
        deadline = time.monotonic() + PATIENCE
        while b"\0" not in self._rest:
            ready, _, _ = select.select([self._from], [], [], max(0.0, deadline - time.monotonic()))
            assert ready, "the browser does not answer"
            piece = os.read(self._from, 1 << 20)
            assert piece, "the browser ended"
            self._rest += piece
        whole, _, self._rest = self._rest.partition(b"\0")
        came: dict[str, Any] = json.loads(whole)
        return came

    def open(self, page: Path, width: int, *, dark: bool = False, print_: bool = False) -> None:
        """Load a page in a window of this width, in dark colours or as it is printed."""
        self.events.clear()
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=900,
                 deviceScaleFactor=1, mobile=width < 600)  # fmt: skip
        scheme = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
        media = "print" if print_ else "screen"
        still = {"name": "prefers-reduced-motion", "value": "reduce"}
        self.ask("Emulation.setEmulatedMedia", media=media, features=[scheme, still])
        self.ask("Page.navigate", url=page.as_uri())
        deadline = time.monotonic() + PATIENCE
        ready = "document.readyState == 'complete' && location.href != 'about:blank'"
        while not self.run(ready):
            assert time.monotonic() < deadline, "the page does not load"
            time.sleep(0.05)

    def run(self, script: str) -> Any:
        """The value of an expression on the page."""
        answer = self.ask("Runtime.evaluate", expression=script, returnByValue=True)
        assert "exceptionDetails" not in answer, answer["exceptionDetails"]
        return answer["result"].get("value")

    def of(self, *methods: str) -> list[dict[str, Any]]:
        """What happened since the page was opened, of these kinds."""
        return [each["params"] for each in self.events if each.get("method") in methods]

    def picture(self, path: Path, height: int = 0) -> None:
        """The page as it is seen, as a picture; `height`: so much of it from the top."""
        page = "document.scrollingElement"
        wide, high = self.run(f"[{page}.clientWidth, {page}.scrollHeight]")
        clip = {"x": 0, "y": 0, "width": wide, "height": height or min(high, 12000), "scale": 1}
        shot = self.ask("Page.captureScreenshot", format="png", clip=clip,
                        captureBeyondViewport=True)  # fmt: skip
        path.write_bytes(base64.b64decode(shot["data"]))
