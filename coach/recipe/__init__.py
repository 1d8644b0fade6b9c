"""Recipes: from a file that a smith writes to plain values that the ledger works with.

The reader and the model are imported where they are used, for the reader needs YAML and pydantic and a job
under way does not.
"""

from __future__ import annotations
