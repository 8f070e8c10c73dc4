"""
Pieces put together into groups of one kind each: what goes on with the piece before, and what begins anew.
"""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass

from dialogs.grammar import ellipsis
from dialogs.grammar.heads import head_of
from dialogs.grammar.items import Item
from dialogs.grammar.pieces import JOINING, STRONG, Piece, milk_sold
from dialogs.grammar.said import DENIED, Said
from dialogs.grammar.when import Day

FUTURE = re.compile(r"(?:ni|u|a|tu|m|wa|i|li|ya|zi)ta")
HERD_WORK = ("spraying", "deworming", "vaccination", "treatment")


_INFINITIVES = {"spray": "spraying", "deworm": "deworming"}
""" "tulipulizia dawa bandani na kuogesha wote": what is done after "and" bears no tense of its own."""


def _done_before(piece: Piece) -> bool:
    done = (item.prefix for item in piece.items if not item.denied)
    return any(re.match(r"(?:ni|tu|wa|a)(?:me|li|ka)", prefix) for prefix in done)


def given_what_was_named(pieces: list[Piece]) -> None:
    """ "nimenunua dawa ya minyoo na kuwapa ndama": what is given was named in the piece before."""
    for before, piece in itertools.pairwise(pieces):
        said = Said(piece.items)
        to_another = any(item.word in ("to", "kwa") for item in piece.items) and "l" in said.units
        if before.kind == "milk_sale" and piece.kind == "milk" and to_another and not piece.animals:
            piece.kind = "milk_sale"  # "3 litres to Asha and 4 litres to Juma"
        if before.kind in ("milk", "delivery") and milk_sold(piece.items):
            piece.kind = "milk_sale"  # "Neema 6, nikauza 4"
        if piece.kind is None and piece.items[0].prefix == "ku" and piece.joiner in JOINING:
            task = piece.items[0].starts("task.") or ""
            piece.kind = _INFINITIVES.get(task) if _done_before(before) else None
        if piece.kind is None and said.has("give") and said.names_cattle:
            named = Said(before.items)
            piece.kind = (
                "deworming" if named.has("deworm") else "treatment" if named.has("drug", "product") else None
            )


@dataclass(slots=True)
class Group:
    kind: str | None
    pieces: list[Piece]
    goes_on: bool = False  # one more of the list that the group before began

    @property
    def items(self) -> list[Item]:
        return [item for piece in self.pieces for item in piece.items]


def grouped(pieces: list[Piece]) -> list[Group]:
    groups: list[Group] = []
    waiting: list[Piece] = []
    for index, piece in enumerate(pieces):
        current = groups[-1] if groups else None
        kind = piece.kind
        if current is not None and not waiting and _tells_by_what_was_told(piece, current, groups):
            continue
        if current is not None and not waiting and _to_be_paid(piece, current):
            current.pieces.append(piece)
            current.kind = "milk_sale"
        elif kind is None and current is None:
            waiting.append(piece)
        elif kind is None and current is not None:
            if _of_the_future(piece):
                continue
            if _goes_forward(pieces, index, current):
                waiting.append(piece)
            else:
                current.pieces += [*waiting, piece]
                waiting = []
        elif current is not None and not waiting and _belongs(piece, current):
            current.pieces.append(piece)
            if kind == "heat" and current.kind == "illness" and _sure_heat(current):
                current.kind = kind  # "amepunguza maziwa na anapandwa na wenzake"
        elif current is not None and kind == "recovery" and _was_ill(piece, current):
            current.kind = DENIED  # what is over is no illness of today
            groups.append(Group(kind, [*waiting, piece]))
            waiting = []
        elif current is not None and _unfinished([*waiting, piece], current):
            current.pieces += [*waiting, piece]
            current.kind = kind
            waiting = []
        else:
            groups.append(Group(kind, [*waiting, piece]))
            waiting = []
    if waiting:
        groups.append(Group(None, waiting)) if not groups else groups[-1].pieces.extend(waiting)
    for group in groups:
        if group.kind in ("other_income", "expense") and head_of(group.items) == "milk_pay":
            group.kind = "milk_pay"  # "makato 20000 chakula na 5000 dawa, nimelipwa 180000"
    return groups


