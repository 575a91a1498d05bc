"""The command line: run a command, and turn whatever goes wrong into one message and a code.

Exit codes: 0 done · 1 a fault of stretchform · 2 your input · 3 no answer, or a withheld plan ·
4 a damaged record.
"""

import os
import sys

from stretchform.commands import output
from stretchform.errors import StretchformError

_STOPPED = 130  # what shells give a program that Ctrl-C ended
_TRACEBACK = "STRETCHFORM_TRACEBACK"


def main() -> None:
    """Run the command line and leave with its exit code.

    Our matrices are small: threads of the linear algebra only cost time.
    """
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    output.make_safe(sys.stdout, sys.stderr)
    code = run(sys.argv[1:])
    output.flush()
    sys.exit(code)


def run(arguments: list[str]) -> int:
    """Run one command line; every error becomes a message on stderr and an exit code."""
    try:
        return _invoke(arguments)
    except StretchformError as error:
        output.complain(str(error))
        return error.exit_code
    except BrokenPipeError:  # the reader of a help text has seen enough
        output.close_quietly()
        return 0
    except KeyboardInterrupt:
        output.complain("stopped; nothing half-finished is left behind")
        return _STOPPED
    except Exception as error:
        output.complain(_fault(error))
        return 1


def _invoke(arguments: list[str]) -> int:
    """Let click find and run the command; its usage errors take our form."""
    import click

    from stretchform.commands.group import group

    try:
        with group.make_context("stretchform", list(arguments)) as context:
            result = group.invoke(context)
    except click.exceptions.Exit as leave:
        return leave.exit_code
    except click.Abort:
        raise KeyboardInterrupt from None
    except click.ClickException as error:
        from stretchform.commands.usage import as_input_error

        raise as_input_error(error) from error
    return result if isinstance(result, int) else 0


def _fault(error: Exception) -> str:
    """One sentence for what should not happen; the traceback only for who asks for it."""
    place = f"{type(error).__name__}: {error}".splitlines()[0][:200]
    if os.environ.get(_TRACEBACK):
        import traceback

        return "".join(traceback.format_exception(error)).rstrip()
    return (
        f"this is a fault of stretchform, not of your input ({place})\n"
        f"  try: {_TRACEBACK}=1 before the same command, and send the text that it shows"
    )


if __name__ == "__main__":
    main()
