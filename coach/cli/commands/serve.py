"""`coach serve`: the screens in a browser, as on a tablet in the shop."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from coach.cli.in_browser import THIS_MACHINE, address, is_this_machine, new_token, reached_at
from coach.cli.opening import shop_path
from coach.cli.page import paragraph
from coach.cli.reply import Asked, Refused, Reply
from coach.quantities.takes import Take, plain

_PORT = 8000


def _port(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 0 < int(text) < 65536):
        raise Refused(f"{text[:20]!r} is no port: type a number from 1 to 65535, such as {_PORT}.")
    return int(text)


def _host(text: str) -> str:
    if not text.strip() or any(one.isspace() for one in text.strip()):
        raise Refused(f"{text[:40]!r} is no address of this machine: type one such as 192.168.1.5.")
    return text.strip()


SUMMARY = "Show the screens in a browser: on this machine alone, or elsewhere to who has the token."
TAKES = (
    Take(
        "--host",
        f"the address of this machine to be reached at; {THIS_MACHINE} unless said",
        "ADDRESS",
        plain(_host),
    ),
    Take("--port", f"the port; {_PORT} unless said", "PORT", plain(_port)),
)


def run(asked: Asked) -> Reply[None]:
    """Serve them until Ctrl+C."""
    from coach.cli.in_browser import serve

    if asked.json:
        raise Refused("A screen cannot answer in JSON: leave --json out.")
    host, port = asked.host or THIS_MACHINE, asked.port or _PORT
    token = "" if is_this_machine(host) else new_token()
    _need_the_server()
    path = Path(os.path.abspath(shop_path(asked)))
    arguments = ["--shop", str(path), *(["--units", asked.units] if asked.units else [])]
    told = f"Open {address(reached_at(host), port, token)} in a browser; Ctrl+C ends it."
    if token:
        told += (
            " Whoever has that address can read and enter everything in this shop: give it to nobody else. "
            "What goes over the air can be read along: use it in your own network alone."
        )
    try:
        serve(arguments, host, port, token, lambda: print("\n".join(paragraph(told)), flush=True))
    except OSError as error:
        why = error.strerror or "the address cannot be had"
        raise Refused(
            f"Nothing is served at {host}, port {port} ({why}): name another by --host or --port."
        ) from None
    except KeyboardInterrupt:
        pass
    print("No screen is served any more.", file=sys.stderr)
    return Reply((), None)


def _need_the_server() -> None:
    from importlib.util import find_spec

    if find_spec("textual_serve") is None:
        raise Refused(
            "The server of the screens is not installed: pip install 'between-heats[browser]' adds it."
        )
