"""One module per command of the command line. Each loads what it needs when it runs."""
