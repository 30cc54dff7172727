"""``stepwarrant watch``: wait for a file to be saved."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from pathlib import Path as FilePath

PULSE = 500
"""Milliseconds after which the file is looked at even if nothing was heard of it: a save while an audit ran is not missed."""


class NotInstalled(Exception):
    """The library that watches files is not there; the text says how to get it."""


def saves(file: str) -> Iterator[None]:
    """Once at first, and then each time the file stands there anew. Raises NotInstalled, and OSError where its folder is gone.

    Its folder is watched, not the file: many editors save by putting a new file in the old one's place.
    """
    try:
        from watchfiles import watch
    except ImportError as error:
        raise NotInstalled("watching needs the [watch] extra: pip install 'stepwarrant[watch]'") from error
    wanted = FilePath(file).resolve()
    heard = watch(wanted.parent, recursive=False, raise_interrupt=True, yield_on_timeout=True, rust_timeout=PULSE)
    seen: tuple[int, ...] | None = None
    for _ in chain([None], heard):
        stands = _state(wanted)
        if stands and stands != seen:
            seen = stands
            yield


def _state(file: FilePath) -> tuple[int, ...] | None:
    """What differs after a save; None while there is no file."""
    try:
        told = file.stat()
    except FileNotFoundError:
        return None
    return told.st_ino, told.st_mtime_ns, told.st_size
