"""Narrators: people who tell the walkthroughs of ``tests.maker`` in their own words.

They know nothing of the project's reader, and it was written without a look at two of them, which are kept aside so that its
figures on them are honest: ``column_first`` and ``ordinals``. The other twenty are for development.
"""

from __future__ import annotations

from ..maker.walk import Walk
from .almanac import Almanac
from .bearings import Bearings
from .bosun import Bosun
from .column_first import ColumnFirst
from .columnist import Columnist
from .dictation import Dictation
from .harbour import Harbour
from .helm import Helm
from .hotline import Hotline
from .lantern import Lantern
from .longhand import Longhand
from .mooring import Mooring
from .ordinals import Ordinals
from .parson import Parson
from .presenter import Presenter
from .speech import Speech
from .surveyor import Surveyor
from .teacher import Teacher
from .telling import KINDS, Narration, Narrator, Slip, Told, tell, tell_slipped
from .upright import Upright
from .verger import Verger
from .visitors import Visitors
from .voicemail import Voicemail

DEVELOPMENT: dict[str, Narrator] = {narrator.name: narrator for narrator in (Columnist(), Presenter(), Teacher(), Speech(), Dictation(), Bearings(), Parson(), Verger(), Surveyor(), Voicemail(), Almanac(), Harbour(), Visitors(), Hotline(), Longhand(), Upright(), Helm(), Mooring(), Lantern(), Bosun())}
KEPT_ASIDE: dict[str, Narrator] = {narrator.name: narrator for narrator in (ColumnFirst(), Ordinals())}
NARRATORS = {**DEVELOPMENT, **KEPT_ASIDE}

__all__ = ["DEVELOPMENT", "KEPT_ASIDE", "KINDS", "NARRATORS", "Narration", "Narrator", "Slip", "Told", "narrate", "slipped"]


def narrate(name: str, walk: Walk, seed: int) -> Narration:
    """The walk, told by the narrator of that name. The same seed gives the same words."""
    return tell(NARRATORS[name], walk, seed)


def slipped(name: str, walk: Walk, seed: int, kind: str | None = None) -> Narration | None:
    """The narration of ``narrate`` with one slip; None where no change that was tried makes one. ``kind``: of ``KINDS``."""
    return tell_slipped(NARRATORS[name], walk, seed, kind)
