"""Run by Alembic with the connection that ``service.records.migrate`` hands it."""

from alembic import context

from service.records import tables  # noqa: F401 - declares them
from service.records.base import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,  # SQLite alters a table by copying it
)
with context.begin_transaction():
    context.run_migrations()
