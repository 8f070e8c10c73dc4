"""The doors in: what the gateway calls, and how the service is."""
