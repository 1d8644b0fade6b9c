"""A form of which a length is off one end."""

from __future__ import annotations

from coach.forms import Form

_END = "end_"


def shorter(form: Form, by_mm: float, *, at_start: bool = False) -> dict[str, float]:
    """What a form's sizes are where so much of its length is off one end: by similar triangles."""
    sizes = form.sizes_mm()
    share = by_mm / sizes["length"]
    after = {"length": sizes["length"] - by_mm}
    for name in (name for name in form.DIMENSIONS if name.startswith(_END)):
        start = name.removeprefix(_END)
        if at_start:
            after[start] = sizes[start] + share * (sizes[name] - sizes[start])
        else:
            after[name] = sizes[name] + share * (sizes[start] - sizes[name])
    return after
