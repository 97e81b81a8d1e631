"""Rules for Fusewright: what must go on when one thing happens."""
