"""The records of a job. All are immutable; all lengths are mm; see `geometry` for the axes."""

from geometry.model.about import About
from geometry.model.enclosure import Door, Enclosure, Screen, Waste
from geometry.model.finish import Finish, FinishArea, Layer, Niche, Panels, Region, Tiling
from geometry.model.fittings import Fitting, Head, Hose, HoseOutlet, Rail, Spout, Valve
from geometry.model.house import House, Sanitary
from geometry.model.job import Job
from geometry.model.pipes import Pipe
from geometry.model.pipework import Measured, Offcut, Photograph, Pipework
from geometry.model.record import XY
from geometry.model.services import Accessory, Cable, Joist, OldPipe, Service, Stud
from geometry.model.supply import Booster, Branch, Drain, Reading, Supply, Upstream
from geometry.model.wall import FarCut, Opening, Wall

__all__ = [
    "XY", "About", "Accessory", "Booster", "Branch", "Cable", "Door", "Drain", "Enclosure", "FarCut",
    "Finish", "FinishArea", "Fitting", "Head", "Hose", "HoseOutlet", "House", "Job", "Joist", "Layer",
    "Measured", "Niche", "Offcut", "OldPipe", "Opening", "Panels", "Photograph", "Pipe", "Pipework",
    "Rail", "Reading", "Region", "Sanitary", "Screen", "Service", "Spout", "Stud", "Supply", "Tiling",
    "Upstream", "Valve", "Wall", "Waste",
]  # fmt: skip
