"""A virtual smith whose world is not the coach's: what is told held against what came.

The metal is walked in plain arithmetic, without the coach's forms, ledger or belief; the coach is told what a
smith would type and asked what it says. `python -m tests.worlds` prints the tables of
docs/calibration.md; what each figure must reach stands in `marks.py`, written before the first run.
"""
