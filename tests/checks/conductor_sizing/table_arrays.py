"""The tables of the code that the tests hand in, as arrays; quoted from NEC 2023 (NFPA 70).

Each list says which table it is. Standing: secondary, transcriptions compared with each other.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.ac_resistance import ac_resistance, from_smaller
from service.checks.conductor_sizing.circuit_lanes import CodeTables
from service.checks.conductor_sizing.equipment_ground import GroundTable
from service.checks.conductor_sizing.segment_factors import Factors

Floats = NDArray[np.float64]
NAN: Final = float("nan")
ZERO_CELSIUS: Final = 273.15
IN: Final = 0.0254
IN2: Final = IN**2
PER_KFT: Final = 1 / 304.8
CU, AL = 0, 1
PVC, ALUMINUM_CONDUIT, STEEL = 0, 1, 2
EMT, PVC40, PVC80, RMC, LFMC = range(5)

#: By size, AWG and kcmil: area [cmil] and ampacity at 60, 75, 90 degC of copper and aluminum [A],
#: Table 310.16; largest device of both [A], 240.4(D); diameter [in] and area [in2] over the
#: insulation of THHN/THWN-2, Chapter 9, Table 5.
BY_SIZE: Final = """
  14    4110  15  20  25   -   -   -  15   - 0.111 0.0097
  12    6530  20  25  30  15  20  25  20  15 0.130 0.0133
  10   10380  30  35  40  25  30  35  30  25 0.164 0.0211
   8   16510  40  50  55  35  40  45 inf inf 0.216 0.0366
   6   26240  55  65  75  40  50  55 inf inf 0.254 0.0507
   4   41740  70  85  95  55  65  75 inf inf 0.324 0.0824
   3   52620  85 100 115  65  75  85 inf inf 0.352 0.0973
   2   66360  95 115 130  75  90 100 inf inf 0.384 0.1158
   1   83690 110 130 145  85 100 115 inf inf 0.446 0.1562
 1/0  105600 125 150 170 100 120 135 inf inf 0.486 0.1855
 2/0  133100 145 175 195 115 135 150 inf inf 0.532 0.2223
 3/0  167800 165 200 225 130 155 175 inf inf 0.584 0.2679
 4/0  211600 195 230 260 150 180 205 inf inf 0.642 0.3237
 250  250000 215 255 290 170 205 230 inf inf 0.711 0.3970
 300  300000 240 285 320 195 230 260 inf inf 0.766 0.4608
 350  350000 260 310 350 210 250 280 inf inf 0.817 0.5242
 400  400000 280 335 380 225 270 305 inf inf 0.864 0.5863
 500  500000 320 380 430 260 310 350 inf inf 0.949 0.7073
 600  600000 350 420 475 285 340 385 inf inf 1.051 0.8676
 700  700000 385 460 520 315 375 425 inf inf 1.122 0.9887
 750  750000 400 475 535 320 385 435 inf inf 1.156 1.0496
 800  800000 410 490 555 330 395 445 inf inf 1.188 1.1085
 900  900000 435 520 585 355 425 480 inf inf 1.252 1.2311
