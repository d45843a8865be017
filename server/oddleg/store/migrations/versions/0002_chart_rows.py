"""rows of fitting charts, in their versions, and which of the workshop's own are current"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "chart_row",
        sa.Column("kind", sa.String(length=16), nullable=False),
        sa.Column("row", sa.String(length=64), nullable=False),
        sa.Column("sha", sa.String(length=16), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("person_id", sa.String(length=64), nullable=True),
        sa.Column("at", sa.String(length=24), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"]),
        sa.PrimaryKeyConstraint("kind", "row", "sha"),
    )
    op.create_table(
        "own_row",
        sa.Column("kind", sa.String(length=16), nullable=False),
        sa.Column("row", sa.String(length=64), nullable=False),
        sa.Column("sha", sa.String(length=16), nullable=False),
        sa.Column("person_id", sa.String(length=64), nullable=False),
        sa.Column("at", sa.String(length=24), nullable=False),
        sa.Column("withdrawn_at", sa.String(length=24), nullable=True),
        sa.ForeignKeyConstraint(["kind", "row", "sha"], ["chart_row.kind", "chart_row.row", "chart_row.sha"]),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"]),
        sa.PrimaryKeyConstraint("kind", "row"),
    )


def downgrade() -> None:
    op.drop_table("own_row")
    op.drop_table("chart_row")
