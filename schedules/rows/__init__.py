"""The schedules as typed rows: one module per printed table, each from a plan."""
