"""The standard's names: of namespaces, of kinds of resource, and identifiers made from the bank's ids.

Source: 1EdTech, QTI v3.0 Assessment, Section and Item Information Model and its XSD binding, and its profile of IMS
Content Packaging 1.2 (2022).
"""

ITEM = "http://www.imsglobal.org/xsd/imsqtiasi_v3p0"
MANIFEST = "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1"
SCHEMA, VERSION = "QTI Package", "3.0.0"
ITEM_TYPE, FILE_TYPE = "imsqti_item_xmlv3p0", "webcontent"
MANIFEST_FILE = "imsmanifest.xml"
ROOT = "qti-assessment-item"

FACTS = "data-bank-question"  # what the standard has no place for, as canonical JSON
SCENARIO = "data-bank-scenario"
FIGURE = "data-bank-figure"  # the name of a figure that a sum gives
SHOWS = "data-bank-misconception"
PLACE = "data-bank-place"
DRILL = "data-bank-drill"
PART = "data-bank-part"  # marks what the export adds around a question's own words
WHY = "why"
PARTNER = "with."  # before the identifier of a partner in a match


def identifier(ident: str) -> str:
    """Return an id as an identifier of the standard: a letter or ``_`` first, no slash."""
    name = ident.replace("/", ".")
    return name if name[:1].isalpha() else f"_{name}"


def ident(name: str) -> str:
    """Return the id that an identifier was made from."""
    return name.removeprefix("_").replace(".", "/")


def item_name(item: str, language: str) -> str:
    """Return the identifier of an item of the bank in one language."""
    return f"{identifier(item)}.{language}"
