"""The job: one kitchen's choices, measurements and as-built entries."""
