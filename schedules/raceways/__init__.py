"""Raceways and openings: fill, passage, pull order, trade size."""
