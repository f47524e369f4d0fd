"""One file a verb: read, call, print, exit code."""
