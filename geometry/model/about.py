"""Who drew what, for the title block: the fields of ISO 7200:2004."""

from geometry.model.record import Record, Text


class About(Record, frozen=True, kw_only=True):
    """The words of the title block; the mandatory fields of ISO 7200:2004 come first."""

    title: Text = "Concealed shower"
    owner: Text = ""
    """Legal owner: the firm or person whose drawing it is."""
    number: Text = ""
    """Identification number of the drawing or job."""
    date: Text = ""
    """Date of issue, as the user writes it."""
    creator: Text = ""
    approved_by: Text = ""
    revision: Text = ""
    place: Text = ""
    """Which room and wall."""
    notes: Text = ""
