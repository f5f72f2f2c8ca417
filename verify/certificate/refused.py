"""Why a certificate is refused."""


class Refused(Exception):  # noqa: N818 - what is wrong with a certificate, in an editor's words
    """A certificate that proves nothing: `file` is one of its files, `line` counts from 1."""

    def __init__(self, file: str, line: int, message: str) -> None:
        self.file, self.line, self.message = file, line, message
        super().__init__(f"{file}:{line}: {message}")
