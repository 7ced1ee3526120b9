"""Makes fitted.ref.json: the 95 % interval of a fitted diode law by lmfit, an independent program.

Run with: python3 fitted.ref.py > fitted.ref.json
"""

import json
import math

import lmfit
import numpy as np
from scipy.optimize import brentq

BOLTZMANN, CHARGE = 1.380649e-23, 1.602176634e-19
VT = BOLTZMANN * (23 + 273.15) / CHARGE

# The example curve of a diode of Germane, at 23 degC.
V = [0.2 + 0.025 * k for k in range(25)]
I = [2.921e-7, 5.216e-7, 9.284e-7, 0.000001639, 0.000002862, 0.000005099, 0.000009001, 0.00001593, 0.00002815,
     0.00004972, 0.00008805, 0.000155, 0.0002742, 0.0004784, 0.0008497, 0.001477, 0.002586, 0.004435, 0.007518,
     0.01252, 0.01996, 0.03052, 0.04428, 0.06176, 0.08228]


def current(v, ln_is, n, ln_rs):
    """Current of a junction with a series resistance, by bracketing."""
    i_s, r_s = math.exp(ln_is), math.exp(ln_rs)
    def law(i):
        return n * VT * math.log1p(i / i_s) + i * r_s - v
    return brentq(law, 0, i_s * math.expm1(v / (n * VT)) + 1e-30, xtol=1e-22, rtol=1e-14)


def law(v, ln_is, n, ln_rs):
    return np.array([current(x, ln_is, n, ln_rs) for x in v])


model = lmfit.Model(law, independent_vars=["v"])
start = model.make_params(ln_is=math.log(3e-9), n=1.75, ln_rs=0.0)
fit = model.fit(np.array(I), start, v=np.array(V), weights=1 / (0.01 * np.array(I)), method="leastsq")
at = [0.2, 0.35, 0.5, 0.65, 0.8]
half = fit.eval_uncertainty(v=np.array(at), sigma=0.95)
print(json.dumps({
    "source": f"lmfit {lmfit.__version__}, Model.eval_uncertainty with sigma=0.95",
    "points": [{"v": v, "i": float(i), "half": float(h)} for v, i, h in zip(at, fit.eval(v=np.array(at)), half)],
}, indent=1))
