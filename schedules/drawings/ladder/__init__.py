"""The ladder (elementary) diagram: what is in series and what in parallel between two rails, as energy flows."""
