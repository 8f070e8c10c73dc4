"""
The animals that a text enters: each with all that is told of her, and working names for those without one.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from dialogs.grammar import book
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene
from dialogs.grammar.items import Item
from dialogs.grammar.names import joined
from dialogs.grammar.said import Said
from dialogs.grammar.when import collect

FEMALE_KINDS = ("milk", "pregnancy_check", "calving", "service", "heat", "abortion", "drying_off")
_OF_OTHERS = ("calving", "service", "heat", "abortion")
_OTHERS = ("calf", "bull_animal", "heifer", "male", "steer")
"""What such kinds tell of a calf or a bull, and not of the cow they are told of."""


_WORKING = {
    "heifer": ("Mtamba", "Heifer"),
    "in_calf_heifer": ("Mtamba", "Heifer"),
    "calf": ("Ndama", "Calf"),
    "bull": ("Dume", "Bull"),
    "steer": ("Maksai", "Steer"),
    "milking": ("Ng'ombe", "Cow"),
    "dry": ("Ng'ombe", "Cow"),
}


class Register:
    """Gathers entries of new animals, and with them what else the text tells (``out``, in its order)."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.out: list[Found] = []
        self.entered: dict[str, Found] = {}
        self.told: dict[str, list[Item]] = {}  # all that is told of each of them

    def put(self, name: str, items: list[Item], kind: str | None) -> None:
        """Enters an animal of which *items* tell; *kind* is what they tell of her, if of an event."""
        if kind in _OF_OTHERS:
            items = [item for item in items if not item.has(*_OTHERS)]
        clause = Clause(self.scene.text, kind or "", items, collect(items))
        found = book.new_animal(clause, self.scene)[0]
        found.values["name"] = name
        self._by_kind(found.values, items, kind)
        self.entered[name], self.told[name] = found, items
        self.out += [found, *book.in_calf_too(clause, self.scene, found.values)]

    def add(
        self, name: str, items: list[Item], kind: str | None, *, only: tuple[str, ...] | None = None
    ) -> None:
        """What else is told of an animal that the text has entered."""
        found = self.entered.get(name)
        if found is None or all(any(i is other for other in self.told[name]) for i in items):
            return
        told = [*self.told[name], *items]
        more = book.new_animal(Clause(self.scene.text, "", told), self.scene)[0].values
        self._by_kind(more, items, kind)
        if more.get("status") == "in_calf_heifer":
            found.values["status"] = "in_calf_heifer"
        for key in only or ("sex", "status", "breed", "born", "about", "dam"):
            if found.values.get(key) is None and more.get(key) is not None:
                found.values[key] = more[key]
        if only is None:
            self.told[name] = told
            clause = Clause(self.scene.text, kind or "", items)
            self.out += book.in_calf_too(clause, self.scene, found.values)

    def _by_kind(self, values: dict[str, Any], items: list[Item], kind: str | None) -> None:
        if values.get("sex") is None and kind in FEMALE_KINDS:
            values["sex"] = "female"
        if values.get("status") is None and (kind == "milk" or Said(items).has("milking")):
            values["status"] = "milking"
        if values.get("status") is None and kind == "drying_off":
            values["status"] = "dry"

    def put_unnamed(self, items: list[Item], count: int) -> list[str]:
        """ "mtamba mmoja", "2 heifers": animals under a working name."""
        names = []
        for _ in range(count):
            values = book.new_animal(Clause(self.scene.text, "", items), self.scene)[0].values
            name = self._working_name(values)
            self.put(name, items, None)
            names.append(name)
        return names

    def _working_name(self, values: dict[str, Any]) -> str:
        swahili, english = _WORKING.get(values.get("status") or "milking", _WORKING["milking"])
        base = english if self.scene.text.votes.get("en", 0) > self.scene.text.votes.get("sw", 0) else swahili
        name, number = base, 1
        while name in self.entered or self.scene.names.has(joined(name)):
            number += 1
            name = f"{base} {number}"
        return name

    def share_price(self) -> None:
        """One price for several animals is of none of them, unless told of each."""
        entered = list(self.entered.values())
        prices = [found.values["price"] for found in entered if "price" in found.values]
        if len(entered) < 2 or len(prices) != 1:
            return
        for found in entered:
            found.values.pop("price", None)
            if any(item.has("each") for items in self.told.values() for item in items):
                found.values["price"] = prices[0]

    def all_in_calf(self, names: Sequence[str]) -> bool:
        entered = [self.entered.get(name) for name in names]
        return bool(entered) and all(
            found is not None and found.values.get("status") == "in_calf_heifer" for found in entered
        )
