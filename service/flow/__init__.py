"""Use cases: a text arrives, a menu is used, a farm is planned anew. Each works inside one transaction."""
