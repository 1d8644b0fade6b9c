"""Tests of what each operation does to a zone."""

from __future__ import annotations
