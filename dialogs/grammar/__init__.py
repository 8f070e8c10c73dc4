"""Reading: from a text to entries, and to the questions that the rest needs."""
