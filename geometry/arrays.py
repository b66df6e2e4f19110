"""What an array holds, by name; of any shape. Loading these is cheaper than `numpy.typing`."""

from typing import Any

import numpy as np

Floats = np.ndarray[Any, np.dtype[np.float64]]
Flags = np.ndarray[Any, np.dtype[np.bool_]]
Whole = np.ndarray[Any, np.dtype[np.int64]]
Indices = np.ndarray[Any, np.dtype[np.intp]]
Shapes = np.ndarray[Any, np.dtype[np.object_]]
"""Geometries of shapely."""
