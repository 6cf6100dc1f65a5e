"""The programs a person runs: the full-screen wizard and the command line."""
