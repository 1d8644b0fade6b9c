"""Taking a recipe's changed file: which file, then what it would change; Enter follows it."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input, Static

from coach.bench.file_amended import FileAmended
from coach.bench.session import Session
from coach.ledger.working import LedgerError
from coach.quantities.refusal import Refusal
from coach.screens.page_content import page_content, width_in_window
from coach.screens.reply import no_reply, reply_of
from coach.screens.screen import TURNS, JobScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.box import Box
from coach.screens.widgets.panel import Lines
from coach.screens.wording import Ink, one_line
from coach.telling.file_amended import file_amended_page

WAY_IN = {
    "key": "ctrl+f",
    "words": "Amend",
    "told": "Follow the recipe's changed file",
    "group": "Write",
}


class AmendScreen(JobScreen):
    """Asks for the file, shows what is otherwise in it, and lets the job follow it."""

    CSS_PATH = "amend.tcss"
    NAME = "Amending the recipe"
    HELP_TEXT = """
        A job keeps the recipe that it began with. When its file was changed since, the coach says here what
        that would change of the steps ahead, of the drawing, of the chance and the spare, and what is too
        late because it is done. Nothing is entered by looking. Enter lets the job follow the file from the
        step in hand on; at the bench, Undo takes that back. Esc goes back.
    """
    BINDINGS = [
        key("enter", "next", "Next", "Look at the file; then, follow it", first=False),
        key("escape", "before", "Back", "Back to the name of the file; from there to the bench"),
        *TURNS,
    ]

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._found: FileAmended | None = None
        self._file = Path()
        self._named = ""  # how the file was named

    def compose(self) -> ComposeResult:
        prompt, box = Static("", id="prompt", markup=False), Box()
        title = f"The recipe of {self.session.recipe.title}, changed"
        yield from self.framed(title, Lines(can_focus=False), AnswerLine(), prompt, box)

    def on_mount(self) -> None:
        from coach.recipe.library import recipe_files

        box, source = self.query_one(Input), self.session.recipe.source
        known = recipe_files(self.coach.folders)
        box.value = str(known.get(Path(source).stem, source))
        box.select_all()  # another file is typed in its place
        self._ask()

    def on_resize(self) -> None:
        self._show()

    def _ask(self) -> None:
        self.query_one("#prompt", Static).update(one_line("Its file, or the recipe's name", Ink.STRONG))
        self.tell("Type the recipe's file as it is now; Enter looks at it.")
        self._show()

    def _show(self) -> None:
        width = width_in_window(self.app.size.width)
        with suppress(LookupError):
            lines = self.query_one(Lines)
            if self._found is not None:
                lines.show(page_content(file_amended_page(self._found, self.shown), width))
            else:
                lines.show(one_line(""))

    @on(Input.Submitted, "#typed")
    def _entered(self, event: Input.Submitted) -> None:
        self.action_next()

    def action_next(self) -> None:
        box = self.query_one(Input)
        if self._found is not None:
            self._answer(box.value)
            return
        self._found = self.attempt(self._look)
        if self._found is None:
            return
        self._named, box.value = box.value, ""
        box.placeholder = "Enter follows it, Esc goes back"
        self._show()
        if self._found.changes.is_none:
            self.tell("Nothing ahead is otherwise in it. Esc goes back.")
        else:
            self.query_one("#prompt", Static).update(one_line("Follow it from here on?", Ink.STRONG))
            self.tell("Enter follows the file from the step in hand on; Undo at the bench takes it back.")

    def _answer(self, typed: str) -> None:
        """It is followed by a yes alone."""
        said = reply_of(typed) if typed.strip() else True
        if said is None:
            self.tell(no_reply(typed, "follows it"), bad=True)
        elif not said:
            self.action_before()
        elif (answer := self.attempt(lambda: self.session.amend(self._text(), self._file.name))) is not None:
            self.dismiss(answer)

    def _look(self) -> FileAmended:
        from coach.recipe.library import find_recipe

        self._file = find_recipe(self.query_one(Input).value, self.coach.folders)
        try:
            return self.session.file_changes(self._text(), self._file.name)
        except LedgerError as error:
            raise Refusal("{}", error.words) from None

    def _text(self) -> str:
        from coach.recipe.text import file_text

        return file_text(self._file)

    def action_before(self) -> None:
        if self._found is None:
            self.dismiss()
            return
        self._found = None
        box = self.query_one(Input)
        box.value, box.placeholder = self._named, ""
        box.select_all()  # another file is typed in its place
        self._ask()
