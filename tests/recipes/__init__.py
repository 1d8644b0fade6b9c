"""Tests of recipes: reading, faults, schema, the bundled recipes and their guide."""

from __future__ import annotations
