"""The Textual interface: one screen, one file; every truth comes from the session."""

from __future__ import annotations
