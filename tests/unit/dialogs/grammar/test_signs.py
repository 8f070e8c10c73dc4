"""Illness in plain words: each sign of the contract as people say it, and an animal that is well again."""

import pytest

from service.husbandry.signs import ILLNESS_SIGNS
from tests.unit.dialogs.grammar.reading import entries, entry, reading

SAID: dict[str, tuple[str, ...]] = {
    "off_feed": (
        "Neema hataki kula", "Neema amekataa majani", "Neema hana hamu ya chakula", "Neema hali tangu jana",
        "Neema halisi majani", "Neema hajagusa majani", "Neema ameacha kula", "Neema hali wala hanywi",
        "Neema anakula kidogo sana", "Neema hatafuni", "Neema hacheui", "Neema ameacha kucheua",
        "Neema is not eating", "Neema left her feed", "Neema is off her feed",
        "Neema does not touch her food", "Neema refuses grass", "Neema barely eating",
        "Neema eats very little", "Neema stopped chewing cud", "Neema not chewing the cud",
        "Neema hatafuni vizuri", "Neema hataki majani wala pumba", "Kito hanyonyi", "Neema won't eat",
        "Neema no appetite since yesterday", "Neema has lost appetite",
    ),
    "fever": (
        "Neema ana homa", "Neema mwili unachemka", "Neema anatetemeka ana homa", "Neema has a fever",
        "Neema is feverish", "Neema body is very hot", "Neema joto la mwili liko juu",
        "Neema temperature 40.5", "Neema nyuzi 41", "Neema ana homa kali", "Neema mwili umechemka",
        "Neema mwili wa moto", "Neema running a fever", "Neema is burning hot", "Neema ana joto la homa",
    ),
    "cough": (
        "Neema anakohoa", "Neema ana kikohozi", "Neema is coughing", "Neema has a cough",
        "Neema anakohoa sana usiku", "Neema coughs a lot", "Neema kikohozi kikavu",
    ),
    "froth": (
        "Neema anatoa povu", "Neema povu linamtoka mdomoni", "Neema has foam at mouth", "Neema frothing",
        "Neema mapovu puani", "Neema anatokwa na mapovu", "Neema foam coming from nose",
    ),
    "swollen_nodes": (
        "Neema tezi zimevimba", "Neema amevimba tezi", "Neema ana uvimbe shingoni",
        "Neema tezi za shingo zimevimba", "Neema glands are swollen", "Neema swollen lymph nodes",
        "Neema mitoki", "Neema matezi yamevimba chini ya masikio", "Neema has swelling below the ear",
        "Neema lymph glands swollen",
    ),
    "milk_drop": (
        "Neema maziwa yamepungua", "Neema amepunguza maziwa", "Neema maziwa yameshuka",
        "Neema milk has dropped", "Neema giving less milk", "Neema anatoa maziwa kidogo kuliko kawaida",
        "Neema milk gone down", "Neema milk yield is down",
    ),
    "diarrhoea": (
        "Neema anahara", "Neema anaharisha", "Neema tumbo linamsumbua anahara", "Neema ana kuhara",
        "Neema anaendesha", "Neema kinyesi cha maji", "Neema anaharisha damu", "Neema has diarrhoea",
        "Neema is scouring", "Neema running stomach", "Neema watery dung", "Neema ana tumbo la kuhara",
        "Neema choo laini", "Neema kinyesi kama maji", "Neema anapata choo cha maji", "Neema loose stool",
        "Neema dung like water", "Neema mavi majimaji",
    ),
    "bloat": (
        "Neema tumbo limejaa gesi", "Neema tumbo limevimba", "Neema amevimbiwa", "Neema amevimba tumbo",
        "Neema is bloated", "Neema stomach swollen", "Neema tumbo kubwa upande wa kushoto",
        "Neema left side is swollen", "Neema tumbo limejaa upepo", "Neema amejaa gesi",
        "Neema tumbo gumu kama ngoma", "Neema belly like a drum", "Neema ubavu wa kushoto umevimba",
    ),
    "lame": (
        "Neema anachechemea", "Neema anavuta mguu", "Neema mguu unamuuma", "Neema hatembei vizuri",
        "Neema is limping", "Neema is lame", "Neema lame on hind leg", "Neema kwato zinauma",
        "Neema hawezi kukanyaga", "Neema amevunjika mguu", "Neema mguu umevimba",
        "Neema cannot put weight on her leg", "Neema anatembea kwa taabu", "Neema kwato imeoza",
        "Neema goti limevimba", "Neema hind leg is swollen", "Neema walks with a limp", "Neema anadokoa",
    ),
    "udder_hard": (
        "Neema kiwele kimevimba", "Neema kiwele kigumu", "Neema ana mastitis", "Neema kiwele kina moto",
        "Neema has mastitis", "Neema udder is hard and hot", "Neema one quarter is hard",
        "Neema chuchu moja imevimba", "Neema kiwele kinauma", "Neema chuchu imeziba",
        "Neema matiti yamevimba", "Neema swollen udder", "Neema kiwele chekundu",
        "Neema robo moja ya kiwele ni ngumu", "Neema her udder is painful", "Neema ugonjwa wa kiwele",
        "Neema kiwele kimekuwa kigumu",
    ),
    "udder_clots": (
        "Neema maziwa yana mabonge", "Neema maziwa yameganda", "Neema maziwa yana damu",
        "Neema maziwa yana usaha", "Neema milk has clots", "Neema clots in her milk", "Neema blood in milk",
        "Neema watery milk", "Neema maziwa ya majimaji", "Neema maziwa kama maji",
        "Neema maziwa yana vipande", "Neema milk is like water", "Neema flakes in milk",
        "Neema maziwa yanatoka na damu", "Neema maziwa mekundu", "Neema pus in the milk",
        "Neema maziwa yamebadilika rangi",
    ),
    "down": (
        "Neema hawezi kusimama", "Neema amelala chini hainuki", "Neema ameanguka", "Neema hainuki",
        "Neema is down", "Neema cannot stand", "Neema can't get up", "Neema ameshindwa kuamka",
        "Neema has collapsed", "Neema amelala hawezi kuamka", "Neema won't get up",
        "Neema is lying down and cannot rise", "Neema hasimami", "Neema ameanguka hawezi kuinuka",
    ),
    "staggering": (
        "Neema anayumba", "Neema anapepesuka", "Neema is staggering", "Neema anatembea akiyumba",
        "Neema wobbling", "Neema walks like drunk", "Neema anatembea kama mlevi",
        "Neema anazunguka zunguka hovyo", "Neema is walking in circles", "Neema anapoteza mwelekeo",
        "Neema loses balance",
    ),
    "bleeding": (
        "Neema anatoka damu puani", "Neema anavuja damu mguuni", "Neema is bleeding from the nose",
        "Neema damu inatoka kwenye jeraha", "Neema horn is bleeding",
    ),
    "afterbirth": (
        "Neema kondo halijatoka", "Neema hajatoa kondo la nyuma", "Neema zalio halijatoka",
        "Neema afterbirth not out", "Neema retained placenta", "Neema placenta has not come out",
        "Neema kondo limening'inia", "Neema afterbirth still hanging", "Neema has not cleansed",
        "Neema kondo la nyuma limebaki", "Neema kondo bado",
    ),
    "rough_coat": (
        "Neema manyoya yamesimama", "Neema manyoya hayalali", "Neema rough coat", "Neema hair standing",
        "Neema manyoya yamepoteza mng'ao", "Neema manyoya yanasimama", "Neema coat is dull",
        "Neema nywele zimesimama",
    ),
    "weak": (
        "Neema amekonda", "Neema ni dhaifu", "Neema hana nguvu", "Neema mnyonge", "Neema is weak",
        "Neema is thin", "Neema losing weight", "Neema amedhoofika", "Neema amelegea",
        "Neema amenyong'onyea", "Neema is dull", "Neema looks tired", "Neema amechoka sana",
        "Neema anapungua mwili", "Neema anapungua uzito", "Neema has lost weight", "Neema has no strength",
        "Neema kadhoofu", "Neema amekondeana",
    ),
    "ticks": (
        "Neema ana kupe wengi", "Neema amejaa kupe", "Neema has many ticks", "Neema full of ticks",
        "Neema kupe wamemjaa", "Neema kupe masikioni",
    ),
    "red_urine": (
        "Neema mkojo mwekundu", "Neema anakojoa damu", "Neema red urine", "Neema blood in urine",
        "Neema mkojo kama damu", "Neema mkojo wa kahawia", "Neema urine is like coffee",
        "Neema mkojo mweusi", "Neema mkojo kama chai", "Neema passing red urine",
        "Neema mkojo una rangi nyekundu",
    ),
    "hard_dung": (
        "Neema kinyesi kigumu", "Neema amefunga choo", "Neema hapati choo", "Neema constipated",
        "Neema dung is hard", "Neema hanyi", "Neema hard dung", "Neema mavi magumu", "Neema kinyesi kikavu",
        "Neema not passing dung", "Neema choo kigumu",
    ),
    "mouth_sores": (
        "Neema ana vidonda mdomoni", "Neema vidonda kwenye ulimi", "Neema malengelenge mdomoni",
        "Neema mouth sores", "Neema blisters in mouth", "Neema sores on tongue", "Neema mdomo una vidonda",
        "Neema vidonda kinywani na miguuni", "Neema wounds in the mouth", "Neema ulimi una malengelenge",
    ),
    "drooling": (
        "Neema anatoa mate mengi", "Neema anatokwa na mate", "Neema udenda unamtoka", "Neema drooling",
        "Neema is salivating a lot", "Neema mate yanamtoka", "Neema anadondosha mate",
        "Neema saliva dripping", "Neema mate yanatiririka",
    ),
    "skin_lumps": (
        "Neema ana vinundu mwilini", "Neema mapele mwili mzima", "Neema ana uvimbe kwenye ngozi",
        "Neema lumps on the skin", "Neema lumps all over her body", "Neema nodules",
        "Neema ngozi ina mabonge", "Neema amepata vinundu", "Neema has bumps on her skin",
        "Neema ana manundu mwilini", "Neema mapele mwilini", "Neema ana upele",
    ),
    "hard_breathing": (
        "Neema anahema kwa shida", "Neema anapumua kwa shida", "Neema anahema haraka",
        "Neema breathing hard", "Neema difficulty breathing", "Neema is panting", "Neema anahema juu juu",
        "Neema pumzi inamsumbua", "Neema anakosa pumzi", "Neema breathing fast",
        "Neema struggles to breathe", "Neema anatweta", "Neema anapumua haraka haraka",
        "Neema hapumui vizuri",
    ),
    "cloudy_eye": (
        "Neema jicho jeupe", "Neema jicho lina ukungu", "Neema macho yana ukungu", "Neema cloudy eye",
        "Neema eye is white", "Neema jicho limekuwa jeupe", "Neema macho yanatoa machozi",
        "Neema anatokwa machozi", "Neema has a blue eye", "Neema jicho linatoa machozi",
        "Neema watery eyes", "Neema jicho limeumia", "Neema jicho limevimba", "Neema haoni",
    ),
    "prolapse": (
        "Neema kizazi kimetoka nje", "Neema mfuko wa uzazi umetoka", "Neema womb is out", "Neema prolapse",
        "Neema uterus came out", "Neema ametoa kizazi", "Neema uke umetoka nje",
        "Neema utumbo umetoka nje nyuma", "Neema her womb came out after calving",
        "Neema kizazi kimechomoka",
    ),
    "cold_ears": (
        "Neema masikio ya baridi", "Neema masikio baridi", "Neema cold ears", "Neema ears are cold",
        "Neema masikio yamepoa", "Neema ears feel cold", "Neema mwili wa baridi masikio baridi",
    ),
    "swollen_jaw": (
        "Neema taya limevimba", "Neema uvimbe chini ya taya", "Neema swollen jaw", "Neema bottle jaw",
        "Neema amevimba taya", "Neema amevimba chini ya kidevu", "Neema swelling under the jaw",
        "Neema kidevu kimevimba", "Neema jaw is swollen", "Neema shavu limevimba",
    ),
    "wild": (
        "Neema amekuwa mkali", "Neema amekuwa kichaa", "Neema anashambulia watu", "Neema is aggressive",
        "Neema gone mad", "Neema anarukia watu", "Neema is attacking people", "Neema anakimbia hovyo",
        "Neema acting crazy", "Neema behaves strangely", "Neema amechanganyikiwa",
    ),
}  # fmt: skip

