"""Boxes: the volume that conductors and fittings take, and what the box has."""
