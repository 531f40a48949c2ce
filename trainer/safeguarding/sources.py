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
ISO_13855_6_3 = Citation(document="ISO 13855", clause="6.3", year="2010", read=Read.SECOND_HAND)
ISO_13855_6_4 = Citation(document="ISO 13855", clause="6.4", year="2010", read=Read.SECOND_HAND)
ISO_13855_7 = Citation(document="ISO 13855", clause="7", year="2010", read=Read.SECOND_HAND)
ISO_13855_8 = Citation(document="ISO 13855", clause="8", year="2010", read=Read.SECOND_HAND)
ISO_13855_9 = Citation(document="ISO 13855", clause="9", year="2010", read=Read.SECOND_HAND)
ISO_13855_D = Citation(document="ISO 13855", clause="Annex D", year="2010", read=Read.MEMORY)
ISO_13855_BEAMS = Citation(document="ISO 13855", clause="multi-beam safeguards", year="2010", read=Read.SECOND_HAND)
ISO_13857_LOW = Citation(document="ISO 13857", clause="Table 1", read=Read.SECOND_HAND)
ISO_13857_HIGH = Citation(document="ISO 13857", clause="Table 2", read=Read.SECOND_HAND)
ISO_13857_HIGH_MEMORY = Citation(document="ISO 13857", clause="Table 2", read=Read.MEMORY)
ISO_13857_OPENINGS = Citation(document="ISO 13857", clause="Table 4", read=Read.SECOND_HAND)
ISO_13854 = Citation(document="ISO 13854", clause="minimum gaps", year="2019", read=Read.SECOND_HAND)
ISO_14119 = Citation(document="ISO 14119", clause="access time", read=Read.SECOND_HAND)
DGUV_030_2 = Citation(document="DGUV Information 209-030", clause="section 2", year="2014")
DGUV_030_9 = Citation(document="DGUV Information 209-030", clause="Annex 9", year="2014")
DGUV_008_16 = Citation(document="DGUV Information 209-008", clause="section 16, Table 9", year="2022")
DGUV_008_21 = Citation(document="DGUV Information 209-008", clause="section 21.2", year="2022")

# United States, again
CFR_217_TWO_HAND = Citation(document="29 CFR 1910.217", clause="(c)(3)(vii)(c)", read=Read.SECOND_HAND)
OSHA_LETTER_1975 = Citation(document="OSHA letter of interpretation", clause="17 Jul 1975", year="1975")
CFR_217_TRIP = Citation(document="29 CFR 1910.217", clause="(c)(3)(viii)(c)", read=Read.STATE)
OSHA_ETOOL = Citation(document="OSHA Machine Guarding eTool, Presses", clause="two-hand trip")
WAC_TRIP = Citation(document="WAC 296-806-45524", read=Read.STATE)
CFR_217_H9 = Citation(document="29 CFR 1910.217", clause="(h)(9)(v)", read=Read.SECOND_HAND)
CFR_217_H9_TERMS = Citation(document="29 CFR 1910.217", clause="(h)(9)(v), definitions of the terms", read=Read.MEMORY)
CFR_217_H5 = Citation(document="29 CFR 1910.217", clause="(h)(5)(iii)", read=Read.SECOND_HAND)
NOT_VALIDATED = Citation(document="72 FR 30729", year="2007")
O_10 = Citation(document="29 CFR 1910.217", clause="Table O-10", read=Read.STATE)
O_10_BEYOND = Citation(document="29 CFR 1910.217", clause="practice beyond Table O-10", read=Read.MEMORY)
OSHA_LETTER_1998 = Citation(document="OSHA letter of interpretation", clause="22 Jan 1998", year="1998")
B11_19_TWO_HAND = Citation(
    document="ANSI B11.19", clause="safety distance, no penetration term", year="2003", read=Read.MEMORY
)
CPL_02_01_025 = Citation(document="OSHA CPL 02-01-025", clause="safe distance", year="1997", read=Read.SECOND_HAND)
PLAIN_PHYSICS = Citation(document="Kinematics", clause="distance = speed × time")
COMMON_PRACTICE = Citation(document="Shop formula for air bending", read=Read.PRACTICE)
HAZARD_RATING = Citation(document="Hazard ratings of a CE manual", clause="scale 1", read=Read.SECOND_HAND)
MAT_MANUAL = Citation(document="Pressure-mat manual", clause="stopping-time measurement", read=Read.SECOND_HAND)