TOLD = [(sign, text) for sign, texts in SAID.items() for text in texts]


@pytest.mark.parametrize(("sign", "text"), TOLD, ids=[text for _, text in TOLD])
def test_a_sign_is_heard_first(sign: str, text: str) -> None:
    read = entry(text)
    assert (read["kind"], read["signs"][0]) == ("illness", sign)


def test_every_sign_that_is_seen_has_words() -> None:
    told_otherwise = {"abortion", "sudden_death"}  # kinds of their own: abortion, death
    assert set(SAID) == set(ILLNESS_SIGNS) - told_otherwise


@pytest.mark.parametrize(
    "text",
    [
        "Neema ana homa",
        "Neema has fever",
        "Neema nyuzi 41",
        "Neema mwili unachemka",
        "Neema ana joto la homa",
    ],
)
def test_a_fever_word_is_never_heat(text: str) -> None:
    assert entry(text)["kind"] == "illness"


@pytest.mark.parametrize(
    "text",
    [
        "Neema hana homa",
        "Neema hakohoi",
        "Neema anakula vizuri",
        "Neema has no fever",
        "Neema is not limping",
        "mtoto wangu ana homa",
        "nina homa",
        "Neema anakohoa?",
        "Neema hatoi povu",
        "Neema haharishi",
    ],
)
def test_signs_denied_of_people_or_asked_about_are_no_record(text: str) -> None:
    assert all(told["kind"] == "ask" for told in entries(text))


