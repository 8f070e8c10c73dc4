"""The trade's arithmetic and vocabulary: dates and numbers in, values out. Standard library only."""
