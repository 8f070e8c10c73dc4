"""Several people a farm, and what a cooperative keeps for its farms."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "campaigns",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("disease", sa.String(), nullable=False),
        sa.Column("ward", sa.String(), nullable=True),
        sa.Column("on", sa.Date(), nullable=True),
        sa.Column("hour", sa.Integer(), nullable=True),
        sa.Column("place", sa.String(), nullable=True),
        sa.Column("announced_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["cooperative_id"], ["cooperatives.id"], name="fk_campaigns_cooperative_id"),
        sa.PrimaryKeyConstraint("id", name="pk_campaigns"),
    )
    op.create_index("ix_campaigns_cooperative_id", "campaigns", ["cooperative_id"])

    op.create_table(
        "local_words",
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("group", sa.String(), nullable=False),
        sa.Column("meaning", sa.String(), nullable=False),
        sa.Column("word", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperatives.id"], name="fk_local_words_cooperative_id"
        ),
        sa.PrimaryKeyConstraint("cooperative_id", "group", "meaning", "word", name="pk_local_words"),
    )
    op.create_table(
        "products",
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("milk_days", sa.Integer(), nullable=True),
        sa.Column("meat_days", sa.Integer(), nullable=True),
        sa.Column("dry_cow", sa.Boolean(), nullable=False),
        sa.Column("updated_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["cooperative_id"], ["cooperatives.id"], name="fk_products_cooperative_id"),
        sa.PrimaryKeyConstraint("cooperative_id", "name", name="pk_products"),
    )
    op.create_table(
        "centre_days",
        sa.Column("farm_id", sa.Integer(), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("session", sa.String(), nullable=False),
        sa.Column("litres", sa.String(), nullable=True),
        sa.Column("kg", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_centre_days_farm_id"),
        sa.PrimaryKeyConstraint("farm_id", "on", "session", name="pk_centre_days"),
    )
    op.create_table(
        "concerns",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("farm_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("about", sa.JSON(), nullable=False),
        sa.Column("mark", sa.String(), nullable=False),
        sa.Column("raised_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("settled_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["cooperative_id"], ["cooperatives.id"], name="fk_concerns_cooperative_id"),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_concerns_farm_id"),
        sa.PrimaryKeyConstraint("id", name="pk_concerns"),
        sa.UniqueConstraint("cooperative_id", "kind", "mark", name="uq_concerns_cooperative_id_kind_mark"),
    )
    op.create_index("ix_concerns_cooperative_id_raised_at", "concerns", ["cooperative_id", "raised_at"])

    op.create_table(
        "invitations",
        sa.Column("phone", sa.String(), nullable=False),
        sa.Column("farm_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=True),
        sa.Column("invited_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_invitations_farm_id"),
        sa.PrimaryKeyConstraint("phone", name="pk_invitations"),
    )
    op.create_table(
        "reporters",
        sa.Column("phone", sa.String(), nullable=False),
        sa.Column("farm_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_reporters_farm_id"),
        sa.PrimaryKeyConstraint("phone", "farm_id", name="pk_reporters"),
    )
    op.create_table(
        "willing",
        sa.Column("campaign_id", sa.Integer(), nullable=False),
        sa.Column("farm_id", sa.Integer(), nullable=False),
        sa.Column("animals", sa.Integer(), nullable=False),
        sa.Column("answered_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["campaign_id"], ["campaigns.id"], name="fk_willing_campaign_id"),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_willing_farm_id"),
        sa.PrimaryKeyConstraint("campaign_id", "farm_id", name="pk_willing"),
    )
    op.add_column("entries", sa.Column("undone_why", sa.String(), nullable=True))

    op.add_column("farms", sa.Column("pin", sa.String(), nullable=True))
    op.add_column("farms", sa.Column("pin_misses", sa.Integer(), server_default="0", nullable=False))
    op.add_column("farms", sa.Column("pin_locked_until", sa.DateTime(timezone=True), nullable=True))

    op.add_column("people", sa.Column("name", sa.String(), nullable=True))
    op.add_column("people", sa.Column("may", sa.JSON(), server_default=sa.text("'[]'"), nullable=False))
    op.add_column("people", sa.Column("earlier", sa.JSON(), server_default=sa.text("'[]'"), nullable=False))
    op.add_column(
        "cooperatives", sa.Column("words_version", sa.Integer(), server_default="0", nullable=False)
    )


def downgrade() -> None:
    for table, columns in (
        ("people", ("earlier", "may", "name")),
        ("farms", ("pin_locked_until", "pin_misses", "pin")),
        ("entries", ("undone_why",)),
        ("cooperatives", ("words_version",)),
    ):
        for column in columns:
            op.drop_column(table, column)
    for table in (
        "willing",
        "reporters",
        "invitations",
        "concerns",
        "centre_days",
        "products",
        "local_words",
        "campaigns",
    ):
        op.drop_table(table)
