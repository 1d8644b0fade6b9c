"""A grade file to begin one of the smith's own with."""

from __future__ import annotations

from typing import Final

from coach.metals.grade_file import GradeFaults


def template_text(name: str) -> str:
    """A file to begin a grade of one's own with: it reads as it stands, and shows all that may be added.

    What may be added is commented out by a `#` with no blank after it. Raises GradeFaults for a name that is
    empty or holds what cannot be printed.
    """
    if not name.strip() or not name.isprintable():
        raise GradeFaults(["A grade's name must be words that can be printed, such as W2 or old file steel."])
    quoted = name.strip().replace("\\", "\\\\").replace('"', '\\"')
    return _TEMPLATE.replace("NAME", quoted, 1)


_TEMPLATE: Final = '''\
# A grade of your own. Temperatures are in °C, shares in per cent by mass.
# Take the # from the front of what you know; what is left out counts as not known.
# Every source ends in how far it is confirmed, in brackets: (confirmed), (confirmed second-hand),
# (from memory), (judgement) or (own shop).
name = "NAME"
aliases = []
standard = "none"
notes = """
Where the bar came from, and what it is good for."""

[density_kg_m3]
value = 7850
source = "steel in general (judgement)"

# The least, the nominal and the most of each element. Other elements: P S Cr Ni Mo W V Cu Al.
#[composition]
#source = "the maker's sheet (confirmed second-hand)"
#C = [0.80, 0.85, 0.93]
#Mn = [0.60, 0.75, 0.90]
#Si = [0.15, 0.20, 0.30]

#[forging_low_c]
#value = 800
#source = "tried on this bar (own shop)"
#[forging_high_c]
#value = 1090
#source = "tried on this bar (own shop)"

# What is known to be unknown may say so, in any of these places.
#[welding_low_c]
#unknown = "Never tried."
#[welding_high_c]
#unknown = "Never tried."

#[normalising_low_c]
#value = 845
#source = "the maker's sheet (confirmed second-hand)"
#[normalising_high_c]
#value = 870
#source = "the maker's sheet (confirmed second-hand)"

#[hardening_low_c]
#value = 800
#source = "coupons broken and looked at (own shop)"
#[hardening_high_c]
#value = 830
#source = "coupons broken and looked at (own shop)"

# The medium is oil, fast oil, water, brine, salt or air.
#[quench]
#medium = "fast oil"
#words = "Thick pieces may need brine."
#source = "coupons broken and looked at (own shop)"

#[tempering_low_c]
#value = 175
#source = "the maker's sheet (confirmed second-hand)"
#[tempering_high_c]
#value = 290
#source = "the maker's sheet (confirmed second-hand)"
'''
