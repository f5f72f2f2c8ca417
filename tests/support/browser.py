"""A browser to look at pages with, if there is one: Chromium, by the protocol of its inspector.

It is spoken to through two pipes, so that no port is open and no package is needed.
"""

import base64
import json
import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final

CHROMIUM: Final = shutil.which("chromium") or shutil.which("chromium-browser")

FLAGS: Final = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--no-first-run",
    "--remote-debugging-pipe",
)


class Browser:
    """One page of a browser that is under way."""

    def __init__(self, to: int, back: int) -> None:
        self._to, self._back = to, back
        self._count, self._rest, self._session = 0, b"", ""
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        attached = self.call("Target.attachToTarget", targetId=target, flatten=True)
        self._session = attached["sessionId"]

    def call(self, method: str, **values: Any) -> Any:
        """What comes of a call of the protocol."""
        self._count += 1
        message = {"id": self._count, "method": method, "params": values}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._to, json.dumps(message).encode() + b"\0")
        while True:
            answer = json.loads(self._message())
            if answer.get("id") == self._count:
                assert "error" not in answer, answer
                return answer["result"]

    def _message(self) -> bytes:
        while b"\0" not in self._rest:
            data = os.read(self._back, 1 << 20)
            assert data, "the browser is gone"
            self._rest += data
        message, _, self._rest = self._rest.partition(b"\0")
        return message

    def look_at(self, path: Path, width: int, **media: str) -> None:
        """Opens a page so many pixels wide, where media features have these values."""
        size = {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": False}
        self.call("Emulation.setDeviceMetricsOverride", **size)
        features = [
            {"name": name.replace("_", "-"), "value": value} for name, value in media.items()
        ]
        self.call("Emulation.setEmulatedMedia", features=features)
        self.call("Page.enable")
        self.call("Page.navigate", url=path.as_uri())
        while self.value("document.readyState") != "complete":
            pass

    def value(self, script: str) -> Any:
        """What an expression of the page comes to."""
        return self.call("Runtime.evaluate", expression=script, returnByValue=True)["result"].get(
            "value"
        )

    def picture(self, clip: Any) -> bytes:
        """A part of the page as PNG."""
        found = self.call(
            "Page.captureScreenshot", clip={**clip, "scale": 1}, captureBeyondViewport=True
        )
        return base64.b64decode(found["data"])

    def spoken(self) -> list[Any]:
        """The accessibility tree: what a screen reader is given."""
        nodes: list[Any] = self.call("Accessibility.getFullAXTree")["nodes"]
        return nodes


@contextmanager
def browser(folder: Path) -> Iterator[Browser]:
    """A browser that keeps what it keeps in a folder."""
    assert CHROMIUM
    to_read, to = os.pipe()
    back, back_written = os.pipe()
    command = [CHROMIUM, *FLAGS, f"--user-data-dir={folder / 'browser'}"]

    def joined() -> None:
        """In the browser's process: it reads from 3 and writes to 4."""
        os.dup2(to_read, 3)
        os.dup2(back_written, 4)

    with subprocess.Popen(
        command,
        preexec_fn=joined,
        pass_fds=(3, 4),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    ) as process:
        os.close(to_read)
        os.close(back_written)
        try:
            yield Browser(to, back)
        finally:
            process.kill()
            os.close(to)
            os.close(back)
