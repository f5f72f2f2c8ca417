"""Where certificates are written: three files for each puzzle, named by its id."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from layout.output.files import refuse_inputs
from layout.output.write import OutputFile
from verify.certificate.checking import CertificateFiles
from verify.reading.node import Place
from verify.reading.problems import Problem, Unreadable


class CertificateFolder:
    """A folder for certificates; `inputs` are files read, with any name, that it must not hit."""

    def __init__(self, path: Path, inputs: Sequence[Path] = ()) -> None:
        self.path = path
        self._inputs = inputs
        self._places: dict[str, Place] = {}

    def files(self, certificate: CertificateFiles, place: Place) -> Iterator[OutputFile]:
        """The files of a certificate; `place` is where its puzzle stands.

        Raises Unreadable where another puzzle has the same id, also but for its case, as some disks
        tell no case apart; and OutputError where a file is one of those read.
        """
        first = self._places.setdefault(certificate.name.casefold(), place)
        if first is not place:
            message = f'"{certificate.name}" is the id of the puzzle at {first} already'
            raise Unreadable([Problem(place, f"{message}; a certificate needs its own")])
        for kind in ("cnf", "drat", "json"):
            path = self.path / certificate.called(kind)
            refuse_inputs(path, self._inputs)
            yield path, getattr(certificate, kind), None