def _to_be_paid(piece: Piece, current: Group) -> bool:
    """ "Juma took 3 litres, will pay on Friday": milk that is to be paid for was sold."""
    credit = any(item.has("credit") for item in piece.items) and not piece.animals
    litres = any(item.sort == "number" and item.unit == "l" for item in current.items)
    named = any(item.sort == "animal" or item.has("centre") for item in current.items)
    return credit and litres and not named and current.kind in ("delivery", "milk")


_NONE_HELD = ("none", "nil", "zero", "hakuna", "hamna", "sifuri")


def _sure_heat(group: Group) -> bool:
    return any(
        not i.denied and (i.has("mating") or i.starts("heat.") is not None)
        for i in group.items if i.sort == "cue"
    )  # fmt: skip


_PAST = re.compile(r"(?:a|wa|i|ya|zi|li)li")


def _was_ill(piece: Piece, current: Group) -> bool:
    """Whether the illness before "she is well again" is told as past, or with no sign of its own."""
    if current.kind != "illness" or piece.animals:
        return False
    past = any(_PAST.match(i.prefix) or i.word in _WAS for i in current.items)
    return past or not any(i.starts("sign.") for i in current.items)


_WAS = ("alikuwa", "walikuwa", "was", "had", "were")


def _tells_by_what_was_told(piece: Piece, current: Group, groups: list[Group]) -> bool:
    """Takes up a piece that only means something after *current*; False where it is none such."""
    if ellipsis.leaves_out(piece):
        return True
    if piece.kind is None and _turns(piece, current):
        return True
    if any(own(piece, current, groups) for own in (_own_days, _own_calves, _holds_back)):
        return True
    for own in _OWN:
        alike = piece.kind in (None, current.kind) or (piece.kind == "milk" and own in _OF_MILK)
        told = own(current.kind, current.items, piece) if alike else None
        if told is not None:
            groups.append(Group(current.kind, [told], goes_on=True))
            return True
    if piece.kind in (None, "milk", "new_animal") and ellipsis.after_heading(
            current.kind, current.items, piece):  # fmt: skip
        current.pieces.append(piece)
        return True
    if piece.kind in (None, "milk", "new_animal"):
        listed = ellipsis.lists_on(current.kind, current.items, piece)
        if listed is not None:
            groups.append(Group(current.kind, [listed], goes_on=True))
            return True
    if piece.kind is None and ellipsis.goes_on_paying(current.kind, current.items, piece):
        groups.append(Group(current.kind, [piece], goes_on=True))
        return True
    return _answers(piece, current, groups)


_OWN = (ellipsis.own_disease, ellipsis.own_sum, ellipsis.own_buyer, ellipsis.own_load)
_OF_MILK = (ellipsis.own_buyer, ellipsis.own_load)


def _own_calves(piece: Piece, current: Group, groups: list[Group]) -> bool:
    told = ellipsis.own_calves(current.kind, current.items, piece) if piece.kind is None else []
    if not told:
        return False
    if not any(item.has("female", "male") for item in current.items):
        groups.remove(current)  # "Neema na Tausi wamezaa, Neema jike Tausi dume": only the head of the list
    groups.extend(Group("calving", [one], goes_on=True) for one in told)
    return True


def _own_days(piece: Piece, current: Group, groups: list[Group]) -> bool:
    told = ellipsis.own_days(current.kind, current.items, piece)
    if not told:
        return False
    if len(told) > 1 and not any(i.sort == "when" for i in current.items):
        groups.remove(current)  # "Neema na Tausi wamepandishwa, Neema jana Tausi leo": the head of the list
    groups.extend(Group(current.kind, [one], goes_on=True) for one in told)
    return True


def _holds_back(piece: Piece, current: Group, groups: list[Group]) -> bool:
    """ "treated ..., paid 30000, milk hold 4 days": the hold is of the treatment told before."""
    said = Said(piece.items)
    held = said.has("hold", "meat") or (said.has("milk") and bool(said.units & {"day", "hour", "week"}))
    if piece.kind is not None or not held or piece.animals or current.kind in HERD_WORK:
        return False
    treated = next((group for group in reversed(groups) if group.kind in HERD_WORK), None)
    if treated is None:
        return False
    treated.pieces.append(piece)
    return True


