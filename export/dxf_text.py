r"""Words in a DXF file: names for its tables, lines of text, and the text of dimensions.

A DXF reader takes `%%c`, `^I`, `\U+0041` and the like for codes; what a user typed must show as typed.
Text stays in logical order, since the receiver arranges right-to-left writing. Nothing here knows a drawing.
"""

import re
import unicodedata

NOT_IN_NAMES = re.compile(r"""[\x00-\x1f\x7f<>/\\":;?*=,|'`]+""")
"""Characters that a layer, a block or a sheet must not have in its name."""
NAME_LENGTH = 200  # characters; the format allows 255, the rest is for a number that makes a name unique
NOTHING = "%%u%%u"  # underlining on and off again: parts two characters, and is not seen
READING = 0.05  # mm; the dimension style writes one decimal, so a text this close says the same number


def table_name(name: str) -> str:
    """Return a legal name in capitals for a layer, block or sheet: "pipe-hot" becomes "PIPE-HOT".

    Raises:
        ValueError: nothing of the name is left.
    """
    legal = NOT_IN_NAMES.sub("-", _one_line(name).upper()).strip(" -_")[:NAME_LENGTH].strip()
    if not legal:
        raise ValueError(f"{name!r} has no letter or digit to make a name of")
    return legal


def line_of_text(text: str) -> str:
    """Return the content of a TEXT that shows `text` as it was typed, on one line."""
    content = _one_line(text).replace("^", "^ ")  # a caret and a space are a caret; "^I" would be a tabulator
    content = re.sub(r"%{2,}", lambda run: "%%%" * len(run[0]), content)  # three are one; "%%c" is a code
    content = re.sub(r"\\(?=[UM]\+)", lambda _: "\\" + NOTHING, content)  # "\U+0041" would become "A"
    return content + NOTHING if content.endswith("^ ") else content  # readers drop a caret at the end


def dimension_text(text: str, measured: float) -> str:
    """Return what a DIMENSION shows, so that it stays tied to what it measures where it can.

    Args:
        text: What the drawing shows, for example "1100" or "1100 c/l".
        measured: What the dimension measures, in mm.

    Returns:
        "<>", which stands for the measured number, if the text is that number; "<>" and the rest if
        it begins with it; otherwise the text as typed; a blank, which hides the text, if there is none.
    """
    shown = _one_line(text)
    if not shown.strip():
        return " "
    number = re.match(r"[0-9]+(?:\.[0-9]+)?(?!\d|[.,]\d)", shown)
    if number and abs(float(number[0]) - measured) <= READING + 1e-9:
        return "<>" + _formatted(shown[number.end() :])
    return _formatted(shown)


def _formatted(text: str) -> str:
    """Escape what would be a code in formatted text; an empty group "{}" parts two characters."""
    content = re.sub(r"([\\{}])", r"\\\1", text).replace("^", "^ ")
    content = re.sub(r"\\\\(?=[UM]\+)", lambda _: r"\\{}", content)
    return re.sub(r"%(?=%)|<(?=>)|\[(?=\])", lambda first: first[0] + "{}", content)


def _one_line(text: str) -> str:
    """Make line ends, tabulators and other control characters spaces; half characters become U+FFFD."""
    blanks = {"Cc": " ", "Zl": " ", "Zp": " ", "Cs": "\ufffd"}
    return "".join(blanks.get(unicodedata.category(letter), letter) for letter in text)
