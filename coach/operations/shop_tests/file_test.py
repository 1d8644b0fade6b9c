"""The file test: hardened steel skates under a sharp file, or with less carbon is only just bitten."""

from __future__ import annotations

from coach.metals.own_curve import FILE_IS_HRC
from coach.operations.does import Does
from coach.operations.shop_test import ShopTest

#: What a new file hardly bites, in HRC (from memory).
_TEMPERED = ShopTest(
    how=(
        "Grind a spot clean beside the edge and draw a new file over it. Itself "
        f"{FILE_IS_HRC[0]:.0f} to {FILE_IS_HRC[1]:.0f} HRC, it bites "
        "tempered steel: hardly at 54 to 58 HRC, more the softer it is. Pass when it bites no more than what "
        "is wanted does; of steel wanted softer than that it tells little."
    ),
    after_doubt="measure the hardness, or try the edge in use",
    after_fail=(
        "a file bites tempered steel and cannot tell how hard it is: measure the hardness, or try the edge "
        "in use; nothing is hardened again for this alone"
    ),
)

_NEVER_HARDENED = ShopTest(
    how=(
        "Draw a sharp file over a clean spot. No step hardens this part, and the file is to bite: it has "
        "failed the test when it bites, as it should, and passed when it skates."
    ),
    after_doubt="grind the spot a little deeper and try again",
    after_fail="it is soft, as it should be: no step hardens it",
)

_LESS_HARD = ShopTest(
    how=(
        "Grind a spot clean beside the edge and draw a sharp file over it, then over a part that was not "
        "quenched. This steel may be softer than a file from the best quench: pass when it skates, or only "
        "just bites and far less than there."
    ),
    after_doubt="grind the spot a little deeper and try again, or measure the hardness",
    after_fail=(
        "soft skin or a lost quench: grind a spot clean and try again; if it bites as freely as steel that "
        "was not quenched, harden it again"
    ),
    first=(
        "Grind a spot clean and try again first: a soft skin fails the test over hard steel, and this steel "
        "a file may just bite from the best quench."
    ),
    mended_by=(Does.QUENCHES,),
)

TEST = ShopTest(
    how="Grind a spot clean beside the edge and draw a sharp file over it: pass when it skates.",
    after_doubt="grind the spot a little deeper and try again",
    after_fail="soft skin or a lost quench: grind a spot clean and try again; if it bites, harden it again",
    first="Grind a spot clean and try again first: a soft skin fails the test over hard steel.",
    mended_by=(Does.QUENCHES,),
    once_tempered=_TEMPERED,
    less_hard=_LESS_HARD,
    never_hardened=_NEVER_HARDENED,
)
