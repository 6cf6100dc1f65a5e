"""Plans and schedules as text and data: one module per output format."""
