"""The keys of the screen in hand, on as many lines as they need."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.binding import Binding
from textual.content import Content
from textual.reactive import reactive
from textual.style import Style
from textual.widgets import Static

#: From this size of window up every key is told.
_ROOMY = (120, 40)
_ACTION = "action"  # what each key's words carry unseen


class KeyBar(Static):
    """Each key with its word; a touch or a click on one does the same as the key."""

    ALLOW_SELECT = False

    keys: reactive[Sequence[Binding]] = reactive(())

    def on_resize(self) -> None:
        """Every key where there is room for all of them, else those that are pressed all day."""
        width, height = self.app.size
        self.update(keys_words(self.keys, every=width >= _ROOMY[0] and height >= _ROOMY[1]))

    watch_keys = on_resize

    async def on_click(self, event: events.Click) -> None:
        action = event.style.meta.get(_ACTION)
        if action:
            await self.screen.run_action(action)


def keys_words(bindings: Sequence[Binding], *, every: bool = False) -> Content:
    """The shown keys, or every one of them, each unbroken, with a blank between them."""
    told = []
    for binding in bindings:
        if binding.show or every:
            words = (f"\N{NO-BREAK SPACE}{binding.description}").replace(" ", "\N{NO-BREAK SPACE}")
            shown = Content.assemble((binding.key_display or binding.key, "bold $accent"), words)
            told.append(shown.stylize(Style.from_meta({_ACTION: binding.action})))
    return Content(" ").join(told)
