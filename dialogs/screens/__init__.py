"""
The menu, for phones that dial in: the same records as by text, told by picking numbers.

``menu.dial`` and ``menu.answer`` are the whole of it, pure: who is calling and what was typed in,
a :class:`state.Turn` out. Screens are values; what there is to choose is data (``branches``), and
what a kind of record asks follows from its declared form (``plans``, ``questions``).
"""
