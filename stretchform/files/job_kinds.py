"""Two words of a job file with rules of their own: the pump and the yield criterion."""

from typing import Any

from stretchform.files.job_fields import Kind, choice, mistake
from stretchform.forming import criterion
from stretchform.planning.job import PUMPS

_GASES = ("gas", "air", "nitrogen", "helium", "argon", "oxygen", "bottle", "compress", "pneum")


def pump() -> Kind:
    """What presses the water in; gas is refused with its reason."""
    chosen = choice(PUMPS, "what presses the water in; never gas")

    def read(value: Any) -> Any:
        text = str(value).strip().lower()
        if text not in PUMPS and any(gas in text for gas in _GASES) and "pump" not in text:
            raise mistake(
                "gas is refused: at the same pressure it holds hundreds of times the energy "
                "of water; only a pump that presses water in is allowed",
                '"hand pump"',
            )
        return chosen.read(value)

    return Kind(chosen.sample, read, chosen.schema)


def named_criterion() -> Kind:
    """A yield criterion by its name."""

    def read(value: Any) -> str:
        text = " ".join(value.split()) if isinstance(value, str) else ""
        if criterion.named(text, criterion.Shape.CLOSED) is None:
            raise mistake(
                'not "mises", "tresca", "hosford 8", "hill 0.9" or "C 1.10"', '"mises"'
            )
        return text

    says = "yield criterion instead of the judged one"
    return Kind('"mises"', read, {"type": "string", "description": says})
