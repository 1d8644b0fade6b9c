"""Tests of how sizes are read and written."""
