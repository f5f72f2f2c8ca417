"""What does not fit, where a command's user finds it: in the manifest, or among the options."""

from layout.console import complain
from layout.pages.common.misfit import Misfit, Misfits


def complain_of(misfits: Misfits, command: str, size_option: str) -> None:
    """A line for each thing that does not fit; `size_option` says how large all of it may be."""
    for misfit in misfits.found:
        complain(f"{_where(misfit, command, size_option)}: {misfit.message}")


def _where(misfit: Misfit, command: str, size_option: str) -> str:
    if misfit.puzzle is not None and misfit.field != "size":
        return str(misfit.puzzle.place_of(misfit.field))
    if misfit.puzzle is not None:
        return f"reglet {command}: argument {size_option}"
    return f"reglet {command}" + "".join(f": argument --{key}" for key in misfit.path[:1])
