"""Who may tell of the farm, the secret number, what is contested, and who would bring animals to a jab."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from dialogs.grammar.found import Found, display, is_strange
from dialogs.grammar.items import Item
from dialogs.grammar.normalise import clean
from dialogs.grammar.phrases import Wording
from dialogs.grammar.routine import e164
from dialogs.grammar.whole import Whole
from service.husbandry.kinds import Contest, Helper, Pin, Willing


def helper(whole: Whole) -> list[Found] | None:
    """ "ADD HELPER 0712345678 JUMA", "RUHUSU JUMA HESABU": None where the text orders no such thing."""
    wording = Wording(whole.scene.text.raw, "people")
    act = None if _asked(whole) else _act(wording)
    if act is None:
        return None
    values: dict[str, Any] = {"act": act, **_phone(whole), "name": _name(whole, wording)}
    if act in ("allow", "forbid"):
        values["may"] = _may(wording)
        if not values["may"] or (values["name"] is None and values.get("phone") is None):
            return None
    flags = ["bad_phone"] if _digits(whole) is not None and "phone" not in values else []
    return [Found(Helper, values, flags=flags)]


def _asked(whole: Whole) -> bool:
    return any(item.sort == "mark" and item.word == "?" for item in whole.items)


def _act(wording: Wording) -> str | None:
    """What is to be done; the prohibition before the permission whose words it holds."""
    if wording.says("forbid"):
        return "forbid"
    if wording.says("allow"):
        return "allow"
    if not wording.says("helper"):
        return None
    if wording.says("remove"):
        return "remove"
    return "add" if wording.opens("add") or _named_by_order(wording) else None


def _named_by_order(wording: Wording) -> bool:
    """ "naomba ongeza msaidizi", "please add a helper": the order after a word of politeness."""
    first = next(wording.spots("add"), None)
    return first is not None and first.start <= 2


def _may(wording: Wording) -> tuple[str, ...]:
    named = (("money", "money"), ("taking_out", "remove"), ("others", "people"))
    return tuple(right for meaning, right in named if wording.says(meaning))


def _digits(whole: Whole) -> Item | None:
    return next(
        (
            i
            for i in whole.items
            if i.sort == "phone" or (i.sort == "number" and i.word.isdigit() and len(i.word) >= 7)
        ),
        None,
    )


def _phone(whole: Whole) -> dict[str, str]:
    written = _digits(whole)
    number = None if written is None else e164(written.word, whole.scene)
    return {} if number is None else {"phone": number}


def _name(whole: Whole, wording: Wording) -> str | None:
    """The person's name, of one or two words; an animal's name too can be a person's."""
    ordered = {word for m in _ORDER for spot in wording.spots(m) for word in wording.words[slice(*spot)]}
    named = [i for i in whole.items if _may_name(i) and not ordered.issuperset(_words(whole, i))]
    if not named:
        return None
    first = named[0]
    second = next((i for i in named[1:] if i.start == first.end), None)
    text = whole.scene.text
    return display(text, first) if second is None else f"{display(text, first)} {display(text, second)}"


_ORDER = ("helper", "add", "remove", "allow", "forbid", "money", "taking_out", "others", "see")


def _may_name(item: Item) -> bool:
    if item.sort == "animal" or (is_strange(item) and item.sort == "word"):
        return True
    return item.corrected and item.sort in ("word", "cue") and item.capital


_CODE = re.compile(r"(?<!\d)\d{3,8}(?!\d)")
"""A secret number, its zeros kept."""


def pin(whole: Whole) -> list[Found] | None:
    """ "PIN 4821", "WEKA PIN 4821", "BADILI PIN 4821 7733", "ONDOA PIN 4821"."""
    wording = Wording(whole.scene.text.raw, "people")
    if not wording.says("pin") or _asked(whole) or len(wording.words) > _LONGEST_ORDER:
        return None
    codes = _CODE.findall(clean(whole.scene.text.raw))
    if wording.says("pin_clear"):
        return [Found(Pin, {"act": "clear", "code": codes[0] if codes else None})]
    if wording.says("pin_set") or len(codes) > 1:
        old = codes[0] if len(codes) > 1 else None
        return [Found(Pin, {"act": "set", "code": codes[-1] if codes else None, "old": old})]
    return [Found(Pin, {"act": "give", "code": codes[0]})] if codes else None


_LONGEST_ORDER = 9


def contest(whole: Whole) -> list[Found] | None:
    """ "SI KWELI", "NOT TRUE" alone; "hapana hajapandishwa": a "no" and a denial of no animal named."""
    wording = Wording(whole.scene.text.raw, "people")
    if wording.is_phrase("contest"):
        return [Found(Contest, {})]
    if wording.says("untrue"):
        return []  # "si kweli kwamba Neema amekufa": what it denies is no record
    if _asked(whole) or whole.animals or whole.said.count or not wording.opens("no"):
        return None
    told = [i for i in whole.items if i.sort == "cue" and not i.has("negation", "greeting")]
    denied = bool(told) and all(i.denied or i.has("empty") for i in told)
    once_more = any(word in _NOT or _HAS_NOT.match(word) for word in wording.words[1:])
    return [Found(Contest, {})] if denied and once_more and len(wording.words) <= _LONGEST_DENIAL else None


_LONGEST_DENIAL = 5
_NOT = frozenset({"not", "didnt", "wasnt", "hasnt", "isnt", "never", "havent", "si", "sio", "siyo"})
_HAS_NOT = re.compile(r"(?:ha(?:ja|ku|wa|tu|i|zi|ya)|hana|si(?:ja|ku|na))")


def willing(whole: Whole) -> list[Found] | None:
    """ "CHANJO NDIYO 3", "YES ECF 3", "CHANJO HAPANA": an answer to a gathering for a vaccination."""
    wording = Wording(whole.scene.text.raw, "people")
    disease = next((i.starts("disease.") for i in whole.items if i.starts("disease.")), None)
    if whole.animals or _asked(whole) or not (wording.says("vaccination") or disease is not None):
        return None
    if any(i.sort not in ("cue", "word", "number", "mark") for i in whole.items):
        return None
    if not _only_an_answer(whole, wording):
        return None
    numbers = [i for i in whole.items if i.sort == "number"]
    if (
        len(numbers) == 1
        and numbers[0].unit is None
        and (wording.says("yes") or wording.opens("vaccination"))
    ):
        return [Found(Willing, {"disease": disease, "count": numbers[0].value})]
    agreed = wording.says("yes") and not wording.says("no", "none_to_bring")
    if not numbers and agreed and len(wording.words) <= _LONGEST_DENIAL:
        return [Found(Willing, {"disease": disease, "count": None})]
    if not numbers and wording.says("none_to_bring") and len(wording.words) <= _LONGEST_DENIAL:
        return [Found(Willing, {"disease": disease, "count": Decimal(0)})]
    return None


def _only_an_answer(whole: Whole, wording: Wording) -> bool:
    """Whether nothing but yes or no, the jab, its disease, a number and the animals' noun is said."""
    said = {wording.words[i] for m in _ANSWER for spot in wording.spots(m) for i in range(*spot)}
    for item in whole.items:
        if item.sort in ("mark", "number") or item.starts("disease.") is not None:
            continue
        if not all(word in said for word in _words(whole, item)):
            return False
    return True


_ANSWER = ("yes", "no", "none_to_bring", "vaccination", "among")


def _words(whole: Whole, item: Item) -> list[str]:
    return clean(whole.scene.text.written(item.start, item.end)).replace("'", "").split()
