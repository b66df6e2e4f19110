"""What the tests of drawings and files share."""

import pytest
from ezdxf.document import Drawing

from tests.export.dxf_reader import read
from tests.export.dxf_sample import a_drawing


@pytest.fixture(scope="session")
def drawing() -> Drawing:
    """Return the sample drawing as a receiver reads it; to look at, not to change."""
    return read(a_drawing().to_bytes())
