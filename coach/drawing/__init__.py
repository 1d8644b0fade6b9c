"""Pictures: the geometry of a piece as views, and the views on screen or paper."""
