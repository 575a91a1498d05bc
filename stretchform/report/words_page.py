"""Words of the printed page, the job card and their pictures."""

NO_PROFILE = (
    "Computed course by course, without the heads: there is no growth along the shell and no "
    "outline to draw. Plan without --quick to have them."
)
