"""
What a text does not tell as having happened: denials, wishes, plans, advice, and what nearly was.

Marks such items as denied, so that no rule takes them for a record: "hajapandishwa", "nataka kumuuza",
"daktari amesema nimpe penicillin", "anakuja kumpandisha", "karibu kufa", "almost died".
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from dialogs.grammar.items import Item

_NOT_DENIABLE = (
    "empty", "hold", "unsure", "no_answer", "stop", "undo", "except", "label_none", "not_denial", "easy",
    "start", "language", "help",
)  # fmt: skip

DEEDS = (
    "serve", "ai", "mounted", "mounts", "calve", "abort", "dry", "wean", "vaccinate", "deworm", "spray",
    "disinfect", "treat", "sell", "buy", "die", "slaughter", "lost", "stolen", "feed_verb", "give", "deliver",
    "pay", "clean",
)  # fmt: skip
"""What is done to an animal or with money, in a verb or the noun of one."""

_MEANS = ("straw", "bull", "drug", "product", "worm_drug", "deworm", "ai", "vaccinate", "feed", "treat")
"""Things that stand for a deed when no verb denies it: a drug, a straw, feed."""

_SUBJUNCTIVE = re.compile(r"(?:ni|u|a|tu|m|wa|i|ya|zi|li|ki)?(?:ni|ku|mw|mu|m|wa|tu|i|li|ya|zi|ki|vi|u)?")
"""Marks before the stem of "nimpe", "apewe", "tuwachanje": no tense, so a wish or an advice."""

_TENSED = re.compile(r"(?:ni|n|u|a|tu|m|wa|i|li|ya|zi|ki|vi)?(?:me|na|li|mesha|lisha|mekwisha)|ka|kam|kawa")
"""Marks of what is told as a fact."""

_GIVE = re.compile(r"(?:ni|a|tu|wa|u|m)?(?:m|wa)pe|(?:a|wa)pewe")
"""The same of the shortest stem, -pa: "nimpe", "tuwape"."""

_ON_THE_WAY = re.compile(r"(?:na|nina|tuna|ana|wana|(?:ni|u|a|tu|m|wa)ta)(?:ku)?(?:ja|enda|kwenda|rudi|pita)")
_SENT = ("aje", "waje", "nije", "tuje", "aende", "waende", "niende", "tuende", "coming")
_NEARLY = ("almost", "nearly", "nusura", "nusra", "karibu", "close", "about")
_ALMOST = ("almost", "nearly", "nusura", "nusra", "nusurika", "nusurupu")
_ENDS = ".;\n!?,"


def mark(items: Sequence[Item]) -> None:
    """Marks as denied what *items* do not tell as having happened."""
    _denied_by_a_word_before(items)
    stretches = list(_pieces(items))
    for before, stretch in itertools.pairwise(stretches):
        _hearsay(before, stretch)
    for stretch in stretches:
        _not_seen(stretch)
    if any(item.has("every") for item in items):
        return  # a rule that the farm sets for itself: "tuogeshe kila siku 14"
    for piece in _pieces(items):
        _wished(piece)
        _nearly(piece)
        _dying(piece)
        _means_of_what_was_not_done(piece)


def _denied_by_a_word_before(items: Sequence[Item]) -> None:
    """A "not", "hana" or "hakuna" shortly before denies."""
    for index, item in enumerate(items):
        if item.sort != "cue" or item.has(*_NOT_DENIABLE) or item.has("negation"):
            continue
        if index >= 2 and items[index - 1].word in ("wala", "nor") and items[index - 2].denied:
            item.denied = True  # "hana homa wala kikohozi"
            continue
        for before in reversed(items[max(0, index - 4) : index]):
            if _denies_what_follows(before, item, before is items[index - 1]):
                item.denied = True
                break
            if before.sort in ("mark", "animal", "number") or before.word in ("na", "and", "lakini", "but"):
                break
            if before.word == "bado" and _tensed(item):
                break  # "bado anaumwa": still
            if before.has("negation") and not before.has("hold", "empty"):
                item.denied = True
                break
            wished = before.has("wish") and before is items[index - 1] and not item.has(*_ASKED_OF_US)
            if wished and _is_wished(before, item):
                item.denied = True  # what is wanted has not happened
                break
            if before.sort == "cue" and not before.has(
                "cattle", "cow", "calf", "heifer", "give", "yield", "got", "done", "when.since", "question",
                "pd",
            ):  # fmt: skip
                break


def _is_wished(wish: Item, item: Item) -> bool:
    """Whether a cue can be what a wish is for: a deed, in Kiswahili an infinitive."""
    if wish.prefix:
        return item.prefix.startswith("ku")
    return not item.prefix and not item.starts("sign.") and not item.has("unwell", "mating", "to_sw", "to_en")


_ASKED_OF_US = ("new", "rename", "named", "language")
"""What a wish asks of the service itself: "nataka kusajili ng'ombe mpya"."""


def _denies_what_follows(before: Item, item: Item, beside: bool) -> bool:
    """ "haja kamuliwa" (a verb cut in two), "no calf died", "on heat but not served"."""
    if before.denied and before.has("got", "give") and item.has(*DEEDS, *_MEANS, "drug"):
        return True  # "hawajapata dawa ya minyoo"
    if before.denied and before.has("said_verb") and beside:
        return not item.prefix
    if before.has("empty") and before.word in ("no", "hakuna", "hamna"):
        return item.has("die", "slaughter", "stolen", "lost", "abort", "sell")
    return (
        beside
        and before.has("except")
        and before.word in ("but", "lakini", "ila")
        and before.end - before.start > 1
    )


def _pieces(items: Sequence[Item]) -> Iterator[list[Item]]:
    """The stretches of *items* between marks and words that begin something new."""
    piece: list[Item] = []
    for item in items:
        if (item.sort == "mark" and item.word in _ENDS) or item.has("but", "then"):
            yield piece
            piece = []
        else:
            piece.append(item)
    yield piece


def _tensed(item: Item) -> bool:
    return bool(item.prefix) and _TENSED.match(item.prefix) is not None


def is_subjunctive(item: Item) -> bool:
    """Whether a verb is told in the mood of wishes and advice: "nimpe", "apandishwe"."""
    if _GIVE.fullmatch(item.word):
        return True
    ends = item.word.endswith("e") and item.word != "kupe"
    plain = ends and item.prefix != "" and item.sort in ("cue", "word")
    return plain and _SUBJUNCTIVE.fullmatch(item.prefix) is not None


_ADVISED = frozenset({
    "advised", "recommended", "suggested", "prescribed", "ameshauri", "ameagiza", "amependekeza",
    "ameandikia",
    "kashauri", "kaagiza", "ameniandikia", "ameniagiza", "amenishauri", "advises", "recommends",
})  # fmt: skip


_CALLED = re.compile(r"(?:ni|tu)(?:me|li|ka)(?:m|mw|wa)?(?:ita|pigia|agiza|tafuta|subiri)$")
""" "nimeita daktari kumtibu": what he is called for is still to be done."""

_ADVICE = re.compile(r"(?:shauriwa|shauri|elekezwa|takiwa|paswa|lazimika)$")


def _wished(piece: Sequence[Item]) -> None:
    """Denies the deeds that a wish, a plan, an advice or an errand is for."""
    reach = False
    for index, item in enumerate(piece):
        opens = _opens(piece, index)
        if opens or is_subjunctive(item):
            reach = True
        elif reach and _tensed(item) and item.has(*DEEDS):
            reach = False  # told as a fact: "nahitaji msaada Neema amezaa"
        if reach and item.sort == "cue" and _deed(item):
            item.denied = True


_UNSEEN = re.compile(
    r"(?:si|hatu|hawa)(?:ja|ku)?(?:m|wa|i|li|ya)?(?:ona|oni|gundua|shuhudia)"
    r"|ha(?:wa)?(?:ja|ku)?(?:onyesh|ones|onesh)[ai]"
    r"|(?:ha)(?:i|li|zi|ya|vi|ki|u)(?:ja|ku)?(?:onekana|onekani|jitokeza|tokea)"
)
""" "sijaona", "halijaonekana": what is spoken of was looked for and is not there."""
_SEEING = ("see", "seen", "saw", "notice", "noticed", "observe", "observed", "spotted")
_NEVER = ("not", "didnt", "havent", "hasnt", "never", "dont", "doesnt", "cant", "couldnt", "no", "wasnt")


def _not_seen(piece: Sequence[Item]) -> None:
    """Denies the heat and the signs that were not seen: "sijaona joto kwa Neema", "heat not seen"."""
    at = next((n for n, _ in enumerate(piece) if _is_unseen(piece, n)), None)
    if at is None:
        return
    of_a_thing = piece[at].word.startswith(("hai", "hali", "hazi", "haya", "havi", "haki", "hau"))
    if of_a_thing and piece[at].has("lost"):
        piece[at].sort, piece[at].concepts = "word", ()
    for item in piece:
        seen = item.has("heat", "mating") or item.starts("sign.") or item.starts("heat.")
        if item.sort == "cue" and item is not piece[at] and seen:
            item.denied = True


_SAYS = re.compile(r"(?:a|wa)(?:na|me|li)(?:ni|tu)?(?:sema|ambia|dai|eleza)|ka(?:ni)?(?:sema|ambia)")
_SAYS_EN = (
    "says", "say", "said", "claims", "claimed", "claim", "told", "tells", "heard", "nasikia", "nimesikia",
)  # fmt: skip
_I_SAW_NOT = re.compile(r"(?:si|hatu)(?:ja|ku)(?:m|li|i)?(?:ona|thibitisha)")


def _hearsay(told: Sequence[Item], own: Sequence[Item]) -> None:
    """Denies what another says and the teller has not seen: "jirani anasema ana joto lakini mimi sijaona"."""
    said = any(_SAYS.fullmatch(item.word) or item.word in _SAYS_EN for item in told)
    mine = any(item.word in ("i", "we", "ive") for item in own)
    unseen = any(
        _I_SAW_NOT.fullmatch(item.word) or (mine and item.word in _SEEING and _is_refused(own, n))
        for n, item in enumerate(own)
    )
    if not (said and unseen) or any(_is_seen(item) for item in own):
        return
    for item in told:
        item.denied = item.denied or _is_seen(item)


def _is_refused(piece: Sequence[Item], at: int) -> bool:
    return _is_unseen(piece, at) or any(before.has("negation") for before in piece[max(0, at - 2) : at])


def _is_seen(item: Item) -> bool:
    seen = item.has("heat", "mating", "unwell") or item.starts("sign.") or item.starts("heat.")
    return item.sort == "cue" and bool(seen)


def _is_unseen(piece: Sequence[Item], at: int) -> bool:
    item = piece[at]
    if _UNSEEN.fullmatch(item.word):
        return True
    return item.word in _SEEING and any(before.word in _NEVER for before in piece[max(0, at - 2) : at])


def _deed(item: Item) -> bool:
    return item.has(*DEEDS, *_MEANS) and not item.has(*_NOT_DENIABLE, "mating", "when.saa", "done")


def _opens(piece: Sequence[Item], index: int) -> bool:
    item = piece[index]
    follows = piece[index + 1].word if index + 1 < len(piece) else ""
    of = follows in ("ya", "wa") or item.end - item.start > 1
    if item.sort != "when" and item.word in ("siku", "wakati", "muda", "zamu") and of:
        return True  # "leo ni siku ya kuogesha"
    if item.word in ("naomba", "tunaomba", "naombeni"):
        return True
    if _CALLED.match(item.word) or _ADVICE.search(item.word):
        return True
    if item.word in _SENT or item.word in _ADVISED or _ON_THE_WAY.fullmatch(item.word):
        return True
    infinitive = index + 1 < len(piece) and (follows == "to" or piece[index + 1].prefix[:2] == "ku")
    if item.has("reject", "undo") and infinitive:
        return True  # "nimekataa kumuuza"
    if item.word in ("said", "says", "told", "advised") and _is_order_word(piece, index + 1):
        return True  # "the vet said give Neema penicillin"
    if item.has("wish"):
        return not item.has("hold", "mating") and item.starts("sign.") is None
    if item.word == "to" and index and index + 1 < len(piece):
        came = any(before.word in ("came", "visited") for before in piece[:index])
        deed = piece[index + 1]
        return not came and deed.sort == "cue" and _deed(deed) and not deed.has("bull", "stillborn")
    return False


_ORDERS = ("give", "treat", "inject", "sell", "spray", "deworm", "vaccinate", "dry", "wean", "serve")


def _is_order_word(piece: Sequence[Item], at: int) -> bool:
    beside = [item.word for item in piece[at : at + 3]]
    return any(word in _ORDERS for word in beside[:1]) or "to" in beside[:2]


def _nearly(piece: Sequence[Item]) -> None:
    """ "karibu kufa", "anakaribia kufa", "almost died", "is dying"."""
    for index, item in enumerate(piece):
        before = piece[max(0, index - 3) : index]
        if item.sort == "cue" and item.has(*DEEDS) and any(b.word in _ALMOST for b in before):
            item.denied = True
        if item.sort != "cue" or not item.has("die", "slaughter", "abort"):
            continue
        done = index and piece[index - 1].word in ("na", "kisha") and any(_tensed(i) for i in piece[:index])
        if done:
            continue  # "amekula sumu na kufa"
        if item.prefix == "ku" or item.word == "kufa" or any(b.word in _NEARLY for b in before):
            item.denied = True


_UNDER_WAY = re.compile(r"(?:a|i|wa|zi|yu)(?:na|ta)(?:ku|taka|karibia)?")


def _dying(piece: Sequence[Item]) -> None:
    """Who is dying is not dead yet: "anakufa", "atakufa", "is dying"."""
    for item in piece:
        if item.has("die") and (item.word == "dying" or _UNDER_WAY.fullmatch(item.prefix or "")):
            item.denied = True


def _means_of_what_was_not_done(piece: Sequence[Item]) -> None:
    """ "hakupewa penicillin": the drug was not given, though it is named."""
    verbs = [item for item in piece if item.sort == "cue" and item.has(*DEEDS)]
    refused = [item for item in verbs if item.denied]
    done = [item for item in verbs if not item.denied and (item.prefix or not item.has(*_MEANS))]
    if not refused or done:
        return
    for index, item in enumerate(piece):
        against = item.starts("sign.") and index and piece[index - 1].word in ("ya", "for", "against")
        if item.sort == "cue" and (item.has(*_MEANS) or against) and not item.has(*_NOT_DENIABLE):
            item.denied = True


_NOT_HER = ("not", "si", "sio", "siyo", "wala", "nor")


def without_whom_it_is_not(items: list[Item]) -> list[Item]:
    """*items* in which an animal named only to be left out is no animal: "not Neema but Tausi"."""
    out: list[Item] = []
    group = leaving = False
    for index, item in enumerate(items):
        before = items[index - 1] if index else None
        group = group or item.has("everyone", "calves_all", "heifers_all", "milking_all", "dry_now")
        if item.has("except") and not item.has("everyone"):
            leaving = not group and item.end - item.start > 1  # "sprayed Neema but not Pendo"
        elif item.sort != "animal" and item.word not in ("na", "and", "or", "au", "&"):
            leaving = False
        told = before is not None and before.word in _NOT_HER and before.end - before.start == 1
        if item.sort == "animal" and (told or leaving):
            item = Item("word", item.start, item.end, item.word, known=True)
        out.append(item)
    return out


_CORRECTS = frozenset({
    "no", "hapana", "sorry", "samahani", "nimekosea", "oops", "mean", "namaanisha", "actually", "pole",
    "kosa",
    "correction", "wrong", "la", "sio", "siyo",
})  # fmt: skip
_PADDING = frozenset(
    {"ni", "i", "its", "it", "is", "was", "ilikuwa", "rather", "bali", "but", "lita", "litres"}
)


def without_what_is_taken_back(items: list[Item]) -> list[Item]:
    """*items* without a number that the next words put right: "Neema 6, no 7", "lita 6 samahani ni 7"."""
    out = _plainly_refused(items)
    index = 0
    while index < len(out):
        at = _taken_back(out, index)
        if at is None:
            index += 1
            continue
        put_right = out[at]
        put_right.unit = put_right.unit or out[index].unit
        refused = index > 0 and out[index - 1].word in _NOT_HER  # "sio 6 ni 7"
        out[index - refused : at] = []
    return out


def _plainly_refused(items: Sequence[Item]) -> list[Item]:
    """*items* in which a "sio" between two numbers is the "si" that it stands for: "ni 6 sio 7"."""
    out = list(items)
    for index in range(1, len(out) - 1):
        around = out[index - 1].sort == out[index + 1].sort == "number"
        if out[index].word in ("sio", "siyo") and around:
            out[index] = replace(out[index], word="si")
    return out


def without_what_it_is_not(items: Sequence[Item]) -> list[Item]:
    """ "ni 6 sio 7", "it was 6 not 7": the second number is none."""
    out: list[Item] = []
    for index, item in enumerate(items):
        follows = items[index + 1] if index + 1 < len(items) else None
        refused = item.sort == "number" and bool(out) and out[-1].word in _NOT_HER
        before = [other for other in out[-3:-1] if other.word != ","]
        ends = follows is None or follows.sort in ("mark", "animal", "when")
        if refused and ends and before and before[-1].sort == "number":
            out.pop()
        else:
            out.append(item)
    return out


def _taken_back(items: Sequence[Item], index: int) -> int | None:
    """Where the number stands that replaces the number at *index*."""
    if items[index].sort != "number":
        return None
    corrected = index > 0 and items[index - 1].word in _NOT_HER
    timed = False
    for at in range(index + 1, min(index + 7, len(items))):
        item = items[at]
        if item.sort == "when" and not (timed or corrected):
            timed = True  # "lita 66 jioni, samahani ni 6"
            continue
        if item.sort == "number":
            if timed and any(i.sort == "when" for i in items[at + 1 : at + 2]):
                return None
            same = item.unit in (None, items[index].unit) or items[index].unit is None
            return at if corrected and same else None
        corrects = item.word in _CORRECTS and item.end - item.start == 1 and not item.has("hold", "meat")
        if timed and item.word in ("sio", "siyo", "la"):
            return None
        corrected = corrected or corrects
        if not corrects and item.word not in _PADDING and not (
                item.sort == "mark" and item.word in ",.;-"):  # fmt: skip
            return None
    return None
