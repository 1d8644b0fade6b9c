"""The screens in a real browser: `python -m tests.browser` opens them in Chromium, where there is one."""
