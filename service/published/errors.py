"""The one exception that a data file can cause."""


class DataFileError(ValueError):
    """A data file breaks the rules of its format, or prints no number where one is asked for.

    The text names the file first, then what is missing or wrong.
    """

    def __init__(self, file: str, problem: str) -> None:
        super().__init__(f"{file}: {problem}")
        self.file = file
        self.problem = problem
