"""Marks that can be read off their cells one after another, with a running note."""

from typing import Any, Protocol, runtime_checkable

from verify.facets import Facets, Form
from verify.formula.scan import Diagram, Scan, total_scan
from verify.pencil import Pencil


@runtime_checkable
class Noted(Protocol):
    """A mark whose note says all that it says, beside which of its cells differ."""

    def note(self, pencil: Pencil) -> Scan[Any]:
        """The scan over its cells; what the marks rule out it may leave out."""
        ...


@runtime_checkable
class Diagrammed(Protocol):
    """A mark that strikes just what stands in no way of a diagram."""

    def diagram(self, digits: int) -> Diagram:
        """All ways to fill its cells in order; one and the same object for alike marks."""
        ...


def noted(constraint: object, said: Facets, pencil: Pencil) -> Scan[Any] | None:
    """The note of a mark: its own one, or that of its sum; None where it has neither."""
    if isinstance(constraint, Noted):
        return constraint.note(pencil)
    sums = said.sums_once
    if said.all_by is Form.SUMS and len(sums) == 1:
        return total_scan(dict(sums[0].terms), sums[0].total, pencil)
    return None
