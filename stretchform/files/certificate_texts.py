"""A certificate from texts with units, as options of a command give it."""

from stretchform import units
from stretchform.errors import InputError
from stretchform.steel.grade import Certificate


def read_certificate(
    proof_02: str | None, proof_10: str | None, tensile: str | None, where: str
) -> Certificate | None:
    """The certificate; None where none of its texts is given.

    Raises InputError for a missing or strange text.
    """
    if proof_02 is None and proof_10 is None and tensile is None:
        return None
    if proof_02 is None or tensile is None:
        missing = "--proof-02" if proof_02 is None else "--tensile"
        problem = f"{missing} is missing: a curve needs both strengths"
        fix = '--proof-02 "295 MPa" --tensile "650 MPa"'
        raise InputError(where, problem, fix)
    return Certificate(
        proof_02=units.read(proof_02, "pressure", "--proof-02", usual="MPa"),
        tensile=units.read(tensile, "pressure", "--tensile", usual="MPa"),
        proof_10=units.read(proof_10, "pressure", "--proof-10", usual="MPa")
        if proof_10
        else None,
    )
