"""Advice by topic: a cooperative's own wording, and what has come to a farm by itself."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "advice",
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("topic", sa.String(), nullable=False),
        sa.Column("language", sa.String(), nullable=False),
        sa.Column("text", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["cooperative_id"], ["cooperatives.id"], name="fk_advice_cooperative_id"),
        sa.PrimaryKeyConstraint("cooperative_id", "topic", "language", name="pk_advice"),
    )
    op.create_table(
        "advice_sent",
        sa.Column("farm_id", sa.Integer(), nullable=False),
        sa.Column("topic", sa.String(), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_advice_sent_farm_id"),
        sa.PrimaryKeyConstraint("farm_id", "topic", name="pk_advice_sent"),
    )
    op.add_column("farms", sa.Column("advise_at", sa.DateTime(timezone=True), nullable=True))
    op.create_index(
        "ix_farms_advise_at",
        "farms",
        ["advise_at"],
        sqlite_where=sa.text("advise_at IS NOT NULL"),
        postgresql_where=sa.text("advise_at IS NOT NULL"),
    )


def downgrade() -> None:
    op.drop_index("ix_farms_advise_at", "farms")
    op.drop_column("farms", "advise_at")
    op.drop_table("advice_sent")
    op.drop_table("advice")
