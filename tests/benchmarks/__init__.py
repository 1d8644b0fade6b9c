"""How long the coach takes, beside something that cannot be faster: `python -m tests.benchmarks`.

The ratios are what counts: both sides of each are measured in turn in the same run, on the same computer.
Nothing here is a test with a limit in seconds, as those fail on a busy computer and prove nothing.
"""
