"""Builds the demo plant: reads `seed_scenarios/`, then lives its year day by day through the real services."""
