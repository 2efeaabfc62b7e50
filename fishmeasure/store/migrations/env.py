"""Run the migrations on the connection that the book hands over."""

from alembic import context

from fishmeasure.store.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    transactional_ddl=False,  # the book has begun the transaction
)
context.run_migrations()
