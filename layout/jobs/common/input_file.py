"""Files beside a job that it names, other than its puzzles."""

from pathlib import Path

from verify.manifest.source import lies_in
from verify.reading.node import Place, shown
from verify.reading.problems import Problem, Unreadable


def input_file(folder: Path, name: str, place: Place) -> Path:
    """The file that a job names at a place. Raises Unreadable where it is not there, or lies
    outside the job's folder.
    """
    path = folder / name
    if not lies_in(path, folder):
        message = f'found "{shown(name)}", expected a file inside the folder of the job'
        raise Unreadable([Problem(place, message)])
    if not path.exists():
        raise Unreadable([Problem(place, f'there is no file "{shown(name)}"')])
    return path
