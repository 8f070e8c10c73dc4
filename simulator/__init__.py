"""Simulated phones, clock and gateway: conversation scripts and the demo."""
