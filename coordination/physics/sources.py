"""Where the equations and constants of physics come from, as sources for derivation steps.

The docstring of each function names the same source in words; a test holds the two together.
"""

from __future__ import annotations

from coordination.trace import COMMON_PRACTICE, Source

OHM = Source("Ohm's law")
KIRCHHOFF = Source("Kirchhoff's laws")
CONSERVATION = Source("conservation of energy")
RC_CIRCUIT = Source("differential equation of an RC circuit")
PEUKERT = Source("W. Peukert, Elektrotechnische Zeitschrift 20 (1897)", "p. 287", read=False)

AWG_SYSTEM = Source("ASTM B258", "definition of the gauge numbers", read=False)
COPPER_RESISTIVITY = Source("NBS Handbook 100 (1966)", "annealed copper at 20 °C")
COPPER_TEMPERATURE_LAW = Source("IEC 60228:2004", "Annex B, exact formula", read=False)
CLASS_LIMIT = Source("IEC 60228:2004", "Tables 1 to 4", read=False)
CLASS_LIMIT_READ = Source("IEC 60228:2004", "Table A.2")
NOMINAL_PLUS_4 = COMMON_PRACTICE
TWO_WIRE_INDUCTANCE = Source(
    "inductance of two round wires", "external part read, internal part 1/4", read=False
)
RL_CIRCUIT = Source("differential equation of an RL circuit")
BATTERY_BAND = COMMON_PRACTICE
BATTERY_IEC = Source("IEC 61660-1:1997", "clause 2.4", read=False)
LOAD_TEMPERATURE = Source("BS 7671:2008", "Appendix 4, section 6", read=False)
HEAT_BALANCE = Source(
    "IEC 60287-1-1:2006 and IEC 60287-2-1:2015", "1.4; Table 2", read=False
)
ADIABATIC_FACTOR = Source("IEC 60364-5-54:2011", "Annex A")
ADIABATIC_LIMIT = Source("IEC 60364-4-43:2008", "434.5.2", read=False)
ADIABATIC_HEATING = Source("IEC 60949:1988", "clause 3")
ICEA_WITHSTAND = Source("NFPA 70 (NEC) 2023", "Table 240.92(B), as ICEA P-32-382")
BAR_EMPIRICAL = Source("CDA Publication 22", "section 10, formula 4")
BAR_RISE = Source("CDA Publication 22", "rise exponent", read=False)
