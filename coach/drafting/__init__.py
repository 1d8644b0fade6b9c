"""Writes recipes: from answers, from a recipe that is like it, and from an outline."""
