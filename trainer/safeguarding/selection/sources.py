"""The documents that the selection rules rest on, and how each was read.

The purchased standards (ANSI B11.3, EN 12622) were not read; what is believed of them is marked *from memory*.
"""

from trainer.safeguarding.result import Citation, Read


def _letter(date: str, item: str = "") -> Citation:
    day, month, year = date.split()
    clause = f"{day} {month}, {item}" if item else f"{day} {month}"
    return Citation(document="OSHA letter of interpretation", clause=clause, year=year)


def _state(document: str, clause: str = "") -> Citation:
    return Citation(document=document, clause=clause, read=Read.STATE)


def _second(document: str, clause: str = "", year: str = "") -> Citation:
    return Citation(document=document, clause=clause, year=year, read=Read.SECOND_HAND)


def _memory(document: str, clause: str = "") -> Citation:
    return Citation(document=document, clause=clause, read=Read.MEMORY)


def _dguv(number: str, clause: str, year: str) -> Citation:
    return Citation(document=f"DGUV Information {number}", clause=clause, year=year)


PRACTICE = Citation(document="Common practice", read=Read.PRACTICE)
JUDGEMENT = Citation(document="Judgement, no text was found that settles it", read=Read.PRACTICE)

# United States, federal
CFR_212_A1 = _second("29 CFR 1910.212", "(a)(1)")
CFR_212_TOOLS = _memory("29 CFR 1910.212", "(a)(3)(iii)")
CFR_217_B13 = _second("29 CFR 1910.217", "(b)(13), as a model")
CFR_217_FAULT = Citation(document="OSHA eTool on 29 CFR 1910.217", clause="(c)(3)(iii)(c), as a model")
CFR_217_CLUTCH = Citation(document="OSHA eTool on 29 CFR 1910.217", clause="(c)(3)(iii)(a), as a model")
CFR_217_TRIP_BY_FIELD = _second("29 CFR 1910.217", "(c)(3)(iii)(b), as a model")
CFR_217_DISTANCE = _state("29 CFR 1910.217", "(c)(3)(iii)(e), as a model")
CFR_217_PULL_OUT = _second("29 CFR 1910.217", "(c)(3)(iv), as a model")
CFR_217_TWO_HAND = _state("29 CFR 1910.217", "(c)(3)(vii) and (viii), as a model")
CFR_217_EACH_OPERATOR = _state("29 CFR 1910.217", "(c)(3)(vii), as a model")
TABLE_O_10 = _state("29 CFR 1910.217", "Table O-10")
CPL_A = Citation(document="OSHA CPL 02-01-025", clause="A", year="1997")
CPL_D1 = Citation(document="OSHA CPL 02-01-025", clause="D.1", year="1997")
CPL_SUMMARY = _second("OSHA CPL 02-01-025, in a trade association's summary")
LETTER_1975 = _letter("17 Jul 1975")
LETTER_1976 = _letter("10 Nov 1976")
LETTER_1980_FORMULA = _letter("18 Dec 1980", "item 3")
LETTER_1980_MONITOR = _letter("18 Dec 1980", "item 5")
LETTER_1980_MUTING = _letter("18 Dec 1980", "items 6 and 7")
LETTER_1981 = _letter("9 Jun 1981")
LETTER_1991 = _letter("7 Nov 1991", "1/4 in stands in the question")
LETTER_1998_OPENINGS = _letter("22 Jan 1998")
LETTER_1998_WALK_IN = _letter("23 Dec 1998")
LETTER_2004_LASER = _letter("25 Mar 2004", "archived, hydraulic brakes only")
LETTER_2012_JAN = _letter("23 Jan 2012")
LETTER_2012_AUG = _letter("22 Aug 2012")
ACCIDENT_PEDAL = Citation(document="OSHA accident summaries", clause="887885 and 200963221")
ACCIDENT_CURTAIN_OFF = Citation(document="OSHA accident summary", clause="200963221")
OSHA_3067 = _memory("OSHA 3067")

