"""What is said: reading texts, asking back, menus, and the words of both languages. No I/O, no clock."""
