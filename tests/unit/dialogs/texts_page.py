"""
The reference page of all outgoing texts, from the catalogues.

Write it anew with ``python -m tests.unit.dialogs.texts_page``.
"""

from __future__ import annotations

from pathlib import Path

from babel.messages.pofile import read_po

import dialogs

ROOT = Path(dialogs.__file__).parent
PAGE = ROOT.parent / "docs" / "reference" / "texts.md"
HEAD = """# Texts that go out

Every sentence Byreline writes, as it stands in `dialogs/locale`.
`{name}` and the like are filled in; a part in `<1:...>` is left out first where a text does not fit
into one segment, then `<2:...>` and so on.
This page is generated: change the catalogues, then run `python -m tests.unit.dialogs.texts_page`.

| text | who sees it and when | Kiswahili | English |
| --- | --- | --- | --- |
"""


def page() -> str:
    """The page as it should be."""
    catalogues = []
    for language in ("sw", "en"):
        with (ROOT / "locale" / language / "LC_MESSAGES" / "byreline.po").open("rb") as file:
            catalogues.append({str(m.id): m for m in read_po(file, locale=language) if m.id})
    sw, en = catalogues
    rows = (
        f"| `{key}` | {' '.join(message.auto_comments)} | {message.string} | {en[key].string} |"
        for key, message in sw.items()
    )
    return HEAD + "\n".join(row.replace("<", "&lt;") for row in rows) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page())
