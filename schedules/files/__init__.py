"""Files that somebody else wrote: read once, every mistake named with its place; written whole."""
