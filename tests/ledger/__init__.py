"""Tests of the metal account."""

from __future__ import annotations
