"""The equipment sheet: one hood family's data as its maker's manual gives it."""
