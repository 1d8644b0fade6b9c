"""Tests of the forms."""
