"""The first tables."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "conversations",
        sa.Column("phone", sa.String(), nullable=False),
        sa.Column("questions", sa.JSON(), nullable=False),
        sa.Column("asked_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("listed", sa.JSON(), nullable=False),
        sa.Column("listed_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("called", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("phone", name="pk_conversations"),
    )
    op.create_table(
        "cooperatives",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("number", sa.String(), nullable=True),
        sa.Column("intervals", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_cooperatives"),
        sa.UniqueConstraint("number", name="uq_cooperatives_number"),
    )
    op.create_table(
        "menu_sessions",
        sa.Column("session", sa.String(), nullable=False),
        sa.Column("phone", sa.String(), nullable=False),
        sa.Column("step", sa.Integer(), nullable=False),
        sa.Column("typed", sa.String(), nullable=True),
        sa.Column("screen", sa.String(), nullable=False),
        sa.Column("more", sa.Boolean(), nullable=False),
        sa.Column("state", sa.JSON(), nullable=False),
        sa.Column("updated_at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("session", name="pk_menu_sessions"),
    )
    op.create_table(
        "farms",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("ward", sa.String(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("replan_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("reminded_on", sa.Date(), nullable=True),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["cooperative_id"], ["cooperatives.id"], name="fk_farms_cooperative_id"),
        sa.PrimaryKeyConstraint("id", name="pk_farms"),
    )
    op.create_index("ix_farms_cooperative_id", "farms", ["cooperative_id"])
    op.create_index(
        "ix_farms_replan_at",
        "farms",
        ["replan_at"],
        sqlite_where=sa.text("replan_at IS NOT NULL"),
        postgresql_where=sa.text("replan_at IS NOT NULL"),
    )

    op.create_table(
        "people_to_call",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("ward", sa.String(), nullable=True),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=True),
        sa.Column("phone", sa.String(), nullable=False),
        sa.Column("rank", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperatives.id"], name="fk_people_to_call_cooperative_id"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_people_to_call"),
    )
    op.create_index("ix_people_to_call_cooperative_id", "people_to_call", ["cooperative_id"])

    op.create_table(
        "animals",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("farm_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_animals_farm_id"),
        sa.PrimaryKeyConstraint("id", name="pk_animals"),
    )
    op.create_index("ix_animals_farm_id", "animals", ["farm_id"])

    op.create_table(
        "people",
        sa.Column("phone", sa.String(), nullable=False),
        sa.Column("farm_id", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("language", sa.String(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("joined_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_people_farm_id"),
        sa.PrimaryKeyConstraint("phone", name="pk_people"),
    )
    op.create_index("ix_people_farm_id", "people", ["farm_id"])

    op.create_table(
        "texts_in",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("sender", sa.String(), nullable=False),
        sa.Column("recipient", sa.String(), nullable=False),
        sa.Column("text", sa.String(), nullable=False),
        sa.Column("sent_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("arrived_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("channel", sa.String(), nullable=False),
        sa.Column("farm_id", sa.Integer(), nullable=True),
        sa.Column("state", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_texts_in_farm_id"),
        sa.PrimaryKeyConstraint("id", name="pk_texts_in"),
    )
    op.create_index(
        "ix_texts_in_arrived_at",
        "texts_in",
        ["arrived_at"],
        sqlite_where=sa.text("state <> 'handled'"),
        postgresql_where=sa.text("state <> 'handled'"),
    )
    op.create_index("ix_texts_in_farm_id", "texts_in", ["farm_id"])

    op.create_table(
        "animal_names",
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["animal_id"], ["animals.id"], name="fk_animal_names_animal_id"),
        sa.PrimaryKeyConstraint("animal_id", "name", name="pk_animal_names"),
    )
    op.create_table(
        "entries",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("farm_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("happened_on", sa.Date(), nullable=False),
        sa.Column("payload", sa.JSON(), nullable=False),
        sa.Column("animals", sa.JSON(), nullable=False),
        sa.Column("calves", sa.JSON(), nullable=False),
        sa.Column("text_id", sa.String(), nullable=False),
        sa.Column("told_by", sa.String(), nullable=False),
        sa.Column("told_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("undone_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("undone_by", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_entries_farm_id"),
        sa.ForeignKeyConstraint(["text_id"], ["texts_in.id"], name="fk_entries_text_id"),
        sa.ForeignKeyConstraint(["undone_by"], ["texts_in.id"], name="fk_entries_undone_by"),
        sa.PrimaryKeyConstraint("id", name="pk_entries"),
    )
    op.create_index("ix_entries_farm_id_kind_happened_on", "entries", ["farm_id", "kind", "happened_on"])
    op.create_index("ix_entries_text_id", "entries", ["text_id"])
    op.create_index("ix_entries_told_by_id", "entries", ["told_by", "id"])

    op.create_table(
        "tasks",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("farm_id", sa.Integer(), nullable=False),
        sa.Column("task", sa.String(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("disease", sa.String(), nullable=True),
        sa.Column("due", sa.String(), nullable=False),
        sa.Column("until", sa.String(), nullable=True),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("about", sa.Boolean(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("why", sa.String(), nullable=True),
        sa.Column("planned_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("dropped_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("remind_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("reminders", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["animal_id"], ["animals.id"], name="fk_tasks_animal_id"),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_tasks_farm_id"),
        sa.PrimaryKeyConstraint("id", name="pk_tasks"),
    )
    op.create_index(
        "ix_tasks_farm_id",
        "tasks",
        ["farm_id"],
        sqlite_where=sa.text("state = 'open'"),
        postgresql_where=sa.text("state = 'open'"),
    )
    op.create_index(
        "ix_tasks_remind_at",
        "tasks",
        ["remind_at"],
        sqlite_where=sa.text("state = 'open' AND remind_at IS NOT NULL"),
        postgresql_where=sa.text("state = 'open' AND remind_at IS NOT NULL"),
    )

    op.create_table(
        "texts_out",
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("phone", sa.String(), nullable=False),
        sa.Column("text", sa.String(), nullable=False),
        sa.Column("purpose", sa.String(), nullable=False),
        sa.Column("farm_id", sa.Integer(), nullable=True),
        sa.Column("task_ids", sa.JSON(), nullable=False),
        sa.Column("items", sa.JSON(), nullable=False),
        sa.Column("in_reply_to", sa.String(), nullable=True),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("next_try_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("leased_until", sa.DateTime(timezone=True), nullable=True),
        sa.Column("not_after", sa.DateTime(timezone=True), nullable=True),
        sa.Column("accepted_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["farm_id"], ["farms.id"], name="fk_texts_out_farm_id"),
        sa.ForeignKeyConstraint(["in_reply_to"], ["texts_in.id"], name="fk_texts_out_in_reply_to"),
        sa.PrimaryKeyConstraint("seq", name="pk_texts_out"),
        sa.UniqueConstraint("id", name="uq_texts_out_id"),
    )
    op.create_index("ix_texts_out_farm_id", "texts_out", ["farm_id"])
    op.create_index(
        "ix_texts_out_next_try_at",
        "texts_out",
        ["next_try_at"],
        sqlite_where=sa.text("state = 'waiting'"),
        postgresql_where=sa.text("state = 'waiting'"),
    )
    op.create_index(
        "ix_texts_out_phone",
        "texts_out",
        ["phone"],
        sqlite_where=sa.text("state = 'waiting'"),
        postgresql_where=sa.text("state = 'waiting'"),
    )


def downgrade() -> None:
    for table in (
        "texts_out",
        "tasks",
        "entries",
        "animal_names",
        "texts_in",
        "people",
        "animals",
        "people_to_call",
        "farms",
        "menu_sessions",
        "cooperatives",
        "conversations",
    ):
        op.drop_table(table)
