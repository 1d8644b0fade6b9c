"""Tests of the fire."""

from __future__ import annotations
