"""Cures: what to change so that a clash is gone and nothing else is worse; each is a job with a title.

Worked out only when somebody asks, one finding at a time; nothing here runs while things are dragged.
"""

from geometry.cures.offers import Cure, cures_for
from geometry.cures.pack_out import ways_out

__all__ = ["Cure", "cures_for", "ways_out"]
