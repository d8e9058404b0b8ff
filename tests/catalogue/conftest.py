"""Every test of the catalogue has a cache folder of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from partscheck.catalogue import Catalogue

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture(autouse=True)
def cache(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path_factory.mktemp("cache")
    monkeypatch.setenv("XDG_CACHE_HOME", str(folder))
    return folder / "partscheck"


@pytest.fixture(scope="session")
def shipped(tmp_path_factory: pytest.TempPathFactory) -> Catalogue:
    """Read alone, never changed."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("shipped-cache")))
        return Catalogue.load()
