"""What happens when the program itself fails: the work is kept first, then one sentence says so."""

import sys
import traceback
from collections.abc import Callable
from types import TracebackType

from PySide6.QtCore import QCoreApplication, QObject, Signal


class Faults(QObject):
    """Takes the place of `sys.excepthook` while the window is open."""

    told = Signal(str)
    """A sentence for the user; the details went to standard error."""

    def __init__(self, keep_work: Callable[[], None], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._keep_work, self._before = keep_work, sys.excepthook

    def watch(self) -> None:
        """Begin to take faults."""
        sys.excepthook = self.take

    def stop(self) -> None:
        """Leave faults to whoever had them before."""
        sys.excepthook = self._before

    def take(self, kind: type[BaseException], fault: BaseException, trace: TracebackType | None) -> None:
        """Keep the work, print the details, say one sentence."""
        if issubclass(kind, KeyboardInterrupt):
            self._before(kind, fault, trace)
            return
        traceback.print_exception(kind, fault, trace)
        kept = self._kept()
        sentence = QCoreApplication.translate("Faults", "Something went wrong in the program (%1).")
        said = sentence.replace("%1", f"{kind.__name__}: {' '.join(str(fault).split())}"[:200])
        self.told.emit(f"{said} {kept}")

    def _kept(self) -> str:
        try:
            self._keep_work()
        except Exception:
            traceback.print_exc()
            return QCoreApplication.translate("Faults", "Save the job under another name now.")
        return QCoreApplication.translate("Faults", "Your work is kept; save it, then close the program.")