1000 1000000 455 545 615 375 445 500 inf inf 1.310 1.3478
1250 1250000 495 590 665 405 485 545 inf inf     -      -
1500 1500000 525 625 705 435 520 585 inf inf     -      -
1750 1750000 545 650 735 455 545 615 inf inf     -      -
2000 2000000 555 665 750 470 560 630 inf inf     -      -
"""
#: By size: direct-current resistance of copper and aluminum, stranded, Chapter 9, Table 8;
#: reactance in PVC or aluminum and in steel conduit, resistance of copper, then of aluminum, in
#: PVC, aluminum and steel conduit, Chapter 9, Table 9 [ohm/kft].
IMPEDANCE: Final = """
  14    3.14   5.17 0.058 0.073   3.1   3.1   3.1     -     -     -
  12    1.98   3.25 0.054 0.068   2.0   2.0   2.0   3.2   3.2   3.2
  10    1.24   2.04 0.050 0.063   1.2   1.2   1.2   2.0   2.0   2.0
   8   0.778   1.28 0.052 0.065  0.78  0.78  0.78   1.3   1.3   1.3
   6   0.491  0.808 0.051 0.064  0.49  0.49  0.49  0.81  0.81  0.81
   4   0.308  0.508 0.048 0.060  0.31  0.31  0.31  0.51  0.51  0.51
   3   0.245  0.403 0.047 0.059  0.25  0.25  0.25  0.40  0.41  0.40
   2   0.194  0.319 0.045 0.057  0.19  0.20  0.20  0.32  0.32  0.32
   1   0.154  0.253 0.046 0.057  0.15  0.16  0.16  0.25  0.26  0.25
 1/0   0.122  0.201 0.044 0.055  0.12  0.13  0.12  0.20  0.21  0.20
 2/0  0.0967  0.159 0.043 0.054  0.10  0.10  0.10  0.16  0.16  0.16
 3/0  0.0766  0.126 0.042 0.052 0.077 0.082 0.079  0.13  0.13  0.13
 4/0  0.0608  0.100 0.041 0.051 0.062 0.067 0.063  0.10  0.11  0.10
 250  0.0515 0.0847 0.041 0.052 0.052 0.057 0.054 0.085 0.090 0.086
 300  0.0429 0.0707 0.041 0.051 0.044 0.049 0.045 0.071 0.076 0.072
 350  0.0367 0.0605 0.040 0.050 0.038 0.043 0.039 0.061 0.066 0.063
 400  0.0321 0.0529 0.040 0.049 0.033 0.038 0.035 0.054 0.059 0.055
 500  0.0258 0.0424 0.039 0.048 0.027 0.032 0.029 0.043 0.048 0.045
 600  0.0214 0.0353 0.039 0.048 0.023 0.028 0.025 0.036 0.041 0.038
 700  0.0184 0.0303     -     -     -     -     -     -     -     -
 750  0.0171 0.0282 0.038 0.048 0.019 0.024 0.021 0.029 0.034 0.031
 800  0.0161 0.0265     -     -     -     -     -     -     -     -
 900  0.0143 0.0235     -     -     -     -     -     -     -     -
1000  0.0129 0.0212 0.037 0.046 0.015 0.019 0.018 0.023 0.027 0.025
1250  0.0103 0.0169     -     -     -     -     -     -     -     -
1500 0.00858 0.0141     -     -     -     -     -     -     -     -
1750 0.00735 0.0121     -     -     -     -     -     -     -     -
2000 0.00643 0.0106     -     -     -     -     -     -     -     -
"""
#: Upper end of the band [degC], factor for 60, 75, 90 degC; Table 310.15(B)(1)(1).
AMBIENT: Final = """
10 1.29 1.20 1.15
15 1.22 1.15 1.12
20 1.15 1.11 1.08
25 1.08 1.05 1.04
30 1.00 1.00 1.00
35 0.91 0.94 0.96
40 0.82 0.88 0.91
45 0.71 0.82 0.87
50 0.58 0.75 0.82
55 0.41 0.67 0.76
60    - 0.58 0.71
65    - 0.47 0.65
70    - 0.33 0.58
75    -    - 0.50
80    -    - 0.41
85    -    - 0.29
"""
#: Upper end of the band and factor; Table 310.15(C)(1).
COUNTED: Final = """
  3  1.0
  6  0.8
  9  0.7
 20  0.5
 30 0.45
 40  0.4
inf 0.35
"""
#: Rating not exceeded [A], copper and aluminum equipment ground [cmil]; Table 250.122.
GROUND: Final = """
  15   4110    6530
  20   6530   10380
  60  10380   16510
 100  16510   26240
 200  26240   41740
 300  41740   66360
 400  52620   83690
 500  66360  105600
 600  83690  133100
 800 105600  167800
