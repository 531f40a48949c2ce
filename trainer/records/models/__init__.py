"""ORM classes; nothing outside records imports them."""
