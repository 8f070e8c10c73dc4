"""
Stretches that tell of nothing that happened: hopes, conditions, dreams, what somebody asks to be told.

"natamani Neema awe na mimba", "if Neema calves", "sijui kama ana joto", "angezaa": left out before a
text is read, so that nothing in them is taken for a record.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from dialogs.grammar.items import Item

_HOPES = frozenset({
    "natamani", "natumaini", "tunatumaini", "tunatamani", "natarajia", "tunatarajia", "ningependa",
    "tungependa", "laiti", "natumai", "hope", "hoping", "wish", "wishing", "wished", "hopefully",
    "ningefurahi", "naombea", "tunaombea", "naomba", "tunaomba",
    "dreamt", "dreamed", "dreaming", "dreams", "dream", "ndoto", "ndotoni",
    "sidhani", "siamini", "doubt", "imagine", "suppose",
    "pray", "praying", "expect", "expecting", "tulidhani", "nilidhani", "walidhani", "nilifikiri",
    "tulifikiri", "thought",
})  # fmt: skip
_IF = frozenset({"if", "whether", "ikiwa", "iwapo", "endapo", "unless", "lau"})
_SMALL_TALK = frozenset({
    "you", "u", "hujambo", "hamjambo", "mzima", "wazima", "salama", "well", "fine", "mko", "upo", "uko",
    "mpo", "mnaendelea", "unaendelea", "wote", "all", "good", "mema", "vyema", "vizuri", "mwema",
    "njema",
    "msaada", "samahani", "radhi", "ushauri", "namba", "help", "everything", "is",
})  # fmt: skip
_ENDS = ".;\n!?"
_DREAMT = re.compile(r"(?:n|tw|w)?a?(?:ni|u|a|tu|m|wa|ka)?(?:me|li|na|ka|mesha)?ota")
_NGE = re.compile(r"(?:ni|u|a|tu|m|wa|i|li|ya|zi)(?:nge|ngeli|ngali)")
_KI = re.compile(r"(?:ni|u|a|tu|m|wa)ki(?:m|mu|mw|wa|ni|ku)?")
_EVENTS = (
    "die", "calve", "sell", "serve", "ai", "pregnant", "abort", "dry", "heat", "mating", "treat", "unwell",
    "buy", "deworm", "spray", "vaccinate", "wean", "lost", "stolen", "slaughter", "pay",
)  # fmt: skip


def without_what_is_not_real(items: list[Item]) -> list[Item]:
    """*items* without the stretches that a hope, an if or a dream opens."""
    out: list[Item] = []
    index = 0
    while index < len(items):
        ran_out = _ran_out(items, index)
        if ran_out:
            index += ran_out
            out.append(Item("mark", items[index - 1].start, items[index - 1].start, "."))
            continue
        if _opens(items, index):
            while out and out[-1].has("unsure") and items[index].word in ("kama", *_IF):
                out.pop()  # "sina uhakika kama amezaa"
            if items[index].prefix or _says_it_of_whom(items[index]):
                while out and out[-1].sort in ("animal", "word", "when"):
                    out.pop()  # whom "akizaa" is said of
            index = _end(items, index)
            out.append(Item("mark", items[index - 1].start, items[index - 1].start, "."))
            continue
        if _in_a_dream(items, index):
            only = any(item.word in _WAS for item in items[max(0, index - 3) : index])
            while out and not (out[-1].sort == "mark" and out[-1].word in (_ENDS if only else "," + _ENDS)):
                out.pop()
        out.append(items[index])
        index += 1
    return out if len(out) != len(items) else items


_WAS = ("ni", "ilikuwa", "was")


def _in_a_dream(items: Sequence[Item], at: int) -> bool:
    """ "Neema amezaa ndotoni", "she calved in my dream": what stands before it was dreamt."""
    where = [item.word for item in items[max(0, at - 2) : at]]
    inside = any(word in ("katika", "kwenye", "in", *_WAS) for word in where)
    dream = items[at].word in ("ndoto", "dream", "dreams") and inside
    return items[at].word == "ndotoni" or dream


_USED_UP = re.compile(r"(?:i|zi|li|ya|vi|u)me(?:isha|kwisha|malizika)|(?:ha)(?:i|ku|zi)(?:na|ko|po|mna)")


_BEFORE = ("before", "after", "since", "kabla", "baada", "tangu")


def without_background(items: list[Item]) -> list[Item]:
    """*items* without an event that only says when another was: "before Neema calved she was thin"."""
    out = list(items)
    for index in range(len(out) - 2, -1, -1):
        if out[index].word not in _BEFORE or out[index].sort not in ("word", "cue"):
            continue
        at = next((i for i in range(index + 1, min(index + 5, len(out))) if _is_event(out[i])), None)
        between = out[index + 1 : at]
        named = any(i.sort == "animal" or i.word in ("she", "he", "it", "yeye") for i in between)
        if at is not None and named and not any(i.sort in ("mark", "number", "when") for i in between):
            del out[at], out[index]
    return out


def _is_event(item: Item) -> bool:
    return item.sort == "cue" and item.has(*_EVENTS)


def _ran_out(items: Sequence[Item], at: int) -> int:
    """How many items say that a thing is used up: "dawa ya minyoo imeisha", "penicillin is finished"."""
    if not items[at].has("drug", "deworm", "spray", "product", "feed", "worm_drug", "vaccinate") \
            or items[at].prefix:  # fmt: skip
        return 0
    for index in range(at + 1, min(at + 4, len(items))):
        item = items[index]
        if item.word in ("finished", "over", "ended") and items[index - 1].word in (
            "is",
            "are",
            "has",
            "have",
        ):
            return index + 1 - at
        if _USED_UP.fullmatch(item.word):
            return index + 1 - at
        if item.sort in ("mark", "animal", "number"):
            return 0
    return 0


def _opens(items: Sequence[Item], at: int) -> bool:
    item = items[at]
    if item.sort not in ("word", "cue"):
        return False
    if _NGE.match(item.prefix) and item.has(*_EVENTS):
        return True
    if item.word in _HOPES or _DREAMT.fullmatch(item.word):
        return (
            _speaks_of_an_event(items, at) and not _is_small_talk(items, at) and not _is_expecting(items, at)
        )
    if _may_be(items, at) or _is_prayed_for(items, at) or _is_believed(items, at):
        return True
    if item.word in _TARGETS or (item.word in _CAN and _could_give(items, at)):
        return True
    if item.word in _IF or (item.word == "kama" and _is_whether(items, at)):
        return _speaks_of_an_event(items, at) and not _is_uncertain(items, at)
    return (
        bool(_KI.fullmatch(item.prefix))
        and item.has(*_EVENTS)
        and (item.has("die", "sell") or _foretells(items, at))
    )


_MODALS = ("may", "might", "could", "would")
_ABLE = re.compile(r"(?:na|nina|tuna|ana|wana|tu|twa)weza")
_LEST = re.compile(r"(?:a|wa|i|zi|ya|tu|ni)sije")
_WILL_BE = re.compile(r"(?:a|wa)takuwa")
_WILLING = ("akipenda", "akijalia", "inshallah", "inshaallah", "inshalla", "insha", "willing", "majaliwa")
_BELIEVES = (
    "thinks", "believes", "guesses", "suspects", "reckons", "anadhani", "anafikiri", "anahisi", "wanadhani",
    "wanafikiri", "wanahisi",
)  # fmt: skip
_FEARS = ("afraid", "fear", "fears", "fearing", "naogopa", "nahofia", "tunaogopa")
_GRAVE = ("die", "sell", "abort", "calve", "pregnant", "serve", "ai", "dry", "lost", "stolen", "slaughter")


def _says_it_of_whom(item: Item) -> bool:
    """Whether the word follows whom it is said of: "I may ...", "Pendo asije ...", "my brother thinks"."""
    spoken = (*_MODALS, *_BELIEVES)
    return item.word in spoken or any(r.fullmatch(item.word) for r in (_ABLE, _LEST, _WILL_BE))


def _may_be(items: Sequence[Item], at: int) -> bool:
    """ "I may sell Jasiri", "naweza kumuuza", "asije akaugua", "atakuwa na mimba": not so yet."""
    word, reach = items[at].word, items[at + 1 : at + 5]
    events = [i for i in reach if i.sort == "cue" and (i.has(*_EVENTS) or i.starts("sign."))]
    if not events or any(i.sort == "mark" and i.word == "?" for i in items):
        return False
    if word in _MODALS:
        asked = items[at + 1].word in ("have", "be", "i", "you", "we") or events[0].denied
        return not asked and events[0].has(*_EVENTS) and not any(i.sort == "mark" for i in reach[:1])
    if _ABLE.fullmatch(word):
        return items[at + 1].prefix.startswith("ku") and items[at + 1].has(*_GRAVE)
    lest = _LEST.fullmatch(word) is not None
    return lest or (_WILL_BE.fullmatch(word) is not None and events[0].has("pregnant"))


def _is_prayed_for(items: Sequence[Item], at: int) -> bool:
    """ "Mungu akipenda Tausi atazaa", "God willing she is in calf"."""
    reach = items[at : _end(items, at)]
    return items[at].word in _WILLING and any(i.sort == "cue" and i.has(*_EVENTS) for i in reach)


def _is_believed(items: Sequence[Item], at: int) -> bool:
    """ "my brother thinks Tausi is in calf": a grave thing that nobody knows."""
    if items[at].word in _FEARS:
        return any(i.has("die", "abort", "sell", "stolen") for i in items[at : _end(items, at)])
    if items[at].word not in _BELIEVES or any(i.has("vet", "technician") for i in items[:at]):
        return False
    return any(i.sort == "cue" and i.has(*_GRAVE) for i in items[at : _end(items, at)])


_TARGETS = ("target", "lengo", "goal", "malengo", "matarajio")
_CAN = ("anaweza", "can", "could", "wanaweza")


def _could_give(items: Sequence[Item], at: int) -> bool:
    """ "anaweza kutoa lita 10": what she could give."""
    return any(item.has("yield", "got", "milk") for item in items[at + 1 : at + 3])


def _is_expecting(items: Sequence[Item], at: int) -> bool:
    """ "Neema is expecting": she is in calf."""
    return items[at].word in ("expecting", "expect") and items[at].has("pregnant")


_REACHES = (
    "reach", "reaches", "reached", "gets", "get", "gives", "give", "produces", "produce", "makes",
    "hits", "would", "could", "will",
)  # fmt: skip


def _hopes_for_so_much(items: Sequence[Item], at: int) -> bool:
    """ "natamani Neema afikishe lita 12", "I hope she reaches 12": a quantity looked forward to."""
    if items[at].word in ("naomba", "tunaomba", "doubt"):
        return False
    reach = items[at : _end(items, at)]
    number = next((n for n, item in enumerate(reach) if item.sort == "number"), None)
    return number is not None and any(_is_looked_forward_to(item) for item in reach[1:number])


def _is_looked_forward_to(item: Item) -> bool:
    if item.sort not in ("word", "cue"):
        return False
    marks = ("a", "wa", "i", "zi", "ya", "tu", "ni", "ani", "atu")
    subjunctive = item.word.endswith("e") and item.prefix in marks
    to_come = re.match(r"(?:a|wa|i|zi|ya|tu|ni)(?:ta|nge)[a-z]{2,}", item.word) is not None
    return item.word in (*_REACHES, "afike", "atoe", "apate", "awe", "anipe") or subjunctive or to_come


def _speaks_of_an_event(items: Sequence[Item], at: int) -> bool:
    if _hopes_for_so_much(items, at):
        return True
    reach = items[at : _end(items, at)]
    return any(i.has(*_EVENTS) or i.starts("sign.") or i.starts("heat.") for i in reach if i.sort == "cue")


def _is_small_talk(items: Sequence[Item], at: int) -> bool:
    """ "natumaini hamjambo Neema ametoa 6", "naomba msaada": what is hoped is no event."""
    for item in items[at + 1 : at + 5]:
        if item.sort == "animal":
            return False
        if item.word in _SMALL_TALK or item.has("greeting", "help"):
            return True
        if item.sort == "cue" and item.has(*_EVENTS):
            return False
    return False


def _is_whether(items: Sequence[Item], at: int) -> bool:
    """ "sijui kama Neema ana mimba", "kama Neema akizaa"; but "kama lita 6" is about."""
    follows = items[at + 1] if at + 1 < len(items) else None
    before = items[at - 1] if at else None
    if follows is None or follows.sort == "number":
        return False
    asked = before is not None and (
        before.word in _ASKS or before.has("unsure") or _LOOKS.search(before.word) is not None)  # fmt: skip
    opens = before is None or before.sort == "mark"
    verb = any(i.sort == "cue" and i.has(*_EVENTS) for i in items[at + 1 : at + 5])
    return verb and (asked or (opens and (follows.sort == "animal" or bool(follows.prefix))))


_LOOKS = re.compile(r"(?:angalia|tazama|chunguza|ulizia|uliza|pima|jua|ona|ambie)$")
_ASKS = (
    "sijui", "hatujui", "angalia", "niambie", "uliza", "nijulishe", "uhakika", "kujua", "tuone", "nione",
    "angalieni", "nataka", "naangalia", "tunaangalia", "sikumbuki",
)  # fmt: skip


def _is_uncertain(items: Sequence[Item], at: int) -> bool:
    """ "the vet is not sure if she is in calf" is a check's result."""
    sure = any(item.has("unsure") for item in items[max(0, at - 3) : at])
    return sure and any(item.has("pregnant") for item in items[at:])


def _foretells(items: Sequence[Item], at: int) -> bool:
    """Whether something to come, or to be done, follows "akizaa": "akizaa nitakwambia"."""
    rest = [*items[at + 1 : _end(items, at)], *items[max(0, at - 4) : at]]
    return any(re.match(r"(?:ni|u|a|tu|m|wa)ta", i.word) or i.has("future", "remind", "wish") for i in rest)


def _end(items: Sequence[Item], at: int) -> int:
    """Where the reach of an opening word ends: a full stop, a "but", a comma that ends no list of names."""
    for index in range(at + 1, len(items)):
        item = items[index]
        if item.sort == "mark" and item.word in _ENDS:
            return index
        if item.word in ("lakini", "but", "kumbe") or (item.sort == "mark" and item.word == ","):
            listed = index + 1 < len(items) and items[index - 1].sort == items[index + 1].sort == "animal"
            if not listed:
                return index
    return len(items)
