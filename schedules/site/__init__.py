"""The kitchen as measured: walls, ways and what reaches."""
