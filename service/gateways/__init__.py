"""The way out: the interface of an SMS gateway, and one file per gateway."""
