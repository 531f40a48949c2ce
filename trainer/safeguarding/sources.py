"""The documents that the sums cite, each once, with how it was read."""

from trainer.safeguarding.result import Citation, Read

# United States
OSHA_CHART = Citation(document="OSHA Machine Guarding eTool, Presses", clause="Safety Distance")
CFR_217_PSD = Citation(document="29 CFR 1910.217", clause="(c)(3)(iii)(e)", read=Read.STATE)
WAC_PSD = Citation(document="WAC 296-806-45516", read=Read.STATE)
OSHA_LETTER_1980 = Citation(document="OSHA letter of interpretation", clause="18 Dec 1980, item 3", year="1980")
B11_19 = Citation(document="ANSI B11.19", clause="safety distance", year="2003", read=Read.SECOND_HAND)
B11_19_DPF = Citation(document="ANSI B11.19", clause="penetration depth factor", year="2003", read=Read.SECOND_HAND)
B11_19_COARSE = Citation(
    document="ANSI B11.19", clause="penetration from 2.5 in sensitivity", year="2003", read=Read.MEMORY
)
BLANKING = Citation(
    document="Light-curtain manuals", clause="effective resolution with blanked beams", read=Read.SECOND_HAND
)

# International
ISO_13855_6_2 = Citation(document="ISO 13855", clause="6.2", year="2010", read=Read.SECOND_HAND)
ISO_13855_6_5 = Citation(document="ISO 13855", clause="6.5, Table 1", year="2010", read=Read.SECOND_HAND)
DGUV_030_7 = Citation(document="DGUV Information 209-030", clause="Annex 7, Tables 12 to 14")
