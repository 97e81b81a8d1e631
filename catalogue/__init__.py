"""The parts catalogue: what a fuse, cable or battery is, and where its figures are kept."""
