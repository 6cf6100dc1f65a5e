"""Gas to the range and how it is shut off."""
