"""The recipe of a job was changed in its file: from here on the job follows the file as it is now."""

from __future__ import annotations

import json

from coach.log.body import Body
from coach.log.kinds.began import LONGEST_RECIPE
from coach.log.limits import LONGEST_LINE, saying, step_number, whole, writing
from coach.log.status import JobStatus
from coach.quantities.words import Words

#: How a change is called that was made in the file; one that was said in a line is called by what it says.
AS_IN_FILE = "the recipe as its file has it now, from step {} on"


class Amended(Body):
    """The steps that are done, and those of the file that are still ahead."""

    CALLED = "a change of the recipe"
    SAYS = ("{}", "title")
    IS_WEIGHED = True
    AFTER = JobStatus.UNDER_WAY

    title: Words = saying(LONGEST_LINE)
    changes: Words = saying(4 * LONGEST_LINE)
    step: int = step_number(least=1)  # in hand then: it and those after it are the file's
    cut: int = whole(0, 1000)  # so many steps of the file stand before those that it gives
    source: str = writing(4 * LONGEST_LINE, least=0)  # where the file was
    text: str = writing(LONGEST_RECIPE, least=0)  # of the file
    recipe: str = writing(LONGEST_RECIPE, least=0)  # as the job follows it: JSON, as a beginning holds it

    def titles(self) -> list[str]:
        """The titles of the job's steps from then on; none where what it holds is no recipe."""
        try:
            return [str(step["title"]) for step in json.loads(self.recipe)["steps"]]
        except (ValueError, KeyError, TypeError, RecursionError):
            return []
