"""The command line: parse, call a stage, print."""
