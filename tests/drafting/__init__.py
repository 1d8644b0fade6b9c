"""Recipes that are written for a smith."""
