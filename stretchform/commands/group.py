"""The list of commands; each one is loaded only when it is asked for."""

from importlib import import_module

import click

from stretchform import __version__

COMMANDS = (
    "new",
    "check",
    "steels",
    "fit",
    "plan",
    "plates",
    "draw",
    "compare",
)  # in the order of the work

_HELP = """Plan the forming of thin austenitic stainless tanks by water pressure.

\b
  stretchform new tank.toml      write a job file to fill in
  stretchform check tank.toml    see whether it is understood
  stretchform plan tank.toml     pressure, growth, steps, plates, energy

Forming with pressure can kill. Water only, nobody near or in line while there is pressure.
The local pressure-equipment law, your insurer and a licensed engineer decide, not this
program.

Exit codes: 0 done, 1 fault of stretchform, 2 your input, 3 no answer or plan withheld.
"""


class Commands(click.Group):
    """A group whose commands stand in one file each."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        module = import_module(f"stretchform.commands.{cmd_name}")
        command = module.command
        assert isinstance(command, click.Command)
        return command


group = Commands(
    name="stretchform",
    help=_HELP,
    context_settings={"max_content_width": 80, "help_option_names": ["-h", "--help"]},
)
group = click.version_option(
    __version__, prog_name="stretchform", message="%(prog)s %(version)s"
)(group)
