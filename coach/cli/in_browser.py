"""The screens in a browser, by the toolkit's own server: who may open them, and the page they stand in."""

from __future__ import annotations

import ipaddress
import shlex
import sys
from collections.abc import Awaitable, Callable, Sequence
from contextvars import ContextVar
from hmac import compare_digest
from html import escape
from secrets import token_urlsafe
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit

if TYPE_CHECKING:
    from aiohttp.web import Application, Request, StreamResponse

    _Handler = Callable[[Request], Awaitable[StreamResponse]]

THIS_MACHINE = "127.0.0.1"
"""Where the screens are served unless another address is asked for."""
TOKEN = "token"
"""What the token is called in the address that is opened, and in the browser's cookie."""
_TOKEN_BYTES = 24
_FONT = "16"
_REFUSED = "This shop is open to those alone who have its whole address, with the token that it ends in."
_NO_SOCKET = "The screens are drawn at the first page of this address: open that in a browser."
#: Where a page's screens come from, as the toolkit's server has it.
_SOCKET = "/ws"
_FOREIGN = "Another page has asked for these screens: open the address that the coach has told instead."

#: The server's own page fetches a font from the net; this one asks nobody for anything.
_PAGE = """<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Between Heats</title>
<link rel="stylesheet" href="/static/css/xterm.css"><script src="/static/js/textual.js"></script>
<style>html, body {{ margin: 0; height: 100%; overflow: hidden; background: #000; color: #fff;
font: 16px monospace; }}
.textual-terminal {{ width: 100vw; height: 100vh; }}
.intro-dialog, .closed-dialog {{ display: none; }}
body.-closed .closed-dialog {{ display: block; position: absolute; inset: 0; padding: 2em;
background: #000; z-index: 9; }}</style></head>
<body><div class="dialog-container intro-dialog"><button type="button" id="start">Start</button></div>
<div class="dialog-container closed-dialog"><p class="message">The coach was left.
<a href="/" style="color: inherit">Open it again</a>.</p></div>
<div id="terminal" class="textual-terminal" data-session-websocket-url="{socket}" data-font-size="{font}">
</div>
<script>const keys = setInterval(() => {{ const box = document.querySelector(".xterm-helper-textarea");
if (box) {{ box.focus(); clearInterval(keys); }} }}, 200);</script></body></html>
"""


def is_this_machine(host: str) -> bool:
    """Whether an address is this machine's own, which nobody else can reach.

    >>> [is_this_machine(one) for one in ("127.0.0.1", "::1", "localhost", "0.0.0.0", "192.168.1.5")]
    [True, True, True, False, False]
    """
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def reached_at(host: str) -> str:
    """The address of this machine that another opens where that is served.

    Of all of its addresses (0.0.0.0) the one that it goes by in its own network, or else its name: nothing
    is sent to find it.

    >>> reached_at("192.168.1.5"), reached_at("forge.local")
    ('192.168.1.5', 'forge.local')
    """
    import socket

    try:
        every = ipaddress.ip_address(host).is_unspecified
    except ValueError:
        every = False
    if not every:
        return host
    v6 = ":" in host
    # Addresses of nobody (RFC 5737, RFC 3849): a datagram's socket only looks up the way there.
    there = ("2001:db8::1", 9) if v6 else ("192.0.2.1", 9)
    try:
        with socket.socket(socket.AF_INET6 if v6 else socket.AF_INET, socket.SOCK_DGRAM) as way:
            way.connect(there)
            return str(way.getsockname()[0])
    except OSError:
        return socket.gethostname()


def new_token() -> str:
    """A token that nobody guesses."""
    return token_urlsafe(_TOKEN_BYTES)


def address(host: str, port: int, token: str) -> str:
    """The address to open.

    >>> address("127.0.0.1", 8000, ""), address("::1", 8000, "abc")
    ('http://127.0.0.1:8000/', 'http://[::1]:8000/?token=abc')
    """
    named = f"[{host}]" if ":" in host else host
    return f"http://{named}:{port}/" + (f"?{TOKEN}={token}" if token else "")


def may_open(*, token: str, given: str, host: str, origin: str | None, own_machine: bool) -> str:
    """Why a request is refused, in a sentence; "" where it is none.

    A page of anybody's that stands open in the same browser must not type at the bench: what another page
    asks for is refused, and on this machine whatever calls it by another name.

    Args:
        token: that is asked for; "" for none.
        given: what the request holds of it.
        host: as the browser calls this server, with its port.
        origin: the page that asks; None where it is the browser itself.
        own_machine: whether this machine alone is served.
    """
    if origin is not None and urlsplit(origin).netloc != host:
        return _FOREIGN
    if own_machine and not is_this_machine(urlsplit(f"//{host}").hostname or ""):
        return _FOREIGN
    if token and not compare_digest(given.encode(), token.encode()):
        return _REFUSED
    return ""


def command_of(arguments: Sequence[str]) -> str:
    """The command that opens the screens of one browser window: this coach, in a process of its own."""
    words = [sys.executable, "-m", "coach", *arguments]
    if sys.platform == "win32":
        import subprocess

        return subprocess.list2cmdline(words)
    return shlex.join(words)


def serve(arguments: Sequence[str], host: str, port: int, token: str, once_open: Callable[[], None]) -> None:
    """Serve the screens until they are ended by Ctrl+C; raises OSError where the address cannot be had.

    `once_open` is called as soon as they can be opened. Raises ImportError where the server is not installed.
    """
    import asyncio
    import logging

    from aiohttp import web
    from textual_serve.server import Server

    # A window that is open as this ends leaves a program behind that ends itself a moment later.
    logging.getLogger("asyncio").setLevel(logging.ERROR)
    own_machine, called = is_this_machine(host), ContextVar("called", default="")

    class ShopServer(Server):
        """The toolkit's server, with who may come in, and a page that asks nobody for anything."""

        async def handle_index(self, request: Request) -> Any:
            font = request.query.get("fontsize", "")
            socket = escape(f"ws://{called.get()}{_SOCKET}")
            page = _PAGE.format(socket=socket, font=font if font.isdigit() else _FONT)
            return web.Response(text=page, content_type="text/html")

        async def on_startup(self, app: Application) -> None:
            """It says nothing: the command has told the address."""

        async def _make_app(self) -> Application:
            app = await super()._make_app()
            app.middlewares.append(_gate)
            return app

    @web.middleware
    async def _gate(request: Request, handler: _Handler) -> StreamResponse:
        given = request.query.get(TOKEN) or request.cookies.get(TOKEN, "")
        origin = request.headers.get("Origin")
        why = may_open(token=token, given=given, host=request.host, origin=origin, own_machine=own_machine)
        if why:
            return web.Response(status=403, text=f"{why}\n")
        if token and request.query.get(TOKEN):  # the token does not stay in the bar of the browser
            found = web.HTTPSeeOther("/")
            found.set_cookie(TOKEN, token, httponly=True, samesite="Strict")
            return found
        if request.path == _SOCKET and request.headers.get("Upgrade", "").lower() != "websocket":
            return web.Response(status=400, text=f"{_NO_SOCKET}\n")
        called.set(request.host)
        return await handler(request)

    async def _until_ended() -> None:
        server = ShopServer(command_of(arguments), host=host, port=port, title="Between Heats")
        runner = web.AppRunner(await server._make_app())
        await runner.setup()
        try:
            await web.TCPSite(runner, host, port).start()
            once_open()
            await asyncio.Event().wait()
        finally:
            await runner.cleanup()

    asyncio.run(_until_ended())
