"""Both palettes know every layer, and words and lines stand out from what they are drawn on.

Contrast is that of WCAG 2.1 (W3C Recommendation, 5 June 2018), definitions of "relative luminance" and
"contrast ratio"; words need 4.5 to 1 (criterion 1.4.3, level AA), graphical objects 3 to 1 (1.4.11).
"""

import pytest

from app.canvas.theme import DARK, DASHES, LIGHT, THEMES, Theme
from export.layers import LAYERS

WORDS = (
    "pipe-hot", "pipe-cold", "pipe-mixed", "dimension", "text", "caution", "clash", "tight", "zone",
    "service",
)  # fmt: skip
QUIET = {"hose-sweep", "tile", "tile-whole", "tile-cut", "leader", "trim", "rule"}
"""Lines that only help the eye along: nothing is lost with them."""
themes = pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)


def luminance(colour: str) -> float:
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def grounds(theme: Theme) -> set[str]:
    """Return every colour that words and lines may stand on."""
    fills = {theme.ink(name).fill for name in ("hose-sweep", "tile-cut", "chase", "recess")}
    return {theme.room, theme.wall, theme.plate, *(fill for fill in fills if fill)}


def test_contrast_is_worked_out_as_the_standard_says() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)  # (1 + 0.05) / (0 + 0.05)
    # #777777 on white is the known near miss: 119/255 is 0.1845 linear, 1.05 / 0.2345 = 4.478
    assert contrast("#777777", "#ffffff") == pytest.approx(4.478, abs=0.001)


@themes
def test_every_layer_has_a_look(theme: Theme) -> None:
    assert set(theme.inks) == set(LAYERS)
    assert all(ink.pattern in DASHES for ink in theme.inks.values())


@themes
def test_words_have_aa_contrast_on_whatever_they_stand(theme: Theme) -> None:
    poor = {
        (name, ground): round(ratio, 2)
        for name in WORDS
        for ground in grounds(theme)
        if (ratio := contrast(theme.ink(name).colour, ground)) < 4.5
    }
    assert poor == {}
    assert min(contrast(theme.words, ground) for ground in grounds(theme)) >= 4.5
    assert min(contrast(theme.refer, ground) for ground in grounds(theme)) >= 4.5
    assert contrast(theme.on_chosen, theme.chosen) >= 4.5
    assert min(contrast(theme.chosen, ground) for ground in grounds(theme)) >= 4.5


@themes
def test_lines_with_a_meaning_stand_out(theme: Theme) -> None:
    poor = {
        (name, ground): round(ratio, 2)
        for name in set(LAYERS) - QUIET
        for ground in (theme.room, theme.wall)
        if (ratio := contrast(theme.ink(name).colour, ground)) < 3.0
    }
    assert poor == {}


@themes
def test_hot_cold_and_mixed_differ_by_line_style_too(theme: Theme) -> None:
    assert len({theme.ink(f"pipe-{service}").pattern for service in ("hot", "cold", "mixed")}) == 3


@themes
def test_clash_and_tight_differ_by_line_style_too(theme: Theme) -> None:
    assert theme.ink("clash").pattern != theme.ink("tight").pattern


@themes
def test_every_colour_is_written_with_six_digits(theme: Theme) -> None:
    colours = {theme.room, theme.wall, theme.words, theme.plate, theme.chosen, theme.on_chosen}
    colours |= {ink.colour for ink in theme.inks.values()} | {
        ink.fill for ink in theme.inks.values() if ink.fill
    }
    assert all(len(colour) == 7 and int(colour[1:], 16) >= 0 for colour in colours)


def test_themes_are_found_by_name() -> None:
    assert THEMES == {"light": LIGHT, "dark": DARK}