# United States, State plans
WAC_20046 = _state("WAC 296-806-20046", "(2)")
WAC_20052 = _state("WAC 296-806-20052")
WAC_20054 = _state("WAC 296-806-20054", "(2)")
WAC_45516 = _state("WAC 296-806-45516", "(4)")
WAC_45520 = _state("WAC 296-806-45520")
WAC_46502 = _state("WAC 296-806-46502")
WAC_46504 = _state("WAC 296-806-46504")
WAC_46514 = _state("WAC 296-806-46514 and -46516")
CCR_PULL_OUT = _state("8 CCR 4214", "(b)(3)")
CCR_RESTRAINT = _state("8 CCR 4214", "(b)(2)")
CCR_DISTANCE = _state("8 CCR 4214", "(b)(9)")
MICHIGAN_GATE = _state("Michigan R 408.12463", "gate type A")
MICHIGAN_TOOLS = _state("Michigan R 408.10034", "(4)")
MICHIGAN_4_IN = _state("Michigan R 408.10034", "(5)")

# American standards
B11_3_GAP = _memory("ANSI B11.3", "1/4 in")
B11_19_RANGE = _second("ANSI B11.19", "range of the depth formula", "2003")

# International
DGUV_008_10 = _dguv("209-008", "10.2", "2010")
DGUV_008_11 = _dguv("209-008", "section 11", "2010")
DGUV_008_13 = _second("ISO 13851", "type III, by way of DGUV Information 209-008 section 13")
DGUV_008_14_1 = _dguv("209-008", "14.1", "2010")
DGUV_008_14_2 = _dguv("209-008", "14.2", "2010")
DGUV_008_16 = _dguv("209-008", "section 16, Table 9", "2022")
DGUV_008_19 = _dguv("209-008", "19.2", "2022")
DGUV_008_20_1 = _dguv("209-008", "20.1", "2022")
DGUV_008_20_2 = _dguv("209-008", "20.2", "2022")
DGUV_008_20_4 = _dguv("209-008", "20.4", "2022")
DGUV_008_21 = _dguv("209-008", "21.2", "2022")
DGUV_030_GAP = _dguv("209-030", "section 2", "2014")
DGUV_030_4 = _dguv("209-030", "Annex 4", "2014")
DGUV_030_4_PART = _dguv("209-030", "Annex 4, list seen in part", "2014")
DGUV_030_7 = _dguv("209-030", "Annex 7", "2014")
DGUV_030_9 = _dguv("209-030", "Annex 9", "2014")
BGHM_001 = Citation(document="BGHM Arbeitsschutz Kompakt 001")
INRS_879 = _second("INRS ED 879", "preface", "2005")
PUWER_33 = Citation(document="PUWER 1998", clause="reg. 33", year="1998")
ISO_12100 = _second("ISO 12100", "step 3")
ISO_13855_5 = _second("ISO 13855", "5", "2010")
ISO_13855_6 = _second("ISO 13855", "6.2", "2010")
ISO_13855_8 = _second("ISO 13855", "8", "2010")
ISO_13855_9 = _second("ISO 13855", "9", "2010")
ISO_13855_REACH = _second("ISO 13855", "arm reach of 850 mm, derived", "2010")
ISO_13857_4 = _second("ISO 13857", "Table 4")
ISO_14119 = _second("ISO 14119")
IEC_61496_1 = _second("IEC 61496-1", "by way of device manuals")
IEC_61496_2 = _second("IEC 61496-2", "reflection geometry, by way of a device manual")
EN_12622 = _memory("EN 12622")
COURT_2020 = _second("Work Health and Safety Queensland, prosecution", year="2020")

# Manuals, the trade press, the workshop
CURTAIN_MANUALS = _second("Light-curtain manuals")
LASER_MANUAL = _second("Manual of a press-brake laser guard, glossary", year="2020")
WEAR_MARGIN = _second("Device handbook, 20 % margin for wear")
TRADE_PRESS = _second("Trade press on light-based safeguards", year="2009")
TRADE_PRESS_15_MM = _second("Trade press, 15 mm at the laser")
KINEMATICS = Citation(document="Kinematics", clause="overrun = speed × time")
FILLED_WINDOW = _memory("Blanked window beside the object")
MEMORY_RISING_TABLE = _memory("Laser version for a rising table")