1000 133100  211600
1200 167800  250000
1600 211600  350000
2000 250000  400000
2500 350000  600000
3000 400000  600000
4000 500000  750000
5000 700000 1250000
6000 800000 1250000
"""
#: Trade size, inside diameter of EMT [in], inside area of the kinds [in2]; Chapter 9, Table 4.
CONDUIT: Final = """
  1/2 0.622  0.304  0.285  0.217  0.314  0.314
  3/4 0.824  0.533  0.508  0.409  0.549  0.541
    1 1.049  0.864  0.832  0.688  0.887  0.873
1-1/4 1.380  1.496  1.453  1.237  1.526  1.528
1-1/2 1.610  2.036  1.986  1.711  2.071  1.981
    2 2.067  3.356  3.291  2.874  3.408  3.246
2-1/2 2.731  5.858  4.695  4.119  4.866  4.881
    3 3.356  8.846  7.268  6.442  7.499  7.475
3-1/2 3.834 11.545  9.737  8.688 10.010  9.731
    4 4.334 14.753 12.554 11.258 12.882 12.692
"""
RACEWAYS: Final = ("EMT", "PVC40", "PVC80", "RMC", "LFMC")
#: Standard overcurrent devices, without the ratings of fuses alone [A]; 240.6(A).
_RATINGS = """
10 15 20 25 30 35 40 45 50 60 70 80 90 100 110 125 150 175 200 225 250 300 350 400 450 500
600 700 800 1000 1200 1600 2000 2500 3000 4000 5000 6000
"""
RATINGS: Final = np.array([float(amps) for amps in _RATINGS.split()])
#: Share filled by one, two, more conductors, and in a nipple; Chapter 9, Table 1 and note 4.
FILL: Final = np.array([0.53, 0.31, 0.40, 0.60])
SIZES: Final = tuple(line.split()[0] for line in BY_SIZE.strip().splitlines())
TRADE_SIZES: Final = tuple(line.split()[0] for line in CONDUIT.strip().splitlines())
CMIL: Final = np.array([float(line.split()[1]) for line in BY_SIZE.strip().splitlines()])


def at(size: str) -> int:
    """Return the index of a size."""
    return SIZES.index(size)


def column(first: int, last: int, text: str = BY_SIZE) -> Floats:
    """Return columns of a text as rows, NaN for a dash."""
    cells = [line.split()[first : last + 1] for line in text.strip().splitlines()]
    return np.array([[NAN if c == "-" else float(c) for c in line] for line in cells]).T


def factors() -> Factors:
    """Return the tables of correction and adjustment."""
    ambient, counted = column(0, 3, AMBIENT), column(0, 1, COUNTED)
    return Factors(ambient[0] + ZERO_CELSIUS, ambient[1:].T, counted[0], counted[1])


def ground_table() -> GroundTable:
    """Return the equipment grounds, areas in circular mils."""
    rating, *area = column(0, 2, GROUND)
    return GroundTable(rating, np.array(area), ladder())


def ladder() -> Floats:
    """Return the areas of the sizes by material, NaN where there is none [cmil]."""
    area = np.array([CMIL, CMIL])
    area[np.isnan(ampacity()[:, 0])] = np.nan
    return area


def ampacity() -> Floats:
    """Return ampacity by material, column and size [A]."""
    return column(2, 7).reshape(2, 3, len(SIZES))


def resistance() -> Floats:
    """Return resistance by material, kind of conduit and size [ohm/m]."""
    dc = column(1, 2, IMPEDANCE)[:, np.newaxis] * np.ones((1, 3, 1))
    ac = column(5, 10, IMPEDANCE).reshape(2, 3, len(SIZES))
    return ac_resistance(dc, ac, CMIL <= 83690) * PER_KFT


def reactance() -> Floats:
    """Return reactance by kind of conduit and size [ohm/m]."""
    return from_smaller(column(3, 4, IMPEDANCE)[[0, 0, 1]]) * PER_KFT


def code_tables() -> CodeTables:
    """Return all of them; areas in circular mils."""
    return CodeTables(
        CMIL,
        ampacity(),
        column(8, 9),
        CMIL >= 105600,
        resistance(),
        reactance(),
        RATINGS,
        factors(),
        ground_table(),
    )
