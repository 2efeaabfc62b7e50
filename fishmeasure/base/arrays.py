"""Array types, and the rule that an array in a record is read-only."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
ByteArray = NDArray[np.uint8]
BoolArray = NDArray[np.bool_]

_Scalar = TypeVar("_Scalar", bound=np.generic)


def frozen(array: NDArray[_Scalar]) -> NDArray[_Scalar]:
    """Return a read-only view of the array, for use in a frozen record."""
    view = array.view()
    view.flags.writeable = False
    return view
