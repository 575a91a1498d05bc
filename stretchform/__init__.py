"""Plan the forming of thin austenitic stainless tanks by water pressure."""

__version__ = "0.1.0"
