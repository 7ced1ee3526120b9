"""Values of series-junction.ref.json: python3 series-junction.ref.py > series-junction.ref.json (mpmath 1.3.0)."""

import json
import random

from mpmath import exp, lambertw, log, mp, mpf

mp.dps = 60
dice = random.Random(291)


def omega(y):
    """W(e^y); the exponent of an mpf has no bound."""
    return lambertw(exp(mpf(y))).real


def current(saturation, step, series, volts):
    """I = (s / R) W{ (I_S R / s) exp[(V + I_S R) / s] } - I_S."""
    i, s, r, v = (mpf(x) for x in (saturation, step, series, volts))
    return s / r * omega(log(i * r / s) + (v + i * r) / s) - i


junctions = []
for k in range(120):
    saturation = 10 ** dice.uniform(-18, -3)
    step = dice.uniform(0.02, 0.2)
    series = 10 ** dice.uniform(-3, 6)
    volts = dice.choice([dice.uniform(-2, 0), dice.uniform(0, 2), dice.uniform(2, 100), 10 ** dice.uniform(-12, -3)])
    junctions.append([saturation, step, series, volts, mp.nstr(current(saturation, step, series, volts), 17)])

arguments = [dice.uniform(-40, 5) for _ in range(30)] + [10 ** dice.uniform(0, 5) for _ in range(20)] + [-30, -18, -1.5, 0, 1, 3]
plain = [-1 / 2.75, -0.3, -0.2, -0.1, -1e-5, 1e-9, 0.1, 0.5, 1, 2.718281828459045, 3, 3.5, 10, 1e6, 1e300]
print(
    json.dumps(
        {
            "made": "mpmath 1.3.0 with 60 digits, by series-junction.ref.py",
            "columns": {"junctions": "I_S A, n V_T V, R_S ohm, V, I A", "ofExp": "y, W(e^y)", "w": "x, W(x)"},
            "junctions": junctions,
            "ofExp": [[y, mp.nstr(omega(y), 17)] for y in arguments],
            "w": [[x, mp.nstr(lambertw(mpf(x)).real, 17)] for x in plain],
        }
    ).replace("], [", "],\n[")
)
