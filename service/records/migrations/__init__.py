"""The database's history: one step a file in ``versions``, applied by ``service.records.migrate``."""