WELL = [
    "Neema amepona", "Neema amepata nafuu kabisa", "Neema is well again", "Neema has recovered",
    "Neema is better now", "Neema is eating again", "Neema hajambo sasa", "Neema ana nafuu",
    "Neema haumwi tena", "Neema alikuwa mgonjwa lakini sasa amepona", "Neema was sick but has recovered",
    "Neema alikuwa anakohoa, sasa yuko mzima", "Neema amepona anakula vizuri", "Neema is back to normal",
    "Neema yuko sawa sasa", "Neema is cured", "Neema amerudia hali yake ya kawaida", "Neema si mgonjwa tena",
]  # fmt: skip


@pytest.mark.parametrize("text", WELL)
def test_an_animal_that_is_well_again(text: str) -> None:
    assert entry(text) == {"kind": "recovery", "animal": "Neema", "on": "2026-03-02"}


def test_several_recover_and_one_on_a_day_told() -> None:
    assert [told["animal"] for told in entries("Neema na Zawadi wamepona")] == ["Neema", "Zawadi"]
    assert entry("Neema recovered yesterday")["on"] == "2026-03-01"
    treated, well = entries("Neema alitibiwa penicillin amepona")
    assert (treated["kind"], treated["product"], well["kind"]) == ("treatment", "penicillin", "recovery")


@pytest.mark.parametrize(
    "text",
    [
        "Neema hajapona",
        "Neema bado hajapona",
        "Neema amepata nafuu kidogo",
        "Neema is a bit better",
        "natumaini Neema atapona",
        "I hope Neema recovers",
        "mtoto wangu amepona",
        "Neema angepona",
        "Neema is better than Tausi",
        "labda Neema amepona",
        "nimepona",
        "nasikia Neema amepona",
    ],
)
def test_not_yet_well_hoped_or_heard_is_no_recovery(text: str) -> None:
    assert reading(text).entries == ()


def test_a_question_whether_she_is_well_asks_about_her() -> None:
    assert entry("Neema amepona?") == {"kind": "ask", "topic": "animal", "animal": "Neema"}


def test_a_cheap_price_is_no_recovery() -> None:
    assert entry("nimenunua pumba za bei nafuu 20000")["kind"] == "expense"
