"""A program that may not talk to anybody: each try to is an error."""

from __future__ import annotations

import sys

#: Python's audit events by which anything leaves this computer or waits for what comes to it.
TALKS = {
    "socket.connect",
    "socket.bind",
    "socket.sendto",
    "socket.sendmsg",
    "socket.getaddrinfo",
    "socket.listen",
}


class Talked(BaseException):
    """Something tried to."""


def refuse_the_network() -> None:
    """From now on, to the end of the process."""

    def look(event: str, given: tuple[object, ...]) -> None:
        if event in TALKS or event.startswith(("urllib.", "http.", "smtplib.", "ftplib.", "socket.gethost")):
            raise Talked(event)

    sys.addaudithook(look)
