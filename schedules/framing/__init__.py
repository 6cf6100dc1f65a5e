"""Studs, plates and joists: what may be cut, what protects the wiring there."""
