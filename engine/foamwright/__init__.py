"""Quantities, foam, cost and first checks for small shells of foamed concrete made on site."""

__version__ = "0.1.0"
