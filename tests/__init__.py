"""Tests; the folders mirror those of the package."""

from __future__ import annotations
