"""`python -m coach`, the same as the `coach` command."""

from __future__ import annotations

import sys

from coach.cli import main

if __name__ == "__main__":
    sys.exit(main())
