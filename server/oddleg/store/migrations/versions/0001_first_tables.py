"""first tables"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "job_head",
        sa.Column("id", sa.String(length=64), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("client", sa.Text(), nullable=False),
        sa.Column("counter", sa.Integer(), nullable=False),
        sa.Column("chain", sa.String(length=64), nullable=False),
        sa.Column("archived_at", sa.String(length=24), nullable=True),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_table(
        "person",
        sa.Column("id", sa.String(length=64), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("role", sa.String(length=16), nullable=False),
        sa.Column("at", sa.String(length=24), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_table(
        "wrong_code",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.String(length=24), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    with op.batch_alter_table("wrong_code", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_wrong_code_at"), ["at"], unique=False)

    op.create_table(
        "assignment",
        sa.Column("job_id", sa.String(length=64), nullable=False),
        sa.Column("person_id", sa.String(length=64), nullable=False),
        sa.Column("at", sa.String(length=24), nullable=False),
        sa.ForeignKeyConstraint(
            ["job_id"],
            ["job_head.id"],
        ),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("job_id", "person_id"),
    )
    with op.batch_alter_table("assignment", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_assignment_person_id"), ["person_id"], unique=False)

    op.create_table(
        "job_revision",
        sa.Column("job_id", sa.String(length=64), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("sha", sa.String(length=64), nullable=False),
        sa.Column("person_id", sa.String(length=64), nullable=True),
        sa.Column("at", sa.String(length=24), nullable=False),
        sa.ForeignKeyConstraint(
            ["job_id"],
            ["job_head.id"],
        ),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("job_id", "revision"),
    )
    op.create_table(
        "pack",
        sa.Column("job_id", sa.String(length=64), nullable=False),
        sa.Column("source", sa.String(length=160), nullable=False),
        sa.Column("manifest", sa.LargeBinary(), nullable=False),
        sa.Column("at", sa.String(length=24), nullable=False),
        sa.ForeignKeyConstraint(
            ["job_id"],
            ["job_head.id"],
        ),
        sa.PrimaryKeyConstraint("job_id", "source"),
    )
    op.create_table(
        "pairing",
        sa.Column("id", sa.String(length=64), nullable=False),
        sa.Column("person_id", sa.String(length=64), nullable=False),
        sa.Column("device", sa.Text(), nullable=False),
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("at", sa.String(length=24), nullable=False),
        sa.Column("seen_at", sa.String(length=24), nullable=False),
        sa.Column("revoked_at", sa.String(length=24), nullable=True),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("token_hash"),
    )
    with op.batch_alter_table("pairing", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_pairing_person_id"), ["person_id"], unique=False)

    op.create_table(
        "record",
        sa.Column("job_id", sa.String(length=64), nullable=False),
        sa.Column("sha", sa.String(length=64), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.Column("at", sa.String(length=24), nullable=False),
        sa.ForeignKeyConstraint(
            ["job_id"],
            ["job_head.id"],
        ),
        sa.PrimaryKeyConstraint("job_id", "sha"),
    )
    op.create_table(
        "code",
        sa.Column("code_hash", sa.String(length=64), nullable=False),
        sa.Column("person_id", sa.String(length=64), nullable=False),
        sa.Column("expires_at", sa.String(length=24), nullable=False),
        sa.Column("spent_at", sa.String(length=24), nullable=True),
        sa.Column("pairing_id", sa.String(length=64), nullable=True),
        sa.ForeignKeyConstraint(
            ["pairing_id"],
            ["pairing.id"],
        ),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("code_hash"),
    )
    with op.batch_alter_table("code", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_code_person_id"), ["person_id"], unique=False)

    op.create_table(
        "entry",
        sa.Column("uid", sa.String(length=36), nullable=False),
        sa.Column("job_id", sa.String(length=64), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("chain", sa.String(length=64), nullable=False),
        sa.Column("sha", sa.String(length=64), nullable=False),
        sa.Column("payload", sa.LargeBinary(), nullable=False),
        sa.Column("replaces", sa.String(length=36), nullable=True),
        sa.Column("bears", sa.Boolean(), nullable=False),
        sa.Column("person_id", sa.String(length=64), nullable=False),
        sa.Column("pairing_id", sa.String(length=64), nullable=True),
        sa.Column("received_at", sa.String(length=24), nullable=False),
        sa.Column("erased_at", sa.String(length=24), nullable=True),
        sa.ForeignKeyConstraint(
            ["job_id"],
            ["job_head.id"],
        ),
        sa.ForeignKeyConstraint(
            ["pairing_id"],
            ["pairing.id"],
        ),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("uid"),
        sa.UniqueConstraint("job_id", "position"),
    )
    with op.batch_alter_table("entry", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_entry_person_id"), ["person_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_entry_replaces"), ["replaces"], unique=False)

    op.create_table(
        "quarantine",
        sa.Column("id", sa.String(length=64), nullable=False),
        sa.Column("uid", sa.String(length=36), nullable=False),
        sa.Column("sha", sa.String(length=64), nullable=False),
        sa.Column("payload", sa.LargeBinary(), nullable=False),
        sa.Column("size_bytes", sa.Integer(), nullable=False),
        sa.Column("reason", sa.String(length=32), nullable=False),
        sa.Column("problem", sa.Text(), nullable=False),
        sa.Column("state", sa.String(length=16), nullable=False),
        sa.Column("job_id", sa.Text(), nullable=True),
        sa.Column("person_id", sa.String(length=64), nullable=False),
        sa.Column("pairing_id", sa.String(length=64), nullable=True),
        sa.Column("received_at", sa.String(length=24), nullable=False),
        sa.Column("closed_at", sa.String(length=24), nullable=True),
        sa.ForeignKeyConstraint(
            ["pairing_id"],
            ["pairing.id"],
        ),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("uid", "sha"),
    )
    with op.batch_alter_table("quarantine", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_quarantine_job_id"), ["job_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_quarantine_uid"), ["uid"], unique=False)
        batch_op.create_index("quarantine_of", ["pairing_id", "state"], unique=False)

    op.create_table(
        "writer",
        sa.Column("pairing_id", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(length=64), nullable=False),
        sa.Column("app", sa.Text(), nullable=False),
        sa.Column("saved_seq", sa.Integer(), nullable=False),
        sa.Column("have_seq", sa.Integer(), nullable=False),
        sa.Column("have_chain", sa.String(length=64), nullable=False),
        sa.Column("backed_up_seq", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["pairing_id"],
            ["pairing.id"],
        ),
        sa.PrimaryKeyConstraint("pairing_id", "id"),
    )
    op.create_table(
        "slot",
        sa.Column("pairing_id", sa.String(length=64), nullable=False),
        sa.Column("writer_id", sa.String(length=64), nullable=False),
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=36), nullable=False),
        sa.Column("sha", sa.String(length=64), nullable=False),
        sa.Column("chain", sa.String(length=64), nullable=True),
        sa.ForeignKeyConstraint(
            ["pairing_id", "writer_id"],
            ["writer.pairing_id", "writer.id"],
        ),
        sa.PrimaryKeyConstraint("pairing_id", "writer_id", "seq"),
    )


def downgrade() -> None:
    op.drop_table("slot")
    op.drop_table("writer")
    with op.batch_alter_table("quarantine", schema=None) as batch_op:
        batch_op.drop_index("quarantine_of")
        batch_op.drop_index(batch_op.f("ix_quarantine_uid"))
        batch_op.drop_index(batch_op.f("ix_quarantine_job_id"))

    op.drop_table("quarantine")
    with op.batch_alter_table("entry", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_entry_replaces"))
        batch_op.drop_index(batch_op.f("ix_entry_person_id"))

    op.drop_table("entry")
    with op.batch_alter_table("code", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_code_person_id"))

    op.drop_table("code")
    op.drop_table("record")
    with op.batch_alter_table("pairing", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_pairing_person_id"))

    op.drop_table("pairing")
    op.drop_table("pack")
    op.drop_table("job_revision")
    with op.batch_alter_table("assignment", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_assignment_person_id"))

    op.drop_table("assignment")
    with op.batch_alter_table("wrong_code", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_wrong_code_at"))

    op.drop_table("wrong_code")
    op.drop_table("person")
    op.drop_table("job_head")
