"""A maker of fresh walkthroughs, and of walkthroughs with one slip, that knows nothing of the checker.

It has a board, pattern finders and an oracle of its own, so that the checker can be held against it.
"""

from .further import FURTHER
from .slips import Slipped, slip
from .walk import Step, Walk, make

__all__ = ["FURTHER", "Slipped", "Step", "Walk", "make", "slip"]
