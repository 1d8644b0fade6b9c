"""HTML laid out as PDF, by a library that is an extra of the package."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType, ModuleType
from typing import Final

from coach.quantities.refusal import Refusal
from coach.quantities.units import System

#: The papers that a sheet is laid out for, as CSS calls them.
PAPERS: Final = ("A4", "letter")
#: Which is usual where sizes are told in these units (common practice, no source).
USUAL_PAPER: Final[Mapping[System, str]] = MappingProxyType({"mm": "A4", "in": "letter"})


class NoPdf(Refusal):
    """PDF cannot be made here, told in one plain sentence with what to do instead."""


def pdf(html: str, paper: str) -> bytes:
    """A page of HTML as PDF on a paper of `PAPERS`; nothing is fetched for it but what it holds itself.

    Raises NoPdf: what makes it is not installed, or a library of the system that it needs is not there.
    """
    try:
        import weasyprint
    except ImportError as error:
        raise NoPdf(
            "PDF is made by an extra of the coach that is not installed: `pip install 'between-heats[pdf]'`, "
            "or name a file that ends in .html and print it from a browser."
        ) from error
    except OSError as error:  # its fonts are set by Pango, which comes with the system
        raise NoPdf(
            "PDF cannot be made here, for the library Pango is not on this system: install it (it is often "
            "named libpango-1.0-0 or pango), or name a file that ends in .html and print it from a browser."
        ) from error

    sized = html.replace("@page {", f"@page {{ size: {paper};", 1)
    made = weasyprint.HTML(string=sized, url_fetcher=_fetcher(weasyprint)).write_pdf()
    assert isinstance(made, bytes)
    return made


def _fetcher(weasyprint: ModuleType) -> object:
    """What takes a picture out of the page that it stands in, and fetches nothing from anywhere else."""
    made = getattr(weasyprint.urls, "URLFetcher", None)
    if made is not None:
        return made(allowed_protocols=["data"])

    def fetch_itself(url: str, **_: object) -> object:  # as it was made in versions before 68
        if not url.startswith("data:"):
            raise ValueError(f"{url[:80]} is not fetched: a sheet is whole in itself")
        return weasyprint.default_url_fetcher(url)

    return fetch_itself
