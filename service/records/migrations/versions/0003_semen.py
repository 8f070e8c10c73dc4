"""The semen that a cooperative has in stock."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "semen",
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("bull", sa.String(), nullable=False),
        sa.Column("breed", sa.String(), nullable=False),
        sa.Column("values", sa.JSON(), nullable=False),
        sa.Column("reliability", sa.Integer(), nullable=False),
        sa.Column("price", sa.String(), nullable=False),
        sa.Column("currency", sa.String(), nullable=False),
        sa.Column("straws", sa.Integer(), nullable=False),
        sa.Column("sire", sa.String(), nullable=True),
        sa.Column("dam", sa.String(), nullable=True),
        sa.Column("maternal_grandsire", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["cooperative_id"], ["cooperatives.id"], name="fk_semen_cooperative_id"),
        sa.PrimaryKeyConstraint("cooperative_id", "code", name="pk_semen"),
    )


def downgrade() -> None:
    op.drop_table("semen")
