"""Steels of a job: each name with its certificate is looked up once."""

from dataclasses import dataclass, field
from pathlib import Path as FilePath
from typing import TYPE_CHECKING

from stretchform.errors import StretchformError
from stretchform.files.job_mistakes import Mistakes
from stretchform.files.steels import load_steel
from stretchform.files.toml_lines import Path
from stretchform.planning.likely import Judged
from stretchform.steel.certificate import LOWEST_RATIO
from stretchform.steel.grade import Certificate, Steel

if TYPE_CHECKING:
    from stretchform.files.job_tables import CertificateTable


@dataclass
class Steels:
    """What the steels of one job are looked up with, and those found so far."""

    judged: Judged
    folder: FilePath  # where the path of a user's own steel file starts
    mistakes: Mistakes
    known: dict[str, Steel] = field(default_factory=dict)

    def get(self, name: str, table: "CertificateTable | None", path: Path) -> Steel | None:
        """The steel, or None with the mistake added at `path`."""
        if table is not None and not self._ordered(table, (*path[:-1], "certificate")):
            return None
        key = f"{name} {table!r}"
        if key not in self.known:
            where = self.mistakes.place(path)
            try:
                self.known[key] = load_steel(
                    name, certificate(table), where, self.judged, self.folder
                )
            except StretchformError as error:
                self.mistakes.add_error(error, path)
                return None
        return self.known[key]

    def _ordered(self, table: "CertificateTable", path: Path) -> bool:
        """Whether the three strengths rise as they do on every certificate."""
        proof, middle, tensile = table.proof_02, table.proof_10, table.tensile
        if tensile < LOWEST_RATIO * proof:
            problem = (
                f"tensile strength not {LOWEST_RATIO} times the proof strength: "
                "cold-worked sheet, or two values changed over"
            )
            self.mistakes.add((*path, "proof_02"), problem, '"295 MPa"')
            return False
        if middle is not None and not proof < middle < tensile:
            problem = "does not lie between proof_02 and tensile"
            between = f'"{(proof + 0.1 * (tensile - proof)) / 1e6:.0f} MPa"'
            self.mistakes.add((*path, "proof_10"), problem, between)
            return False
        return True


def certificate(table: "CertificateTable | None") -> Certificate | None:
    """The certificate of a table; the analysis in per cent by mass."""
    if table is None:
        return None
    return Certificate(
        proof_02=table.proof_02,
        tensile=table.tensile,
        proof_10=table.proof_10,
        elongation=table.elongation,
        minimum_only=table.minimum_only,
        analysis={element: 100.0 * share for element, share in table.analysis.items()},
    )
