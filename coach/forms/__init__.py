"""Solids: what a zone of a piece is at one moment, with named dimensions."""

from __future__ import annotations

from coach.forms.base import CrossSection, End, Form, FormError, Loop, Point, label, listed, said
from coach.forms.finding import form_kind, forms_called, kinds
from coach.forms.profile import Station, stations_from_sizes

__all__ = [
    "CrossSection",
    "End",
    "Form",
    "FormError",
    "Loop",
    "Point",
    "Station",
    "form_kind",
    "forms_called",
    "kinds",
    "label",
    "listed",
    "said",
    "stations_from_sizes",
]
