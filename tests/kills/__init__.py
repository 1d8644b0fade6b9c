"""The coach killed at any moment, and what is left looked through: `python -m tests.kills 500`."""
