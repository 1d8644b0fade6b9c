"""Open the shop in a real browser, type at it, and look at what stands there.

`python -m tests.browser [PICTURE.png]` needs the `browser` extra and a Chromium; it takes some seconds, so it
is no part of the suite. It says what was seen and ends with 0 where all of it was as it must be.
"""

from __future__ import annotations

import asyncio
import base64
import json
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import aiohttp

_BROWSERS = ("chromium", "chromium-browser", "google-chrome")
_WAIT_S = 60.0
_ANSI = re.compile(r"\x1b\[[0-9;?<>=]*[A-Za-z]|\x1b[\]P][^\x07\x1b]*(\x07|\x1b\\)")


def free_port() -> int:
    """A port that nobody listens at."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


class Page:
    """One page of a browser, by its own protocol."""

    def __init__(self, line: aiohttp.ClientWebSocketResponse) -> None:
        self._line, self._last = line, 0
        self.drawn = ""  # all that the server sent to be drawn
        self.asked: list[str] = []  # every address that the page asked for
        self._answers: dict[int, Any] = {}

    async def do(self, method: str, **given: object) -> Any:
        """Have the browser do something; its answer."""
        self._last += 1
        number = self._last
        await self._line.send_json({"id": number, "method": method, "params": given})
        await self.until(lambda: number in self._answers)
        return self._answers[number]

    async def until(self, done: Callable[[], bool], wait_s: float = _WAIT_S) -> bool:
        """Take in what comes until something is so; False where it does not come to that."""
        end = asyncio.get_running_loop().time() + wait_s
        while not done():
            left = end - asyncio.get_running_loop().time()
            if left <= 0.0:
                return False
            try:
                message = await asyncio.wait_for(self._line.receive(), left)
            except TimeoutError:
                return False
            self._take(json.loads(message.data))
        return True

    def _take(self, told: dict[str, Any]) -> None:
        if "id" in told:
            self._answers[told["id"]] = told.get("result", told.get("error"))
        elif told["method"] == "Network.requestWillBeSent":
            self.asked.append(told["params"]["request"]["url"])
        elif told["method"] == "Network.webSocketCreated":
            self.asked.append(told["params"]["url"])
        elif told["method"] == "Network.webSocketFrameReceived":
            frame = told["params"]["response"]
            held = frame["payloadData"]
            if frame["opcode"] == 2:
                held = base64.b64decode(held).decode("utf-8", "replace")
            self.drawn += _ANSI.sub("", held)

    async def press(self, key: str, code: str, number: int, text: str = "") -> None:
        """Press a key."""
        for kind in ("keyDown", "keyUp"):
            await self.do(
                "Input.dispatchKeyEvent",
                type=kind,
                key=key,
                code=code,
                windowsVirtualKeyCode=number,
                **({"text": text} if text and kind == "keyDown" else {}),
            )


async def look(address: str, debugged: int, picture: Path | None) -> list[str]:
    """What is wrong with the screens at an address."""
    wrong: list[str] = []
    async with aiohttp.ClientSession() as web:
        async with web.get(f"http://127.0.0.1:{debugged}/json") as found:
            pages = [one for one in await found.json() if one["type"] == "page"]
        async with web.ws_connect(pages[0]["webSocketDebuggerUrl"], max_msg_size=0) as line:
            page = Page(line)
            await page.do("Network.enable")
            await page.do("Page.enable")
            await page.do("Page.navigate", url=address)
            if not await page.until(lambda: "Mark out the hook" in page.drawn):
                wrong.append(f"the shop does not stand there: {page.drawn[-300:]!r}")
            await page.until(lambda: False, 2.0)
            page.drawn = ""
            for kind in ("mousePressed", "mouseReleased"):  # the terminal has the keys once it is touched
                await page.do("Input.dispatchMouseEvent", type=kind, x=500, y=6, button="left", clickCount=1)
            await page.press("Enter", "Enter", 13, "\r")
            if not await page.until(lambda: "tip" in page.drawn):
                wrong.append(f"Enter opens no job: {page.drawn[-300:]!r}")
            await page.until(lambda: False, 2.0)
            here = address.partition("://")[2].partition("/")[0]
            foreign = [one for one in page.asked if here not in one and not one.startswith("data:")]
            if foreign:
                wrong.append(f"the page asked others: {foreign}")
            if picture is not None:
                shot = await page.do("Page.captureScreenshot", format="png")
                picture.write_bytes(base64.b64decode(shot["data"]))
    return wrong


def main(picture: Path | None) -> int:
    """Begin a job, serve the shop, look at it in a browser."""
    browser = next((found for one in _BROWSERS if (found := shutil.which(one))), None)
    if browser is None:
        print("There is no Chromium here: nothing was tried.")
        return 2
    wrong: list[str] = []
    with tempfile.TemporaryDirectory() as folder:
        log, coach = str(Path(folder) / "shop.db"), [sys.executable, "-m", "coach"]
        subprocess.run([*coach, "begin", "first-hook", "--shop", log], check=True, stdout=subprocess.DEVNULL)
        port = free_port()
        serving = [*coach, "serve", "--shop", log, "--port", str(port)]
        served = subprocess.Popen(serving, stdout=subprocess.PIPE)
        assert served.stdout is not None
        address = re.findall(r"http://\S+", served.stdout.readline().decode())[0]
        shown = subprocess.Popen(
            [
                browser,
                "--headless=new",
                "--no-sandbox",
                "--disable-gpu",
                "--no-first-run",
                f"--user-data-dir={folder}/browser",
                "--remote-debugging-port=0",
                "--remote-allow-origins=*",
                "--window-size=1024,768",
                "about:blank",
            ],
            stderr=subprocess.PIPE,
            env={**os.environ, "HOME": folder},
        )
        assert shown.stderr is not None
        try:
            told = iter(shown.stderr.readline, b"")
            listens = (re.search(rb"DevTools listening on ws://127.0.0.1:(\d+)/", line) for line in told)
            debugged = next(int(found[1]) for found in listens if found)
            wrong = asyncio.run(look(address, debugged, picture))
        finally:
            for one in (shown, served):
                one.terminate()
                one.wait(20)
    print("\n".join(wrong) or "The shop stands in the browser, Enter opens a job, and nobody else was asked.")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]) if len(sys.argv) > 1 else None))
