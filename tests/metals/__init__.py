"""Tests of the metals."""

from __future__ import annotations
