"""Alembic's door: runs the revisions on the connection that it was handed."""

from alembic import context

from trainer.records.models import Base

context.configure(
    connection=context.config.attributes["connection"], target_metadata=Base.metadata, render_as_batch=True
)
context.run_migrations()
