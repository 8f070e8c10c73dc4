"""
What is answered to each kind of record: what was written down, and what it means.

Each function takes what was told and the outcome, and gives ways of saying it, the fullest first; the
first that fits into a segment is sent.
"""
