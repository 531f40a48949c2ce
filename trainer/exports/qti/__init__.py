"""Questions in IMS QTI 3.0 (1EdTech, Question and Test Interoperability, 2022), out of the bank and back as drafts.

Both ways stand in one room so that they cannot drift apart. The element names are those of the standard's assessment
item and content packaging bindings; what the standard has no place for stands in its ``data-`` attributes.
"""