_OUT = ("imetoka", "ilitoka", "imeharibika", "iliharibika", "ikatoka")
_BACK = ("amepatikana", "tumempata", "nimempata", "alipatikana", "amerudi", "found", "back", "recovered")


def _turns(piece: Piece, current: Group) -> bool:
    """ "alishika mimba lakini imetoka", "amepotea lakini amepatikana": the end goes over the beginning."""
    said = {item.word for item in piece.items}
    if current.kind == "pregnancy_check" and said & set(_OUT) and not piece.animals:
        current.kind = "abortion"
        current.pieces.append(piece)
        return True
    lost = any(item.has("lost", "stolen") for item in current.items)
    if current.kind == "death" and lost and said & set(_BACK):
        current.kind = DENIED
        return True
    return False


def _answers(piece: Piece, current: Group, groups: list[Group]) -> bool:
    """ "Neema ana mimba, Tausi hana": a word that says yes or no of another animal."""
    answer = ellipsis.verdict(piece) if piece.kind in (None, DENIED, "pregnancy_check") else None
    if answer is None or (current.kind == "calving" and not piece.animals):
        return False
    if current.kind == "pregnancy_check" and answer != "same":
        if not any(p.animals for p in current.pieces):
            current.pieces.append(piece)  # after the head of a list: "PD: Neema ana, Tausi hana"
        else:
            groups.append(Group("pregnancy_check", [piece], goes_on=True))
    elif answer == "same" and current.kind == "milk":
        current.pieces.append(ellipsis.with_last_quantity(current.items, piece))
    elif answer != "no" and current.kind != DENIED:
        current.pieces.append(piece)
    return True


def _of_the_future(piece: Piece) -> bool:
    """Small talk about what is to come: "kesho nitapiga simu"."""
    return any(
        FUTURE.match(item.prefix)
        for item in piece.items
        if item.sort in ("cue", "word") and item.prefix and not item.has("credit")
    )


def _only_names(piece: Piece) -> bool:
    return all(
        item.sort == "animal"
        or item.has("everyone", "part.x")
        or item.word in ("pamoja", "with", "the", "my")
        or (item.sort in ("word", "tag") and not item.known)
        for item in piece.items
    )


def _only_time(piece: Piece) -> bool:
    return all(item.sort == "when" or item.has("when.since", "when.on", "when.about") for item in piece.items)


def _goes_forward(pieces: list[Piece], index: int, current: Group) -> bool:
    """
    Whether a piece without a kind belongs to what follows: a name whose verb comes after "and" or a
    comma ("..., Zawadi na Pendo wana joto"), or a time that opens a sentence.
    """
    piece = pieces[index]
    follows = pieces[index + 1] if index + 1 < len(pieces) else None
    if follows is None:
        return False
    if _only_time(piece) and piece.joiner and (piece.joiner in STRONG or current.kind == "milk"):
        return True
    if not _only_names(piece):
        return False
    if follows.kind is None:
        return _goes_forward(pieces, index + 1, current)
    return bool(follows.items) and follows.items[0].sort == "animal" and follows.kind != current.kind


