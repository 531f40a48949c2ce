"""Revisions of the tables, oldest first; nothing imports them but Alembic."""
