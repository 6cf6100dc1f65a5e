"""Outside air let in for the hood, and the house's pressure without it."""
