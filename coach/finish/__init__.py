"""The sizes a tool is finished to: its edge, its bevel, its eye and haft, its laid steel and its balance."""

from __future__ import annotations
