"""A job at the bench: its log, what the log amounts to, and the one service both ways in call."""
