"""The audit pack: what an inspector takes away and can check without the program, as a BagIt 1.0 bag in a zip file."""
