"""What leaves the house: streaming, with the same bytes for the same record."""
