"""Closed lists of what can be seen on an animal, and other closed lists of the contract."""

HEAT_SIGNS = (
    "standing", "mounting", "restless", "bellowing", "clear_mucus", "swollen_vulva", "off_feed", "milk_drop",
)  # fmt: skip

ILLNESS_SIGNS = (
    "off_feed", "fever", "cough", "froth", "swollen_nodes", "milk_drop", "diarrhoea", "bloat", "lame",
    "udder_hard", "udder_clots", "down", "staggering", "bleeding", "afterbirth", "rough_coat", "weak",
    "abortion", "ticks", "red_urine", "hard_dung", "mouth_sores", "drooling", "skin_lumps",
    "hard_breathing", "cloudy_eye", "prolapse", "cold_ears", "swollen_jaw", "wild", "sudden_death",
)  # fmt: skip

DISEASES = ("fmd", "lsd", "anthrax", "blackquarter", "brucellosis", "ecf", "cbpp", "rvf", "rabies")

SESSIONS = ("morning", "midday", "evening", "day")

MILK_REASONS = ("feed_water", "weather", "calf", "unknown")
"""Why milk is less, where it is neither heat nor illness: those are records of their own."""
