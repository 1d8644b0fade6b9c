"""Whatever can be typed, written in a file or carried here, tried at random: `python -m tests.fuzz`.

Each family is one module with what it tries, VALUES, and how one is tried, `check`, which fails where the
coach does anything but answer or refuse in a sentence.
"""