def _belongs(piece: Piece, current: Group) -> bool:
    """Whether a piece that names a kind still goes on with the clause before it."""
    kind, before = piece.kind, current.kind
    own_animal = any(item.sort == "animal" for item in piece.items)
    own_day = any(item.sort == "when" and isinstance(item.value, Day) for item in piece.items)
    had_day = any(
        item.sort == "when" and isinstance(item.value, Day) for p in current.pieces for item in p.items
    )
    had_animal = any(item.sort == "animal" for p in current.pieces for item in p.items)
    if kind == before == "delivery" and any(item.has("reject") for item in piece.items):
        return not any(item.sort == "number" for item in piece.items)  # "took 20 litres, 3 rejected"
    if kind == before and _one_list(piece, current):
        return True
    if kind == before == "service" and piece.items[0].has("straw"):
        return True  # "kampandisha Neema na mbegu ya Jasiri"
    if before in HERD_WORK and kind == "treatment" and _lists_on(piece, current):
        return not any(item.has("treat") for item in piece.items)
    if kind == before:
        if own_animal and not had_animal and kind in ("illness", "heat", "pregnancy_check", "vaccination"):
            return True
        if kind in ("expense", "other_income", "milk_sale", "animal_sale", "setting", "contact"):
            return not any(item.sort in ("number", "animal") for item in piece.items)
        if kind == "new_animal":
            return False
        return not own_animal and not (own_day and had_day)
    if before == "calving" and kind == "death":
        return not own_animal
    if before == "calving" and kind == "naming":
        return not own_animal
    if before == "treatment" and kind == "illness" and piece.joiner not in STRONG:
        return not own_animal
    if (
        before in HERD_WORK
        and kind in ("milk_sale", "milk", "animal_sale", "treatment")
        and any(item.has("hold", "meat") or item.word in _NONE_HELD for item in piece.items)
    ):
        return not own_animal
    if before in ("vaccination", "deworming", "spraying") and kind == "treatment":
        return not own_animal
    if kind == "milk" and before == "weaning" and not any(item.sort == "number" for item in piece.items):
        return True  # "nimewaachisha Kito na Sumu maziwa"
    if kind == "expense" and before in ("animal_sale", "milk_sale") and _own_payment(piece, current):
        return False
    if before == "service" and kind == "expense":
        return not own_animal and not any(item.has("buy") for item in piece.items)
    if before == "heat" and kind == "illness":
        return not own_animal
    if before == "illness" and kind == "heat":
        return not own_animal
    kept_back = any(item.has("deduct") for item in current.items)
    if before == "milk_pay" and kept_back and any(item.sort == "number" for item in piece.items):
        return not own_animal
    if before == "milk_pay" and any(item.has("deduct") for item in piece.items):
        return not own_animal
    if before == "milk_pay" and kind not in ("milk_pay", "heat", "service", "calving", "illness"):
        return not own_animal
    if before == "delivery" and kind == "milk":
        return not own_animal
    if before == "milk_sale" and kind in ("expense", "milk", "other_income", "milk_pay"):
        return not own_animal
    if before == "animal_sale" and kind in ("other_income", "expense"):
        return not own_animal
    if before == "new_animal" and kind in ("milk", "drying_off"):  # "New cow Tausi, milking"
        return not own_animal and not any(item.sort == "number" for item in piece.items)
    if before == "new_animal" and kind in ("expense", "naming", "animal_sale"):
        return True
    if before == "death" and kind == "illness":
        return not own_animal
    return False


def _own_payment(piece: Piece, current: Group) -> bool:
    """ "nimeuza Mwezi laki nane, nimelipa daktari 20000": a sum of its own that the farm paid."""
    paid = any(
        item.has("buy", "spend", "pay") and "lipwa" not in item.word and item.word not in ("received",)
        and (not item.prefix or item.prefix[:2] in ("ni", "tu", "na", "ka", "ku"))
        for item in piece.items if item.sort == "cue" and not item.denied
    )  # fmt: skip
    return paid and all(any(i.sort == "number" for i in items) for items in (piece.items, current.items))


_ONE_EVENT = ("heat", "drying_off", "weaning", "abortion", "calving", "death", "animal_sale")
"""Kinds that a second piece about the same animal only tells more of."""


def _lists_on(piece: Piece, current: Group) -> bool:
    """Whether the separator before a piece cut a list of names."""
    last = current.pieces[-1].items[-1]
    return piece.joiner in (*JOINING, ",") and last.sort == "animal" and piece.items[0].sort == "animal"


def _one_list(piece: Piece, current: Group) -> bool:
    """All milk is one run; so is a list of names that the separator cut: "fed Neema and Tausi 3 kg each"."""
    if current.kind in _ONE_EVENT and not piece.animals:
        return True
    return current.kind == "milk" or _lists_on(piece, current)


def _unfinished(pieces: list[Piece], current: Group) -> bool:
    """ "Gave Pendo and Tausi 2 kg meal each": what was given comes after the second name."""
    piece = pieces[0]
    if not all(_only_names(p) for p in pieces[:-1]):
        return False
    items = [item for p in current.pieces for item in p.items]
    listed = (
        piece.joiner in (*JOINING, ",") and items[-1].sort == "animal" and piece.items[0].sort == "animal"
    )
    open_ended = current.kind == "milk" and not any(item.sort == "number" for item in items)
    return open_ended and (listed or (piece.kind == "illness" and not piece.animals))
