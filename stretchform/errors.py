"""Every error that stretchform raises on purpose.

StretchformError
├── InputError     a job file, table or argument is wrong            exit 2
├── InputErrors    several of them, found in one reading             exit 2
├── DataError      a material record is wrong or has no source       exit 2
├── NoSolution     the physics has no answer for these numbers       exit 3
└── RecordError    the day record is damaged                         exit 4

Anything else that escapes is a fault of stretchform itself          exit 1
"""

from collections.abc import Sequence


class StretchformError(Exception):
    """An error with a place, what was found there, and a line that works."""

    exit_code = 1

    def __init__(self, where: str, problem: str, fix: str) -> None:
        super().__init__(where, problem, fix)
        self.where = where
        self.problem = problem
        self.fix = fix

    def __str__(self) -> str:
        return f"{self.where}: {self.problem}\n  try: {self.fix}"


class InputError(StretchformError):
    """Something the user wrote cannot be used."""

    exit_code = 2


class DataError(StretchformError):
    """A material record is wrong or does not say where a number comes from."""

    exit_code = 2


class NoSolution(StretchformError):  # noqa: N818 - the word of the trade, not a fault
    """The physics has no answer for these numbers."""

    exit_code = 3


class RecordError(StretchformError):
    """The day record is damaged."""

    exit_code = 4


class InputErrors(StretchformError):  # noqa: N818 - the plural of InputError
    """All mistakes of one file, so that the user mends them in one go."""

    exit_code = 2

    def __init__(self, errors: Sequence[StretchformError]) -> None:
        super().__init__(errors[0].where, errors[0].problem, errors[0].fix)
        self.errors = tuple(errors)

    def __str__(self) -> str:
        return "\n".join(str(error) for error in self.errors)
