"""The service: pure husbandry in the cellar, records and use cases above it, doors and command on top."""
