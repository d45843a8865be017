"""Run by Alembic. The connection is handed in by `store.database.migrate`; there is no ini file."""

from alembic import context

from oddleg.store.tables import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
