"""Marking of texts that are translated where they are shown, not where they stand."""


def QT_TRANSLATE_NOOP(context: str, text: str) -> str:  # noqa: N802 - the name by which Qt's tools find the texts
    """Return the text as it is; Qt's own function does the same without saying that it is a text."""
    return text
