"""Everything kept: tables, the ledger of entries, the plan, the outbox, conversations."""
