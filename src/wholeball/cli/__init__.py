"""Is the command line: parse, call one use case, print."""
