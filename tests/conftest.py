"""What every test shares: Qt without a screen at scale 1, a settings folder of its own, repeatable examples.

`HYPOTHESIS_PROFILE=explore` tries many new examples instead of the same few every time.
"""

import os
from collections.abc import Iterator

import pytest
from hypothesis import settings

os.environ["QT_QPA_PLATFORM"] = "offscreen"  # read when Qt is first imported, so set before any test is
os.environ["QT_SCALE_FACTOR"] = "1"

# No deadline: a slow machine is not a fault.
settings.register_profile("ci", deadline=None, derandomize=True, max_examples=60, print_blob=True)
settings.register_profile("explore", deadline=None, derandomize=False, max_examples=2000, print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci"))


@pytest.fixture(scope="session", autouse=True)
def _settings_folders(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keep the settings and recovery files of whoever runs the tests out of reach."""
    home = tmp_path_factory.mktemp("home")
    with pytest.MonkeyPatch.context() as patch:
        for folder in ("CONFIG", "DATA", "STATE"):
            patch.setenv(f"XDG_{folder}_HOME", str(home / folder.lower()))
        yield
