"""The tests of the shop: one test, one file, found by looking in this package."""

from __future__ import annotations

import importlib
from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Final

from coach.declared import modules_in
from coach.operations.shop_test import ShopTest


class _Found(Mapping[str, ShopTest]):
    """Every test by its key, which is its file's name; a file is looked into when its test is asked for."""

    @cached_property
    def _keys(self) -> tuple[str, ...]:
        return modules_in(__path__)

    def __getitem__(self, key: str) -> ShopTest:
        if key not in self._keys:
            raise KeyError(key)
        test: ShopTest = importlib.import_module(f"{__name__}.{key}").TEST
        return test

    def __iter__(self) -> Iterator[str]:
        return iter(self._keys)

    def __len__(self) -> int:
        return len(self._keys)


SHOP_TESTS: Final[Mapping[str, ShopTest]] = _Found()
