"""How people write amounts, and the one unit each has inside."""
