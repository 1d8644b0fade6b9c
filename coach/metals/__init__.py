"""Grades of iron and steel, with what is published about each and how far it is confirmed."""

from __future__ import annotations
